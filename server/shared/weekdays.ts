import { invalid } from './problems.ts'

/** Stored as 1 to 7, Monday first (ISO 8601). */
export const WEEKDAYS = ['1', '2', '3', '4', '5', '6', '7'] as const
export const WEEKDAY_WORDS: Readonly<Record<string, string>> = { 1: 'Monday', 2: 'Tuesday', 3: 'Wednesday', 4: 'Thursday', 5: 'Friday', 6: 'Saturday', 7: 'Sunday' }

/** Two clock times of a form, both or neither, the later one later. Throws the problem of the field. */
export function checkHours(values: Readonly<Record<string, unknown>>, { from, to }: { readonly from: string, readonly to: string }): void {
  const [one, other] = [values[from] ?? null, values[to] ?? null]
  if ((one === null) !== (other === null)) throw invalid(one === null ? from : to, 'Enter both hours, or leave both empty.')
  if (one !== null && Number(other) <= Number(one)) throw invalid(to, 'The later hour is after the earlier one.')
}
