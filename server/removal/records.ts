import { REMOVAL_KINDS } from '../calc/removal/partStanding.ts'
import { TRIGGERS } from '../calc/removal/triggers.ts'
import { check, checks, choice, date, longText, money, quantity, reference, referenceToAny, text, time, whole } from '../shared/records/field.ts'
import { defineKind } from '../shared/records/kind.ts'
import { BENCH, EVERYBODY } from '../shared/roles.ts'
import { checkAlteration, checkEdge, checkFactoryPart, checkFastener, checkRecoveredEdge, checkRemoval, placeAfterRemoval, tellOfPart } from './rules.ts'
import { holdRemoval, replaceAfterRemoval } from './takenBackStore.ts'

export const FACTORY_PART_STATES = [
  'fitted', 'loosened', 'out and stored', 'out with the customer', 'altered', 'damaged', 'missing', 'disposed with consent',
] as const
export const FASTENER_KINDS = ['bolt', 'screw', 'nut', 'clip', 'push pin', 'rivet', 'other'] as const
export const DRIVES = ['', 'hex', 'internal hex', 'hexalobular', 'internal hexalobular', 'cross recess', 'slot', 'by hand'] as const
export const ALTERATION_KINDS = ['cut', 'drilled', 'spliced', 'trimmed', 'glued', 'other'] as const

const OF_BENCH = { place: 'builds', isOfBuild: true, seenBy: EVERYBODY, changedBy: BENCH } as const

export const bin = defineKind({
  ...OF_BENCH, name: 'bin', plural: 'bins', path: 'bins', model: 'bin', number: { prefix: 'A', within: 'build' },
  fields: {
    place: text('Where it stands', { isRequired: true, isListed: true, note: 'Rack and shelf, or pallet.' }),
    note: longText('Note'),
  },
  title: (row) => String(row.place), orderBy: [{ number: 'asc' }],
  holds: async (reads, row) => {
    const parts = await reads.factoryPart.count({ where: { binId: row.id, removedAt: null } })
    return parts > 0 ? `${parts} factory parts are in it. Put them elsewhere first.` : null
  },
  firstStep: { why: 'What comes out lies in a numbered bin.', example: 'Bin on rack C, shelf 2.' },
})

export const factoryPart = defineKind({
  ...OF_BENCH, hasPhotos: true, name: 'factory part', plural: 'factory parts', path: 'factory-parts', model: 'factoryPart', number: { prefix: 'F', within: 'build', first: 11 }, knownBy: ['name'],
  fields: {
    zoneId: reference('Zone', 'zone', { isRequired: true, isListed: true }),
    name: text('Name', { isRequired: true }),
    partNumber: text('Vehicle maker’s number'),
    state: choice('State', FACTORY_PART_STATES, { isListed: true, initial: 'fitted' }),
    binId: reference('Bin', 'bin', { isListed: true }),
    place: text('Place', { note: 'Where no bin holds it: with the customer, on the wall.' }),
    stays: check('Stays in the vehicle', { note: 'Looked at in teardown: it need not come out.' }),
    takeOut: time('Time to take it out', { note: 'Not counting what stands in front of it.' }),
    putBack: time('Time to put it back'),
    cautions: checks('Cautions', TRIGGERS),
    connectors: longText('Connectors', { note: 'What has to be unplugged and plugged.' }),
    condition: text('Condition'),
    replaceCost: money('Cost of a new one'),
    leadDays: whole('Lead time of a new one in working days', 0, 400, { initial: 0 }),
    note: longText('Note'),
  },
  title: (row) => String(row.name), orderBy: [{ number: 'asc' }],
  check: checkFactoryPart, after: tellOfPart,
  begin: (row) => ({ href: row ? `/factory-parts/${row.id}/custody` : '/custody', name: row ? 'Where it has been, and move it' : 'All that the shop keeps', roles: EVERYBODY }),
  firstStep: { why: 'What comes out, comes loose or is changed.', example: 'Door panel left: 6 screws, 9 clips, bin 3.' },
})

export const fastener = defineKind({
  ...OF_BENCH, name: 'fastener', plural: 'fasteners', path: 'fasteners', model: 'fastener',
  fields: {
    factoryPartId: reference('Factory part', 'factory part', { isRequired: true, isListed: true, isFixed: true }),
    kind: choice('Kind', FASTENER_KINDS, { isListed: true }),
    count: whole('How many', 1, 999, { isRequired: true, isListed: true }),
    size: text('Size', { isListed: true, note: 'M6 × 20.' }),
    drive: choice('Drive', DRIVES.slice(1), { isRequired: false, note: 'Kinds by ISO 10664 and common use.' }),
    torque: quantity('Torque', 'torque', { isListed: true, largest: 600_000, note: 'With its unit: 9 N·m or 80 lbf·in. Left empty, the sheet says “maker’s manual”.' }),
    torqueSource: text('Where that torque stands', { note: 'The maker’s manual with page. Needed with a torque.' }),
    isSingleUse: check('Single-use', { isListed: true }),
    isSafety: check('Belt, seat or airbag', { note: 'By the maker’s manual only; never computed, never substituted.' }),
    breakShare: quantity('Expected to break', 'share', { largest: 1000, note: 'As 20 %, or 0 % where none does. Left empty, clips break as the shop’s settings say, and nothing else does.' }),
    materialId: reference('Replaced from the material', 'material'),
    price: money('Cost of one'),
    leadDays: whole('Lead time in working days', 0, 400, { initial: 0 }),
    note: text('Note'),
  },
  title: (row) => `${String(row.count)} × ${[row.size, row.kind].filter(Boolean).join(' ')}`,
  check: checkFastener,
  firstStep: { why: 'Count, size and torque, so that it can go back.', example: '4 × M6 × 20 bolt, hexalobular, 9 N·m by the manual.' },
})

