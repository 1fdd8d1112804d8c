import { setImmediate } from 'node:timers/promises'
import { parentPort, workerData } from 'node:worker_threads'
import { randomFrom } from '../calc/random.ts'
import type { Schedule, ScheduleProblem } from '../calc/schedule/problem.ts'
import { searchSchedule } from '../calc/schedule/search.ts'

export interface Searched {
  readonly tries: number
  readonly leastDelay: number
  /** Only where it is better than the one told before. */
  readonly better: Schedule | null
}

export interface SearchGiven {
  readonly problem: ScheduleProblem
  readonly mostMs: number
}

const TOLD_EVERY_MS = 500

const { problem, mostMs } = workerData as SearchGiven
const search = searchSchedule(problem, randomFrom(1))
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
  const searched: Searched = { tries, leastDelay: search.leastDelay, better: best === told ? null : best }
  parentPort!.postMessage(searched)
  told = best
  await setImmediate()
}
parentPort!.close()
