import { z } from 'zod'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { readHanded } from '../links/orders.ts'
import { FieldProblems } from '../shared/problems.ts'
import type { CalendarOrder, CalendarSubject } from './store.ts'

export const USUAL_DAYS = 365
export const LONGEST_DAYS = 1096

/** As it stands in the form: what it is, and which. */
export const valueOf = ({ kind, id }: Pick<CalendarSubject, 'kind' | 'id'>): string => `${kind}:${id}`

const given = z.object({ subject: z.string(), note: z.string(), days: z.union([z.string(), z.number()]) }).partial()
export type Given = z.infer<typeof given>
export const readGiven = (body: unknown): Given => given.catch({}).parse(body ?? {})

/** What was typed or sent, checked against what this person may have. Throws FieldProblems. */
export function readOrder(body: unknown, subjects: readonly CalendarSubject[]): CalendarOrder {
  const { subject = '', note = '', days = '' } = readGiven(body)
  const chosen = subjects.find((one) => valueOf(one) === subject)
  const handed = readHanded({ note, days }, { usual: USUAL_DAYS, longest: LONGEST_DAYS })
  const problems: FieldProblem[] = chosen ? handed.problems : [{ field: 'subject', message: 'Choose whose days, which bay or which build: one of those listed.' }, ...handed.problems]
  if (!chosen || problems.length > 0) throw new FieldProblems(problems)
  return { subject: chosen, note: handed.note, days: handed.days }
}