export const removal = defineKind({
  ...OF_BENCH, hasPhotos: true, photoMoment: 'during', name: 'removal', plural: 'removals', path: 'removals', model: 'removal',
  fields: {
    factoryPartId: reference('Factory part', 'factory part', { isRequired: true, isListed: true, isFixed: true }),
    kind: choice('What happened', REMOVAL_KINDS, { isListed: true, isFixed: true, initial: 'came out' }),
    binId: reference('Bin', 'bin', { isListed: true }),
    condition: text('Condition', { isListed: true }),
    note: longText('Note'),
  },
  title: (row) => String(row.kind), orderBy: [{ at: 'desc' }],
  check: checkRemoval, after: placeAfterRemoval, holds: holdRemoval, afterRemoval: replaceAfterRemoval,
  firstStep: { why: 'Who took it out, when, and where it lies.', example: 'Came out, bin 3, as new.' },
})

const THINGS = ['factory part', 'equipment line', 'made part'] as const

export const orderEdge = defineKind({
  ...OF_BENCH, name: 'order of removal', plural: 'rules of the order of removal', path: 'order-edges', model: 'orderEdge',
  fields: {
    graph: choice('Vehicle', ['as found', 'as built', 'going back'], { isListed: true, initial: 'as found', note: 'As found: for teardown. As built: what now stands in front. Going back: refitted before.' }),
    beforeId: referenceToAny('First', [...THINGS], { heading: 'It comes out before', isRequired: true, isListed: true }),
    kind: choice('That has to be', ['out', 'loosened'], { isListed: true, initial: 'out' }),
    afterId: referenceToAny('Before this can come out', [...THINGS], { heading: 'What comes out before it', isRequired: true, isListed: true }),
    way: text('Only by this way in', { note: 'Left empty it always holds. Named ways are compared by hours.' }),
    note: text('Note'),
  },
  title: (row) => `${String(row.graph)}, ${String(row.kind)} before`,
  titleBy: (nameIn, row) => `${nameIn('beforeId')} ${String(row.kind)} before ${nameIn('afterId')}`, orderBy: [{ graph: 'asc' }, { id: 'asc' }],
  check: checkEdge, afterRemoval: checkRecoveredEdge,
  firstStep: { why: 'What stands in front of what.', example: 'Speaker grille out before door panel.' },
})

export const alteration = defineKind({
  ...OF_BENCH, hasPhotos: true, name: 'alteration', plural: 'alterations', path: 'alterations', model: 'alteration', number: { prefix: 'X', within: 'build' }, knownBy: ['what'],
  fields: {
    zoneId: reference('Zone', 'zone', { isRequired: true, isListed: true }),
    factoryPartId: reference('Factory part', 'factory part', { isListed: true }),
    kind: choice('Kind', ALTERATION_KINDS, { isListed: true }),
    what: text('What was changed', { isRequired: true }),
    whereAt: text('Where exactly', { isListed: true, note: 'So that somebody else finds it: load floor, 12 cm behind the left hinge.' }),
    why: text('Why'),
    consentBy: text('Consent by', { isListed: true, note: 'An alteration without consent stands open.' }),
    consentOn: date('Consent on'),
    isReversible: check('Can be reversed', { isListed: true, initial: true }),
    reversal: longText('How it is reversed', { note: 'One step a line: they are numbered on the sheet.' }),
    reverse: time('Time to reverse it'),
    partToBuy: text('Part to buy for it', { note: 'Further parts are added on the alteration once it is saved.' }),
    partCost: money('Its cost'),
    leadDays: whole('Its lead time in working days', 0, 400, { initial: 0 }),
    outsideWork: text('Work of another firm for it', { note: 'What a body shop, a painter or an upholsterer has to do.' }),
    outsideCost: money('Cost of that work'),
    outsideDays: whole('Working days it is away', 0, 400, { initial: 0 }),
    reversedOn: date('Reversed on'),
  },
  title: (row) => String(row.what), orderBy: [{ number: 'asc' }],
  check: checkAlteration,
  firstStep: { why: 'What cannot simply be put back.', example: 'Four holes 6 mm in the load floor, consent of the owner, plugged on return.' },
})

export const replacementPart = defineKind({
  ...OF_BENCH, name: 'replacement part', plural: 'replacement parts', path: 'replacement-parts', model: 'replacementPart',
  fields: {
    alterationId: reference('Alteration', 'alteration', { isRequired: true, isListed: true, isFixed: true }),
    name: text('Part to buy', { isRequired: true, isListed: true }),
    count: whole('How many', 1, 999, { isRequired: true, isListed: true, initial: 1 }),
    cost: money('Cost of one'),
    leadDays: whole('Lead time in working days', 0, 400, { initial: 0 }),
  },
  title: (row) => `${String(row.count)} × ${String(row.name)}`,
  firstStep: { why: 'What the reversal takes beside the first part.', example: '2 × body plug 10 mm, 4.80 each, 2 working days.' },
})
