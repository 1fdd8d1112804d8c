import { counted } from '../../web/shared/text.ts'
import { TRIGGERS } from '../calc/removal/triggers.ts'
import { exchangeKit } from '../kits/store.ts'
import type { Write } from '../shared/database/database.ts'
import { check, checks, choice, date, longText, money, quantity, reference, text, time, whole } from '../shared/records/field.ts'
import { defineKind, type Draft, type Values } from '../shared/records/kind.ts'
import { BENCH, EVERYBODY, MANAGERS } from '../shared/roles.ts'

export const EQUIPMENT_KINDS = [
  'source unit', 'processor', 'amplifier', 'speaker', 'subwoofer', 'lighting', 'battery', 'wiring', 'mechanism', 'screen', 'other',
] as const

export const equipmentItem = defineKind({
  name: 'catalog item', plural: 'equipment catalog', path: 'catalog', model: 'equipmentItem', place: 'stock', isOfBuild: false,
  number: { prefix: 'K', within: 'shop' }, knownBy: ['maker', 'model'],
  fields: {
    kind: choice('Kind', EQUIPMENT_KINDS, { isListed: true }),
    maker: text('Maker', { isRequired: true }),
    model: text('Model', { isRequired: true }),
    cost: money('Cost', { isRequired: true, isListed: true }),
    price: money('Price', { isRequired: true, isListed: true }),
    leadDays: whole('Lead time in working days', 0, 400, { initial: 0 }),
    kitId: reference('Kit', 'kit', { note: 'The small parts that a line of it gets. Lines that stand keep theirs.' }),
    mass: quantity('Mass', 'mass', { largest: 500_000 }),
    mountingDepth: quantity('Mounting depth', 'length', { largest: 2_000_000, note: 'Behind the face it is mounted on.' }),
    projection: quantity('Projection', 'length', { largest: 2_000_000, note: 'In front of that face, with its own grille.' }),
    length: quantity('Length', 'length', { largest: 3_000_000, note: 'Of a box over all; of a speaker what passes the cutout.' }),
    width: quantity('Width', 'length', { largest: 3_000_000 }),
    height: quantity('Height', 'length', { largest: 3_000_000, note: 'As it stands, under a seat or a lid.' }),
    current: quantity('Supply current', 'current', { largest: 1_000_000 }),
    resistance: quantity('Nominal load', 'resistance', { largest: 1_000_000, note: 'Nominal impedance of a speaker, smallest load of an amplifier.' }),
    channels: whole('Channels', 1, 64),
    fuse: quantity('Fuse', 'current', { largest: 1_000_000 }),
    warrantyMonths: whole('Warranty in months', 0, 240),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: MANAGERS, title: (row) => `${String(row.maker)} ${String(row.model)}`, orderBy: [{ maker: 'asc' }, { model: 'asc' }],
  firstStep: { why: 'What the shop fits again and again is entered once.', example: 'Midrange 100 mm, 4 Ω, mounting depth 52 mm.' },
})

export const equipmentLine = defineKind({
  name: 'equipment line', plural: 'equipment', path: 'equipment-lines', model: 'equipmentLine', place: 'builds', isOfBuild: true,
  number: { prefix: 'E', within: 'build' },
  fields: {
    zoneId: reference('Zone', 'zone', { isRequired: true, isListed: true }),
    itemId: reference('From the catalog', 'catalog item', { note: 'Brings name, cost and price where they are left empty.' }),
    name: text('What', { note: 'Left empty: maker and model of the catalog item.' }),
    quantity: whole('Quantity', 1, 1_000, { isRequired: true, isListed: true, initial: 1 }),
    kitId: reference('Kit', 'kit', { changedBy: MANAGERS, note: 'Its parts become needs of this line. Left empty in a new line: the kit of the catalog item.' }),
    suppliedBy: choice('Supplied by', ['shop', 'customer'], { initial: 'shop' }),
    cost: money('Cost each', { changedBy: MANAGERS }),
    price: money('Price each', { changedBy: MANAGERS }),
    taxCodeId: reference('Tax code', 'tax code', { seenBy: MANAGERS }),
    serialNumbers: longText('Serial numbers', { changedBy: BENCH, note: 'One a line, when it arrives.' }),
    optionId: reference('Option of the quote', 'quote option', { seenBy: MANAGERS, changedBy: MANAGERS, note: 'The customer says yes or no to it, with its own price.' }),
    placeId: reference('Mounting place', 'mounting place', { changedBy: BENCH, note: 'Its fit is checked against the room measured there.' }),
    spacer: quantity('Spacer', 'length', { changedBy: BENCH, largest: 500_000, note: 'The one really used; left empty, the smallest that would do is looked for.' }),
    mounting: text('Mounting', { changedBy: BENCH }),
    expectedOn: date('Expected', { isListed: true }),
    receivedOn: date('Received', { isListed: true, changedBy: BENCH }),
    isFitted: check('Fitted', { isListed: true, changedBy: BENCH, note: 'From then on it counts as standing in the vehicle.' }),
    takeOut: time('Time to take it out', { changedBy: BENCH }),
    putBack: time('Time to put it back', { changedBy: BENCH }),
    cautions: checks('Cautions', TRIGGERS, { changedBy: BENCH }),
    note: longText('Note', { changedBy: BENCH }),
  },
  seenBy: EVERYBODY, changedBy: BENCH, title: (row) => String(row.name), orderBy: [{ number: 'asc' }], hasOwnPage: true,
  check: fillFromCatalog,
  after: (write, row, { before, actor }) =>
    exchangeKit(write, { id: row.id, buildId: String(row.buildId) }, idOrNull(before?.kitId), idOrNull(row.kitId), actor),
  holds: async (reads, row) => {
    const entries = await reads.timeEntry.count({ where: { operation: { lineId: row.id } } })
    return entries > 0 ? `${counted(entries, 'entry of hours stands', 'entries of hours stand')} on its operations, so it stays on record.` : null
  },
  firstStep: { why: 'What goes in.', example: 'Amplifier, six channels, 2 of the shop, zone load floor.' },
})

const idOrNull = (value: unknown): string | null => (typeof value === 'string' ? value : null)

async function fillFromCatalog(write: Write, { before, values }: Draft): Promise<Values> {
  const item = typeof values.itemId === 'string' ? await write.equipmentItem.findUnique({ where: { id: values.itemId } }) : null
  const name = String(values.name ?? '') || (item ? `${item.maker} ${item.model}` : 'unnamed equipment')
  const isCustomers = values.suppliedBy === 'customer'
  return {
    name,
    cost: isCustomers ? 0 : Number(values.cost ?? item?.cost ?? 0),
    price: isCustomers ? 0 : Number(values.price ?? item?.price ?? 0),
    ...(before === null && idOrNull(values.kitId) === null && item?.kitId ? { kitId: item.kitId } : {}),
  }
}
