import { totalsBy, tookWorkings, type TookRow, type TookTotal } from '../calc/estimate/afterBuild.ts'
import type { Side, SideRow } from '../../web/afterbuild/sides.tsx'
import { writeHours } from '../../web/shared/amount.ts'
import { counted } from '../../web/shared/text.ts'
import type { Working } from '../calc/amounts.ts'

export interface SideOf {
  readonly key: string
  readonly name: string
  readonly of: string
  readonly totals: readonly TookTotal[]
}

const byName = (one: TookTotal, other: TookTotal): number => one.name.localeCompare(other.name, 'en')

export const byDepartment = (rows: readonly TookRow[]): SideOf => ({ key: 'd', name: 'By department', of: 'Department', totals: totalsBy(rows, ({ department }) => department).sort(byName) })
export const byKind = (rows: readonly TookRow[]): SideOf => ({ key: 'k', name: 'By kind of operation', of: 'Kind', totals: totalsBy(rows, ({ kind }) => kind).sort(byName) })
export const byOwner = (rows: readonly TookRow[]): SideOf => ({ key: 'p', name: 'By made part, equipment and factory part', of: 'Of', totals: totalsBy(rows, ({ owner }) => owner) })
/** Operations that were done again, the most first. */
export const byRework = (rows: readonly TookRow[], keyOf: (row: TookRow) => string): SideOf =>
  ({ key: 'w', name: 'Where rework came from', of: 'Operation', totals: totalsBy(rows.filter(({ reworkS }) => reworkS > 0), keyOf).sort((one, other) => other.reworkS - one.reworkS) })

const FEW_BUILDS = 3

/** A side of the page; over several builds each row says what so few are worth. */
export function toSide({ key, name, of, totals }: SideOf, whole: TookTotal | null, isOfMany: boolean): Side {
  return {
    name, of, rows: totals.map((total, index) => toRow(`${key}${index}`, total, isOfMany)),
    ...(whole === null ? {} : { whole: toRow('t', whole, false) }),
  }
}

function toRow(how: string, total: TookTotal, isOfMany: boolean): SideRow {
  const hours = (seconds: number): string => writeHours(seconds)
  const few = total.builds < FEW_BUILDS ? ': too few to say anything of the next' : ''
  return {
    how, name: total.name, estimate: hours(total.estimatedS), took: hours(total.tookS), over: hours(total.overS), rework: hours(total.reworkS),
    note: isOfMany ? `${counted(total.operations, 'operation', 'operations')} in ${counted(total.builds, 'build', 'builds')}${few}` : '',
  }
}

export function sideWorkings({ key, totals }: SideOf, by: 'operation' | 'build'): [string, Working][] {
  return totals.flatMap((total, index) => tookWorkings(`${key}${index}`, total, by))
}

