import { FieldProblems, Problem } from '../shared/problems.ts'
import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { choice, date, text, type EntryContext } from '../shared/records/field.ts'
import type { Body } from '../shared/records/submission.ts'
import { changeRecord, getRecord } from '../shared/records/table.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { finish } from './records.ts'

export const DECISIONS = ['approved', 'refused'] as const

const FIELDS = {
  decision: choice('Decision', DECISIONS, { initial: 'approved' }),
  by: text('By whom', { isRequired: true }),
  on: date('On'),
  why: text('Why'),
}

export interface Decision {
  readonly decision: (typeof DECISIONS)[number]
  readonly by: string
  readonly on: string
  readonly why: string
}

/** What the customer decided, as typed; the day is today where none is given. Throws FieldProblems. */
export function readDecision(body: Body, context: EntryContext, today: string): Decision {
  const values: Record<string, unknown> = {}
  const problems: FieldProblem[] = []
  for (const [name, field] of Object.entries(FIELDS)) {
    const checked = field.input(context).safeParse(body[name] ?? field.initial ?? '')
    if (checked.success) values[name] = checked.data.value
    else problems.push({ field: name, message: checked.error.issues[0]?.message ?? 'This cannot be taken.' })
  }
  const read = { ...values, on: values.on ?? today } as Decision
  if (read.on > today) problems.push({ field: 'on', message: `On: ${read.on} is still to come. Enter the day the customer decided.` })
  if (read.decision === 'refused' && read.why === '') problems.push({ field: 'why', message: 'Why was the sample refused? The next one is made by it.' })
  if (problems.length > 0) throw new FieldProblems(problems)
  return read
}

/** Writes the customer's decision about the sample. */
export async function decide(write: Write, id: string, { decision, by, on, why }: Decision, actor: Actor): Promise<Row> {
  const { version } = await getUsed(write, id)
  const values = { sampleState: decision, approvedBy: by, approvedOn: on, refusal: decision === 'refused' ? why : '' }
  return changeRecord(write, finish, id, version, { values, entered: {} }, actor)
}

/** A sample was made and lies with the customer. */
export async function showSample(write: Write, id: string, actor: Actor): Promise<Row> {
  const { version, sampleState } = await getUsed(write, id)
  if (sampleState === 'approved') throw new Problem(409, 'Approved already', 'The sample of this finish is approved. Change color, material, code or batch if another one is to be laid on.')
  const values = { sampleState: 'sample shown', approvedBy: '', approvedOn: null, refusal: '' }
  return changeRecord(write, finish, id, version, { values, entered: {} }, actor)
}

async function getUsed(write: Write, id: string): Promise<Row> {
  const row = await getRecord(write, finish, id)
  if (row.removedAt) throw new Problem(409, 'Not in use', 'This finish was removed. Take it back first.')
  return row
}
