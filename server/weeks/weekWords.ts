import type { Stretch } from '../calc/schedule/shopTicks.ts'
import { dayWords } from '../schedule/planWords.ts'
import { clockTimeIn } from '../shared/shopTime.ts'
import type { ShopRow } from './weekRows.ts'

/** When on a day: from one time to another, or from or until one, or all of it. */
export function timesOn({ fromMs, toMs }: Stretch, day: Stretch, timeZone: string): string {
  const clock = (at: number): string => clockTimeIn(timeZone, new Date(at))
  if (fromMs <= day.fromMs) return toMs >= day.toMs ? 'all day' : `until ${clock(toMs)}`
  return toMs >= day.toMs ? `from ${clock(fromMs)}` : `${clock(fromMs)} to ${clock(toMs)}`
}

/** Until when a vehicle stands in a bay, or when something is back. */
export const untilWords = ({ toMs }: Stretch, kind: ShopRow['kind'], timeZone: string): string =>
  (kind === 'outside' ? `back ${dayWords(timeZone, toMs)}` : `until ${dayWords(timeZone, toMs)} ${clockTimeIn(timeZone, new Date(toMs))}`)
