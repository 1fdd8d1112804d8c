import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { checkSchedule } from '../../server/calc/schedule/checkSchedule.ts'
import { searchSchedule } from '../../server/calc/schedule/search.ts'
import { projectFolder } from '../../server/shared/database/projectFolder.ts'
import { randomFrom } from '../../server/calc/random.ts'
import { readProject } from '../support/publishedProjects.ts'

// PSPLIB (Kolisch and Sprecher 1996), read only where it lies beside the project; three of them are in tests/support/published.
const FOLDER = join(projectFolder(), '..', 'shared', 'data', 'projects')
const INSTANCES = 12
const SEARCH_MS = 1_000

/** The mean gap to the published makespans after a second of one thread, a first plan and a searched one. */
export function benchPublishedProjects(isFull: boolean): void {
  if (!existsSync(FOLDER)) return console.log('published scheduling problems: not beside the project, left out')
  for (const set of ['j30', 'j60', 'j120']) {
    const all = readFileSync(join(FOLDER, set, 'published.csv'), 'utf8').trim().split('\n').slice(1).map((line) => line.split(',') as [string, string])
    const chosen = isFull ? all : all.filter((_, place) => place % Math.floor(all.length / INSTANCES) === 0).slice(0, INSTANCES)
    const gaps = chosen.map(([file, published]) => gapOf(join(FOLDER, set, file), Number(published)))
    const mean = (of: 'first' | 'searched'): string => `${(100 * gaps.reduce((sum, gap) => sum + gap[of], 0) / gaps.length).toFixed(2)} %`
    console.log(`published scheduling problems ${set}, ${chosen.length}: ${mean('searched')} above the published end after ${SEARCH_MS} ms of search, ${mean('first')} at once; ${gaps.filter(({ isProven }) => isProven).length} proven by their bound`)
  }
}

function gapOf(path: string, published: number): { readonly first: number, readonly searched: number, readonly isProven: boolean } {
  const problem = readProject(path)
  const startedAt = process.cpuUsage().user
  const search = searchSchedule(problem, randomFrom(1))
  const first = search.best()!.endTick
  while (process.cpuUsage().user - startedAt < 1_000 * SEARCH_MS && !search.isProven()) search.step()
  const best = search.best()!
  const faults = checkSchedule(problem, best)
  if (faults.length > 0) throw new Error(`${path}: ${faults[0]}`)
  return { first: first / published - 1, searched: best.endTick / published - 1, isProven: search.isProven() }
}
