import { readFileSync } from 'node:fs'
import type { ScheduleProblem } from '../../server/calc/schedule/problem.ts'

/**
 * A published scheduling problem in Patterson's form (.rcp): counts; capacities; for each activity its duration, what it
 * takes of each resource, how many follow it, and which. The last activity follows all others; its end is the makespan.
 */
export function readProject(path: string): ScheduleProblem {
  const numbers = readFileSync(path, 'utf8').trim().split(/\s+/).map(Number)
  const next = (): number => numbers.shift()!
  const count = next()
  const resourceCount = next()
  const capacities = Array.from({ length: resourceCount }, next)
  const rows = Array.from({ length: count }, () => {
    const work = next()
    const takes = Array.from({ length: resourceCount }, next)
    return { work, takes, followers: Array.from({ length: next() }, () => next() - 1) }
  })
  return {
    resources: capacities.map((capacity, place) => ({ name: `R${place + 1}`, capacity })),
    activities: rows.map(({ work, takes }, activity) => ({
      name: String(activity + 1), work, earliestTick: 0, mayPause: false, stay: null, keepsIn: false, fixed: null,
      after: rows.flatMap(({ followers }, earlier) => (followers.includes(activity) ? [{ activity: earlier, lagTicks: 0 }] : [])),
      needs: takes.flatMap((units, resource) => (units > 0 ? [{ anyOf: [resource], units, isHeld: false }] : [])),
    })),
    stays: [],
    ends: [{ activity: count - 1, dueTick: 0, weight: 1 }],
    horizonTicks: rows.reduce((sum, { work }) => sum + work, 0) + 1,
  }
}
