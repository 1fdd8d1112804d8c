import type { PlanFor, Planned } from '../hours/planned.ts'
import { momentWords } from '../schedule/planWords.ts'
import { loadPlanInForce } from '../schedule/planStore.ts'
import { shopOf } from '../shared/access.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'

/** When the plan in force has each operation begin, and whose it is. */
export const loadPlanFor: PlanFor = async (reads, personId, today) => {
  const inForce = await loadPlanInForce(reads)
  if (inForce === null) return new Map()
  const { timeZone } = await shopOf(reads)
  const names = new Map(inForce.content.people.map(({ id, name }) => [id, name]))
  return new Map(inForce.content.work.map(({ operationId, startsAt, personIds }): [string, Planned] => {
    const startsMs = Date.parse(startsAt)
    const isToday = calendarDateIn(timeZone, new Date(startsMs)) === today
    const when = isToday ? `at ${clockTimeIn(timeZone, new Date(startsMs))}` : momentWords(timeZone, startsMs)
    const isMine = personIds.includes(personId)
    return [operationId, { startsMs, isMine, words: isMine ? `By the plan ${when}.` : `Planned for ${personIds.map((id) => names.get(id) ?? 'somebody else').join(' and ')} ${when}.` }]
  }))
}
