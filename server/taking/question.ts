import { z } from 'zod'
import { writeDay } from '../../web/shared/day.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { addDays, parseDate } from '../calc/calendar.ts'

/** Plans look half a year ahead. */
const FURTHEST_DAYS = 180

/** What is asked: done by a day, begun no earlier than another. Both may be open. */
export interface Question {
  readonly by: string | null
  readonly from: string | null
}

export const questionQuery = z.object({
  by: z.string().max(40).optional().describe('The day by which it should be done, YYYY-MM-DD; the day promised or wished for without it'),
  from: z.string().max(40).optional().describe('No work before this day, YYYY-MM-DD; today without it'),
})
export type Typed = z.infer<typeof questionQuery>

/** What was typed, checked; where it was left out, the day promised or wished for, if that is still to come. */
export function readQuestion({ by, from }: Typed, { wanted, today }: { readonly wanted: string | null, readonly today: string }): { question: Question, problems: FieldProblem[] } {
  const problems: FieldProblem[] = []
  const last = addDays(today, FURTHEST_DAYS)
  const read = (field: 'by' | 'from', text: string | undefined): string | null => {
    if (text === undefined || text.trim() === '') return null
    const found = parseDate(text)
    const message = !found.ok ? found.message
      : found.date < today ? `${writeDay(found.date)} is past: ask for today, ${writeDay(today)}, or a day to come.`
        : found.date > last ? `Plans look half a year ahead: ask for a day up to ${writeDay(last)}.` : null
    if (message !== null) problems.push({ field, message })
    return found.ok && message === null ? found.date : null
  }
  const question = { by: read('by', by ?? (wanted !== null && wanted >= today && wanted <= last ? wanted : undefined)), from: read('from', from) }
  if (question.by !== null && question.from !== null && question.from > question.by) {
    problems.push({ field: 'from', message: 'It cannot begin after the day by which it should be done: choose an earlier start or a later day.' })
  }
  return { question, problems }
}
