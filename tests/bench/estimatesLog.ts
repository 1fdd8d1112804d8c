import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { learnHours, type HourRecord } from '../../server/calc/estimate/hourHistory.ts'
import { projectFolder } from '../../server/shared/database/projectFolder.ts'

// A published log of estimated and actual hours of one firm (Jones and Cullum, arXiv 1901.01621). It has no license file
// and is read only where it lies beside the project; nothing of it is kept here.
const FILE = join(projectFolder(), '..', 'shared', 'data', 'estimates', 'estimated-actual.csv')
const FIRST = 100
const HOUR = 3600

/** Each task of the log predicted from those before it, in the order of their numbers. */
export function benchEstimatesLog(): void {
  if (!existsSync(FILE)) return console.log('published log of estimates: not beside the project, left out')
  const log = readFileSync(FILE, 'utf8').trim().split('\n').slice(1).map(toRecord).filter(({ estimatedS, workS }) => estimatedS > 0 && workS > 0)
  const found = log.slice(FIRST).map((task, index) => outcomeOf(task, log.slice(0, FIRST + index)))
  const mean = (of: (outcome: Outcome) => number): number => found.reduce((sum, outcome) => sum + of(outcome), 0) / found.length
  const inside = (share: 'in80' | 'in90'): string => `${(100 * mean((outcome) => Number(outcome[share]))).toFixed(1)} %`
  console.log(`published log of estimates, ${found.length} tasks each predicted from those before: squared error of the log ratio ${mean(({ log: off }) => off ** 2).toFixed(4)} `
    + `(as estimated ${mean(({ plainLog }) => plainLog ** 2).toFixed(4)}), absolute error ${mean(({ off }) => off).toFixed(3)} h (as estimated ${mean(({ plainOff }) => plainOff).toFixed(3)} h), `
    + `inside their 80 in 100 ${inside('in80')}, inside their 90 in 100 ${inside('in90')}; one that ends on the value counts as inside (${endingOnIt(found)} end exactly on their estimate)`)
}

interface Outcome {
  readonly log: number
  readonly plainLog: number
  readonly off: number
  readonly plainOff: number
  readonly in80: boolean
  readonly in90: boolean
}

// Equal but for the last digits of a power is equal.
const CLOSE = 1 + 1e-9

function outcomeOf({ kind, departmentId, estimatedS, workS }: HourRecord, before: readonly HourRecord[]): Outcome {
  const learned = learnHours(before).of(kind, departmentId)
  if (!learned) throw new Error('nothing was learned from the tasks before')
  const ratio = learned.ratio / 1000
  const within = (share: number): boolean => workS <= estimatedS * learned.quantile(share) * CLOSE
  return {
    log: Math.log(workS / estimatedS / ratio), plainLog: Math.log(workS / estimatedS),
    off: Math.abs(workS - estimatedS * ratio) / HOUR, plainOff: Math.abs(workS - estimatedS) / HOUR, in80: within(0.8), in90: within(0.9),
  }
}

const endingOnIt = (found: readonly Outcome[]): string => `${(100 * found.filter(({ plainLog }) => plainLog === 0).length / found.length).toFixed(0)} %`

function toRecord(line: string): HourRecord {
  const [order = '', kind = '', subkind = '', estimated, actual] = line.split(',')
  return { buildId: order, kind: subkind, departmentId: kind, estimatedS: Number(estimated) * HOUR, workS: Number(actual) * HOUR, reworkS: 0 }
}
