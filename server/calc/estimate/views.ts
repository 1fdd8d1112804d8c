import { groupBy } from '../grouping.ts'
import { placesOf } from '../parts/owners.ts'
import type { Owner } from '../parts/owners.ts'
import { addSums, shareSums } from '../shares.ts'
import type { Sums } from '../shares.ts'

/** Sums that belong to an owner and a department: what every view of a build is summed from. */
export interface Row<K extends string> {
  readonly label: string
  readonly owner: Owner
  /** Null where nobody said which. */
  readonly departmentId: string | null
  readonly sums: Sums<K>
}

/** The sums of a zone, a department or an owner (null: none), and what they are made of. */
export interface View<K extends string> {
  readonly id: string | null
  readonly sums: Sums<K>
  readonly entries: readonly { readonly label: string, readonly sums: Sums<K> }[]
}

export function viewByDepartment<K extends string>(keys: readonly K[], rows: readonly Row<K>[]): View<K>[] {
  return toViews(keys, groupBy(rows, row => row.departmentId))
}

/** Parts, equipment lines, factory parts and the build itself, each row once, with the one that owns it. */
export function viewByOwner<K extends string>(keys: readonly K[], rows: readonly Row<K>[]): (View<K> & { readonly owner: Owner })[] {
  return [...groupBy(rows, ({ owner }) => `${owner.kind} ${owner.id}`).values()].flatMap(rowsOfOwner => rowsOfOwner.slice(0, 1)
    .map(({ owner }) => ({ owner, id: owner.id, sums: addSums(keys, rowsOfOwner.map(({ sums }) => sums)), entries: rowsOfOwner })))
}

/** Rows of things that stand in several zones are shared by their pieces, without a rest. */
export function viewByZone<K extends string>(keys: readonly K[], rows: readonly Row<K>[]): View<K>[] {
  const shares = rows.flatMap(({ label, owner, sums }) => {
    const places = placesOf(owner)
    return shareSums(keys, sums, places.map(([, pieces]) => pieces))
      .map((share, index) => ({ label, zoneId: places[index]?.[0] ?? null, sums: share }))
  })
  return toViews(keys, groupBy(shares, share => share.zoneId))
}

function toViews<K extends string>(
  keys: readonly K[], groups: Map<string | null, { readonly label: string, readonly sums: Sums<K> }[]>,
): View<K>[] {
  return [...groups].map(([id, entries]) => ({ id, sums: addSums(keys, entries.map(({ sums }) => sums)), entries }))
}
