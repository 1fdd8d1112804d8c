import { choice, date, longText, money, quantity, reference, text } from '../shared/records/field.ts'
import { defineKind } from '../shared/records/kind.ts'
import { BENCH, COUNTER, EVERYBODY } from '../shared/roles.ts'
import { applySwap, checkClaim, checkSwap, checkVisit, heldByWork, turnSwap, warnOfClaim } from './rules.ts'

export const CAUSES = ['not found yet', 'material', 'workmanship', 'equipment', 'use', 'the vehicle itself', 'other'] as const
export const PAYERS = ['shop warranty', 'maker’s warranty', 'customer'] as const
export const CLAIM_STATES = ['sent', 'accepted', 'refused', 'settled'] as const

const OF_BUILD = { place: 'builds', isOfBuild: true, seenBy: EVERYBODY } as const

export const serviceVisit = defineKind({
  ...OF_BUILD, name: 'service visit', plural: 'service visits', path: 'service-visits', model: 'serviceVisit', number: { prefix: 'W', within: 'build' },
  fields: {
    cameOn: date('Came on', { isRequired: true, isListed: true }),
    odometer: quantity('Odometer', 'distance'),
    complaint: text('Complaint', { isRequired: true, note: 'In the customer’s words.' }),
    cause: choice('Cause', CAUSES, { isListed: true, initial: 'not found yet' }),
    found: longText('What was found and done'),
    paidBy: choice('Paid by', PAYERS, { isListed: true, initial: 'shop warranty' }),
    leftOn: date('Left on', { isListed: true, note: 'From then on its operations are no longer offered to the bench.' }),
    note: longText('Note'),
  },
  changedBy: EVERYBODY, title: (row) => String(row.complaint), orderBy: [{ number: 'desc' }], hasOwnPage: true, hasPhotos: true,
  check: checkVisit, holds: heldByWork,
  firstStep: { why: 'The vehicle comes back: what the customer hears or misses.', example: 'Rattle in the left front door above 40 km/h.' },
})

export const makerClaim = defineKind({
  ...OF_BUILD, name: 'maker’s claim', plural: 'maker’s claims', path: 'maker-claims', model: 'makerClaim',
  fields: {
    visitId: reference('Service visit', 'service visit', { isRequired: true, isFixed: true }),
    lineId: reference('Equipment', 'equipment line', { isRequired: true, isListed: true, isFixed: true }),
    claimedOn: date('Claimed on', { isRequired: true, isListed: true }),
    reference: text('The maker’s reference', { isListed: true }),
    state: choice('State', CLAIM_STATES, { isListed: true, initial: 'sent' }),
    amount: money('Credited', { isListed: true }),
    answeredOn: date('Answered on'),
    note: longText('Note'),
  },
  changedBy: COUNTER, title: (row) => ['claim', row.reference, row.state].filter(Boolean).join(' '), orderBy: [{ claimedOn: 'desc' }, { id: 'desc' }],
  check: checkClaim, warns: warnOfClaim,
  firstStep: { why: 'What the maker of the equipment has to make good.', example: 'Amplifier, channel 3 dead, claim 4471.' },
})

export const serialSwap = defineKind({
  ...OF_BUILD, name: 'serial swap', plural: 'serial swaps', path: 'serial-swaps', model: 'serialSwap',
  fields: {
    visitId: reference('Service visit', 'service visit', { isRequired: true, isFixed: true }),
    lineId: reference('Equipment', 'equipment line', { isRequired: true, isListed: true, isFixed: true }),
    oldSerial: text('Number that came out', { isRequired: true, isListed: true, isFixed: true, note: 'As it stands on the line now.' }),
    newSerial: text('Number that went in', { isRequired: true, isListed: true, isFixed: true }),
    swappedOn: date('Swapped on', { isRequired: true, isListed: true }),
    warrantyUntil: date('Warranty of the new unit until', { note: 'Where it has its own; else that of the first one runs on.' }),
    note: longText('Where the old unit is', { isListed: true, note: 'Sent to the maker, returned to the customer, or scrapped with consent.' }),
  },
  changedBy: BENCH, title: (row) => `${String(row.oldSerial)} → ${String(row.newSerial)}`, orderBy: [{ swappedOn: 'desc' }, { id: 'desc' }],
  check: checkSwap, after: applySwap, afterRemoval: turnSwap,
  firstStep: { why: 'Which unit came out and which went in.', example: 'VS4-00127 → VS4-00388.' },
})
