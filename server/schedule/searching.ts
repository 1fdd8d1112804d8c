import { setImmediate } from 'node:timers/promises'
import { parentPort, workerData } from 'node:worker_threads'
import { randomFrom } from '../calc/random.ts'
import { simulateCases, type Cases, type UnsureWork } from '../calc/schedule/chances.ts'
import type { Schedule, ScheduleProblem } from '../calc/schedule/problem.ts'
import type { PlanBefore } from '../calc/schedule/change.ts'
import { searchLeastChange } from '../calc/schedule/leastChange.ts'
import { searchSchedule } from '../calc/schedule/search.ts'
import { CASES } from './planContent.ts'

export interface Searched {
  readonly tries: number
  readonly leastDelay: number
  /** Only where it is better than the one told before. */
  readonly better: Schedule | null
  /** With the last word: how the plan ends in many cases. */
  readonly cases: Cases | null
}

export interface SearchGiven {
  readonly problem: ScheduleProblem
  /** Where as little as can be is to change; null where all is planned from the beginning. */
  readonly before: PlanBefore | null
  readonly mostMs: number
  readonly unsure: UnsureWork
  /** Found already. */
  readonly first: Schedule
}

const TOLD_EVERY_MS = 500

const { problem, before, mostMs, unsure, first } = workerData as SearchGiven
const repair = before === null ? null : searchLeastChange(problem, before, randomFrom(1))
const search = repair === null || repair.best() === null ? searchSchedule(problem, randomFrom(1)) : repair
const endAt = performance.now() + mostMs
let isStopped = false
let tries = 0
let told: Schedule | null = null
parentPort!.on('message', () => { isStopped = true })

while (!isStopped && !search.isProven() && performance.now() < endAt) {
  const tellAt = Math.min(performance.now() + TOLD_EVERY_MS, endAt)
  while (!search.isProven() && performance.now() < tellAt) {
    search.step()
    tries += 1
  }
  const best = search.best()
  const searched: Searched = { tries, leastDelay: search.leastDelay, better: best === told ? null : best, cases: null }
  parentPort!.postMessage(searched)
  told = best
  await setImmediate()
}
const last: Searched = { tries, leastDelay: search.leastDelay, better: null, cases: simulateCases(problem, told ?? first, unsure, CASES, randomFrom(1)) }
parentPort!.postMessage(last)
parentPort!.close()
