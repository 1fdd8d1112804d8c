import { setImmediate } from 'node:timers/promises'
import type { HistoryData } from '../../web/history/history.tsx'
import { foretellEach, type ClosedBuild, type CoveredBuild, type Foretold } from '../calc/estimate/hourCoverage.ts'
import type { LearnedRatio } from '../calc/estimate/hourHistory.ts'
import type { Working, WorkingInput } from '../calc/amounts.ts'
import { formatQuantity } from '../calc/figures.ts'
import { scaleHalfAway } from '../calc/rounding.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Workings } from '../shared/workings.ts'
import { counted } from '../../web/shared/text.ts'
import { loadLearned, type Learned } from './learned.ts'
import { listDepartments, togetherAsSet } from './store.ts'
import { learnedWorkings } from './learnedWorkings.ts'
import { ratioText, worthOf, worthOfBuilds } from './words.ts'

/** The newest delivered builds that are foretold from the others: each costs a drawing of all its cases. */
const MOST_FORETOLD = 60

export interface Measured {
  readonly together: number
  readonly builds: readonly CoveredBuild[]
  readonly operations: { readonly all: number, readonly in80: number, readonly in90: number }
}

/** All that the page and its JSON tell. */
export interface ShopHistory extends Learned {
  readonly departments: ReadonlyMap<string, { readonly name: string, readonly reworkAllowance: number }>
  /** As the shop has set how far things go wrong together. */
  readonly measured: Measured
}

export async function loadShopHistory(reads: Reads): Promise<ShopHistory> {
  const learned = await loadLearned(reads)
  const departments = new Map((await listDepartments(reads)).map(({ id, name, reworkAllowance }) => [id, { name, reworkAllowance }]))
  const together = await togetherAsSet(reads)
  const delivered = learned.builds.filter(({ isDelivered }) => isDelivered).slice(0, MOST_FORETOLD)
  const foretold = learned.builds.filter((build) => !build.isDelivered || delivered.includes(build))
  return { ...learned, departments, measured: { together, ...await measure(foretold, together) } }
}

// A turn for others after each build: all of them together take seconds.
async function measure(builds: readonly ClosedBuild[], together: number): Promise<Omit<Measured, 'together'>> {
  const found: Foretold[] = []
  for (const one of foretellEach(builds, together)) {
    found.push(one)
    await setImmediate()
  }
  const operations = found.flatMap((one) => one.operations)
  return {
    builds: found.map(({ build }) => build),
    operations: { all: operations.length, in80: operations.filter(({ in80 }) => in80).length, in90: operations.filter(({ in90 }) => in90).length },
  }
}

export const insideOf = (builds: readonly CoveredBuild[], of: (build: CoveredBuild) => number): number => builds.filter((build) => build.tookS <= of(build)).length

export function toHistoryPage({ history, leftOut, departments, measured }: ShopHistory): HistoryData {
  const { builds, operations } = measured
  const measure = (how: string, name: string, inside: number, all: number): HistoryData['measures'][number] => ({ how, name, text: all === 0 ? '' : `${inside} of ${all}, ${formatQuantity(scaleHalfAway(inside, 100, all) * 10, 'share', 'metric')}` })
  return {
    records: history.records, builds: history.builds,
    shop: history.shop ? { text: ratioText(history.shop.ratio), how: 's' } : null,
    rows: inOrder(history.groups, departments).map(({ group, department, key }) => ({
      kind: group.kind, department, how: key, ratio: ratioText(group.ratio), records: String(group.records),
      low: ratioText(group.low), high: ratioText(group.high), rework: formatQuantity(group.reworkShare, 'share', 'metric'), worth: worthOf(group.records),
    })),
    measures: builds.length === 0 ? [] : [
      measure('c80', 'Builds, inside their 80 in 100', insideOf(builds, ({ in80S }) => in80S), builds.length),
      measure('c90', 'Builds, inside their 90 in 100', insideOf(builds, ({ in90S }) => in90S), builds.length),
      measure('ce', 'Builds, inside the estimate as typed', insideOf(builds, ({ estimatedS }) => estimatedS), builds.length),
      measure('o80', 'Operations, inside their 80 in 100', operations.in80, operations.all),
      measure('o90', 'Operations, inside their 90 in 100', operations.in90, operations.all),
    ],
    worth: worthOfBuilds(builds.length),
    together: {
      set: formatQuantity(measured.together, 'share', 'metric').replace(' %', ''),
      found: history.together === null ? null : { text: formatQuantity(history.together, 'share', 'metric').replace(' %', ''), how: 't' },
    },
    leftOut: leftOut.length === 0 ? '' : `${counted(leftOut.length, 'build teaches', 'builds teach')} nothing, because their records contradict each other: ${leftOut.join(', ')}.`,
  }
}

