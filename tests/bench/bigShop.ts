import { checkSchedule } from '../../server/calc/schedule/checkSchedule.ts'
import { listImpossible } from '../../server/calc/schedule/impossible.ts'
import type { ScheduleProblem } from '../../server/calc/schedule/problem.ts'
import { searchSchedule } from '../../server/calc/schedule/search.ts'
import { randomFrom } from '../../server/calc/random.ts'
import { drawShop } from '../support/generatedShop.ts'
import { median } from './measure.ts'

const SHOPS = 12
const MOST_MS = 200
const SIZE = { people: 8, bays: 5, vehicles: 20, work: 20 }

/** How long the first plan of a shop with four hundred open operations takes: eight people, five bays, rolling in and out. */
export function benchBigShop(): void {
  const times: number[] = []
  let drawn = 0
  for (; times.length < SHOPS && drawn < 2 * SHOPS; drawn += 1) {
    const problem = withoutImpossible(drawShop(drawn + 1, SIZE))
    const startedAt = process.cpuUsage()
    const first = searchSchedule(problem, randomFrom(1)).best()
    const { user, system } = process.cpuUsage(startedAt)
    if (first === null) continue
    const faults = checkSchedule(problem, first)
    if (faults.length > 0) throw new Error(`shop ${drawn + 1}: ${faults[0]}`)
    times.push((user + system) / 1_000)
  }
  console.log(`first plan of a shop with ${SIZE.vehicles * SIZE.work} open operations, ${times.length} of ${drawn} drawn: ${(median(times) / MOST_MS).toFixed(2)} × the ${MOST_MS} ms allowed, ${(Math.max(...times) / MOST_MS).toFixed(2)} × at most (median ${median(times).toFixed(0)} ms of processor time)`)
}

/** What is proven to fit nowhere is made easier. For what is left none may be found: drawn pins can be in each other's way. */
function withoutImpossible(problem: ScheduleProblem): ScheduleProblem {
  const impossible = new Set(listImpossible(problem).filter(({ isProven }) => isProven).map(({ activity }) => activity))
  if (impossible.size === 0) return problem
  const activities = problem.activities.map((activity, place) => (impossible.has(place) ? { ...activity, fixed: null, mayPause: true, needs: activity.needs.slice(0, 1).map((need) => ({ ...need, units: 1 })) } : activity))
  return withoutImpossible({ ...problem, activities })
}
