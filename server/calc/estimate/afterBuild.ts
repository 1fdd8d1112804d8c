import type { AmountKind, Working } from '../amounts.ts'
import { groupBy, sumOf } from '../grouping.ts'

/** What one operation was estimated at and took, person-seconds; of nobody in particular. */
export interface TookRow {
  readonly buildId: string
  readonly build: string
  readonly label: string
  /** The made part, equipment line, factory part or build it is of. */
  readonly owner: string
  readonly department: string
  readonly kind: string
  /** With the allowance for rework. */
  readonly estimatedS: number
  readonly workS: number
  readonly reworkS: number
  readonly waitingS: number
}

/** A group of operations, or all of them. */
export interface TookTotal {
  readonly name: string
  readonly operations: number
  readonly builds: number
  readonly estimatedS: number
  /** Work and rework. */
  readonly tookS: number
  readonly reworkS: number
  readonly waitingS: number
  /** Took less estimated: above 0 it ran over. */
  readonly overS: number
  readonly rows: readonly TookRow[]
}

/**
 * Sums of estimate and hours over groups, the groups in the order they come. Every grouping of the same rows sums to the
 * same total. Person-seconds, whole. Source: common practice, no source.
 * @example toTotal('all', []).overS // 0
 */
export function totalsBy(rows: readonly TookRow[], keyOf: (row: TookRow) => string): TookTotal[] {
  return [...groupBy(rows, keyOf)].map(([name, own]) => toTotal(name, own))
}

export function toTotal(name: string, rows: readonly TookRow[]): TookTotal {
  const estimatedS = sumOf(rows, (row) => row.estimatedS)
  const reworkS = sumOf(rows, (row) => row.reworkS)
  const tookS = sumOf(rows, ({ workS }) => workS) + reworkS
  return {
    name, operations: rows.length, builds: new Set(rows.map(({ buildId }) => buildId)).size, estimatedS, tookS, reworkS,
    waitingS: sumOf(rows, ({ waitingS }) => waitingS), overS: tookS - estimatedS, rows,
  }
}

/** What departments are told together: those in which one person alone has worked, so that no figure is a person's. */
export const TOLD_TOGETHER = 'Departments told together'

/**
 * The name under which the hours of each department are told: its own where at least two people have worked in it, else
 * one name for all others. Where that would hold a single department, the one with the fewest people beside it joins.
 * Where not even two can be told together, all are.
 *
 * Source: a smallest cell of two people, ours, no source.
 * @example namesToTell([{ id: 'a', name: 'A', people: 3 }, { id: 'b', name: 'B', people: 1 }]) // new Map([['b', 'Departments told together'], ['a', 'Departments told together']])
 */
export function namesToTell(departments: readonly { readonly id: string, readonly name: string, readonly people: number }[]): Map<string, string> {
  const worked = departments.filter(({ people }) => people > 0).toSorted((one, other) => one.people - other.people)
  const alone = worked.filter(({ people }) => people === 1).length
  const together = alone === 1 ? 2 : alone
  return new Map([
    ...worked.map(({ id, name }, index): [string, string] => [id, index < together ? TOLD_TOGETHER : name]),
    ...departments.filter(({ people }) => people === 0).map(({ id, name }): [string, string] => [id, name]),
  ])
}

const COLUMNS: readonly (readonly [letter: string, title: string, of: (total: TookTotal) => number, ofRow: (row: TookRow) => number])[] = [
  ['e', 'person-hours estimated', ({ estimatedS }) => estimatedS, ({ estimatedS }) => estimatedS],
  ['l', 'person-hours logged', ({ tookS }) => tookS, ({ workS, reworkS }) => workS + reworkS],
  ['r', 'rework logged', ({ reworkS }) => reworkS, ({ reworkS }) => reworkS],
]
const SOURCE = 'common practice, no source'

/** How the figures of a group come about: k3e the estimate, k3l what was logged, k3r the rework, k3d what is between. */
export function tookWorkings(key: string, total: TookTotal, by: 'operation' | 'build'): [string, Working][] {
  const lines = by === 'operation' ? total.rows.map((row) => toTotal(row.label, [row])) : totalsBy(total.rows, ({ build }) => build)
  const time = (label: string, source: string, value: number) => ({ label, source, amount: { kind: 'time' as AmountKind, value } })
  return [
    ...COLUMNS.map(([letter, title, of]): [string, Working] => [`${key}${letter}`, {
      title: `${total.name}: ${title}`, inputs: lines.filter((line) => of(line) !== 0).map((line) => time(line.name, by === 'operation' ? 'its operation' : 'its operations', of(line))),
      result: { kind: 'time', value: of(total) }, formula: `sum over ${by}s`,
      assumed: letter === 'e' ? 'As it stands now, the allowance for rework and what was accepted of the shop’s hours included.' : letter === 'l' ? 'Work and rework of everybody. Of a corrected entry the correction counts; waiting is not in it.' : '',
      source: SOURCE,
    }]),
    [`${key}d`, {
      title: `${total.name}: over the estimate`, inputs: [time('Logged', 'work and rework', total.tookS), time('Estimated', 'with the allowance for rework', total.estimatedS)],
      result: { kind: 'time', value: total.overS }, formula: 'logged − estimated', assumed: 'Below 0 it took less than estimated.', source: SOURCE,
    }],
  ]
}