export function historyWorkings({ history, departments, measured }: ShopHistory): Workings {
  const ofGroups = inOrder(history.groups, departments).flatMap(({ group, department, key }) => [...learnedWorkings(key, `${group.kind}, ${department}`, group, history.shop)])
  return new Map([
    ...(history.shop ? learnedWorkings('s', 'The shop', history.shop, null) : []), ...ofGroups,
    ['c80', coverageWorking('Builds inside their 80 in 100', measured, ({ in80S }) => in80S, '80 in 100 was')],
    ['c90', coverageWorking('Builds inside their 90 in 100', measured, ({ in90S }) => in90S, '90 in 100 was')],
    ['ce', coverageWorking('Builds inside the estimate as typed', measured, ({ estimatedS }) => estimatedS, 'estimate as typed was')],
    ['o80', ofOperations('Operations inside their 80 in 100', measured.operations.in80, measured.operations.all)],
    ['o90', ofOperations('Operations inside their 90 in 100', measured.operations.in90, measured.operations.all)],
    ...(history.together === null ? [] : [['t', togetherWorking(history.together, history.builds)] as const]),
  ])
}

/** By department, then by kind, with the key of their figures. */
export function inOrder(groups: readonly LearnedRatio[], departments: ShopHistory['departments']) {
  return groups.map((group) => ({ group, department: departments.get(group.departmentId)?.name ?? 'a department that was taken away' }))
    .sort((one, other) => one.department.localeCompare(other.department, 'en') || one.group.kind.localeCompare(other.group.kind, 'en'))
    .map((row, index) => ({ ...row, key: `k${index}` }))
}

const LEFT_OUT = 'Each build is foretold from all others, as if every ratio they teach had been accepted, rework with the allowance of its department. '
  + 'One that ends exactly on the value counts as inside.'

function coverageWorking(title: string, { builds, together }: Measured, of: (build: CoveredBuild) => number, what: string): Working {
  const time = (label: string, source: string, value: number): WorkingInput => ({ label, source, amount: { kind: 'time', value } })
  return {
    title, inputs: builds.flatMap((build) => [time(build.label, 'took, work and rework', build.tookS), time(build.label, what, of(build))]),
    result: { kind: 'count', value: insideOf(builds, of) }, formula: 'count of builds that took no more',
    assumed: `${LEFT_OUT} Things go wrong together in ${together / 10} of 100.`, source: 'leave-one-out cross-validation (Stone 1974, from memory)',
  }
}

function ofOperations(title: string, inside: number, all: number): Working {
  return {
    title, inputs: [{ label: 'Operations that are done, of delivered builds', source: 'estimate and time entries', amount: { kind: 'count', value: all } }],
    result: { kind: 'count', value: inside }, formula: 'count of operations whose work took no more',
    assumed: 'Each is foretold from all other builds. Rework is not in it. One that ends exactly on the value counts as inside.', source: 'leave-one-out cross-validation (Stone 1974, from memory)',
  }
}

function togetherWorking(value: number, builds: number): Working {
  return {
    title: 'How far the operations of one build went wrong together', inputs: [{ label: 'Builds', source: 'with operations that are done', amount: { kind: 'count', value: builds } }],
    result: { kind: 'share', value }, formula: 'variance between builds ÷ (variance between + variance within builds)',
    assumed: 'Of the logarithm of logged ÷ estimated, after the ratio of its kind is taken off. Never below 0.', source: 'analysis of variance of one way, method of moments',
  }
}
