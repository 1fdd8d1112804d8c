import type { FieldProblem } from '../../web/shared/viewer.ts'
import { isCalendarDate } from '../calc/calendar.ts'
import { FieldProblems } from '../shared/problems.ts'
import { choice, date, reference, text, time, type EntryContext, type Field } from '../shared/records/field.ts'
import type { Body } from '../shared/records/submission.ts'

export const TIME_KINDS = ['work', 'rework', 'waiting'] as const
export type TimeKind = (typeof TIME_KINDS)[number]

const LONGEST_S = 24 * 3600
const EARLIEST = '2000-01-01'

const WHY = text('Why', { note: 'Needed for rework and waiting: what had to be done again, or what was waited for.' })
const KIND = choice('Kind', TIME_KINDS, { initial: 'work' })
const OPERATION = reference('Operation', 'operation', { isRequired: true })
const DAY = date('Date', { isRequired: true })

/** What is typed for hours after the fact. */
export const ENTRY_FIELDS = {
  operationId: OPERATION, date: DAY, kind: KIND, why: WHY,
  time: time('Hours', { isRequired: true, least: 60, largest: LONGEST_S, note: '1.5 h, 1:30 or 90 min.' }),
  personId: reference('Whose hours', 'person'),
}

/** A correction may also take hours back, by nothing. */
export const CORRECTION_FIELDS = {
  operationId: OPERATION, date: DAY, kind: KIND, why: WHY,
  time: time('Hours', { isRequired: true, largest: LONGEST_S, note: '0 takes them back. The first entry stays on record.' }),
}

/** What a running timer is stopped or switched with. */
export const SETTLEMENT_FIELDS = { why: WHY, time: time('Hours really worked', { initial: null, largest: LONGEST_S }) }

export interface Typed {
  readonly operationId: string
  readonly date: string
  readonly kind: TimeKind
  readonly why: string
  /** Seconds. */
  readonly time: number
}

/** Checked values of a form or of the API's JSON, with all that is wrong at once. Throws FieldProblems. */
export function readFields(fields: Readonly<Record<string, Field>>, body: Body, context: EntryContext): Record<string, unknown> {
  const values: Record<string, unknown> = {}
  const problems: FieldProblem[] = []
  for (const [name, field] of Object.entries(fields)) {
    const checked = field.input(context).safeParse(body[name] ?? field.initial ?? '')
    if (checked.success) values[name] = checked.data.value
    else problems.push({ field: name, message: checked.error.issues[0]?.message ?? 'This cannot be taken.' })
  }
  if (problems.length > 0) throw new FieldProblems(problems)
  return values
}

/** Hours as typed. Throws FieldProblems for what no single field can tell. */
export function readEntry(fields: Readonly<Record<string, Field>>, body: Body, context: EntryContext, today: string): Typed & { personId: string | null } {
  const values = readFields(fields, body, context) as unknown as Typed & { personId?: string | null }
  const problems = [...wrongDay(values.date, today), ...missingWhy(values)]
  if (problems.length > 0) throw new FieldProblems(problems)
  return { ...values, personId: values.personId ?? null }
}

function wrongDay(day: string, today: string): FieldProblem[] {
  if (day > today) return [{ field: 'date', message: `Hours are logged when they are over: ${day} is still to come. Choose today or an earlier day.` }]
  if (isCalendarDate(day) && day < EARLIEST) return [{ field: 'date', message: `Check the year: ${day} is before any build here.` }]
  return []
}

export function missingWhy({ kind, why }: { kind: string; why: string }): FieldProblem[] {
  if (kind === 'work' || why !== '') return []
  return [{ field: 'why', message: kind === 'rework' ? 'Rework needs a why: say what had to be done again, and for what reason.' : 'Waiting needs a why: say what was waited for.' }]
}
