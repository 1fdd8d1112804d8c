import { FINISH_KINDS } from '../calc/finishHold.ts'
import { choice, date, longText, reference, text } from '../shared/records/field.ts'
import { defineKind } from '../shared/records/kind.ts'
import { BENCH, EVERYBODY } from '../shared/roles.ts'
import { tellTakenBack, withdrawApproval } from './rules.ts'

export const SAMPLE_STATES = ['no sample yet', 'sample shown', 'approved', 'refused'] as const

const TAKES_BACK = 'Changed after approval, it takes the approval back.'
/** Set by the acts of their own, never typed into the form. */
const BY_ACT = { changedBy: [] }

export const finish = defineKind({
  name: 'finish', plural: 'finishes', path: 'finishes', model: 'finish', place: 'builds', isOfBuild: true,
  number: { prefix: 'S', within: 'build' },
  fields: {
    partId: reference('Made part', 'made part', { isRequired: true, isListed: true, isFixed: true }),
    kind: choice('Kind', FINISH_KINDS, { isListed: true, note: TAKES_BACK }),
    material: text('Material', { isListed: true, note: `Product or grade: satin clear coat; full grain, 1.2 mm. ${TAKES_BACK}` }),
    color: text('Color', { isListed: true, note: TAKES_BACK }),
    code: text('Paint or anodize code', { note: TAKES_BACK }),
    grain: text('Grain direction'),
    thread: text('Thread'),
    supplier: text('Supplier'),
    batch: text('Batch or dye lot', { note: TAKES_BACK }),
    sampleState: choice('Sample', SAMPLE_STATES, { ...BY_ACT, isListed: true, initial: 'no sample yet' }),
    approvedBy: text('Decided by', BY_ACT),
    approvedOn: date('Decided on', BY_ACT),
    refusal: text('Why it was refused', BY_ACT),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: BENCH,
  title: (row) => [row.kind, row.color].filter((word) => word !== '').join(', '),
  orderBy: [{ number: 'asc' }], hasOwnPage: true,
  check: withdrawApproval, after: tellTakenBack,
  firstStep: { why: 'No finish is laid on before its sample is approved.', example: 'Door card: leather, tan, thread 40 sand, dye lot when it arrives.' },
})
