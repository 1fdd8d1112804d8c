import type { Row } from '../shared/database/delegate.ts'
import { chosenRows, type Rows, type Scope } from './scope.ts'
import { COPIED, FIRST_NUMBER, REFERENCES, SAYS_ORIGIN, TABLES, type Table } from './tables.ts'

export interface Times {
  readonly setUp?: number | undefined
  readonly run?: number | undefined
  readonly runBest?: number | null | undefined
  readonly runWorst?: number | null | undefined
}

/** What of an earlier build is wanted, and what of it differs. */
export interface Choice extends Scope {
  /** The zone of this build that all of it goes into; null where the zones come along. */
  readonly intoZoneId: string | null
  readonly quantities: ReadonlyMap<string, number>
  readonly times: ReadonlyMap<string, Times>
}

/** The build that it goes into, as far as it stands. */
export interface Target {
  readonly buildId: string
  readonly zones: readonly { readonly id: string, readonly name: string, readonly place: string }[]
  /** The largest number of each numbered table so far, 0 where there is none. */
  readonly last: Readonly<Partial<Record<Table, number>>>
}

export type NewRow = Readonly<Record<string, unknown>> & { readonly id: string }
export type NewRows = Readonly<Record<Table, readonly NewRow[]>>

/** The rows to write, with references that lead to each other, and for each the record it was taken from. */
export interface Plan {
  readonly rows: NewRows
  readonly originOf: ReadonlyMap<string, Row>
}

/** All rows of a takeover, without writing any. `newId` makes the ids, in rising order. */
export function planTakeover(source: Rows, target: Target, choice: Choice, newId: () => string): Plan {
  const chosen = chosenRows(source, choice)
  const newIds = new Map<string, string>()
  const originOf = new Map<string, Row>()
  const present = zonesThere(chosen.zone, target, choice)
  for (const [old, id] of present) newIds.set(old, id)
  const rows = Object.fromEntries(TABLES.map((table) => {
    let number = Math.max(target.last[table] ?? 0, (FIRST_NUMBER[table] ?? 1) - 1)
    const written = chosen[table].filter(({ id }) => !present.has(id)).flatMap((row): NewRow[] => {
      const references = toReferences(table, row, newIds)
      if (!references) return []
      const id = newId()
      newIds.set(row.id, id)
      originOf.set(id, row)
      return [{
        id, buildId: target.buildId, ...copied(table, row), ...references, ...changed(table, row, choice),
        ...(FIRST_NUMBER[table] === undefined ? {} : { number: number += 1 }), ...(SAYS_ORIGIN.includes(table) ? { copiedFromId: row.id } : {}),
      }]
    })
    return [table, written]
  })) as unknown as NewRows
  return { rows, originOf }
}

/** Zones that stand here already under the same name and place take what was there in theirs. */
function zonesThere(zones: readonly Row[], { zones: here }: Target, { intoZoneId }: Choice): Map<string, string> {
  const same = (zone: Row): string | undefined =>
    here.find(({ name, place }) => place === zone.place && name.toLowerCase() === String(zone.name).toLowerCase())?.id
  return new Map(zones.flatMap((zone) => {
    const id = intoZoneId ?? same(zone)
    return id === undefined ? [] : [[zone.id, id] as const]
  }))
}

/** The references of a row as they lead here; null where something it needs does not come along. */
function toReferences(table: Table, row: Row, newIds: ReadonlyMap<string, string>): Record<string, string | null> | null {
  const entries = Object.entries(REFERENCES[table]).map(([name, need]) => {
    const old = row[name]
    return [name, typeof old === 'string' ? newIds.get(old) : null, need] as const
  })
  if (entries.some(([, id, need]) => id === undefined && need === 'needed')) return null
  return Object.fromEntries(entries.map(([name, id]) => [name, id ?? null]))
}

function copied(table: Table, row: Row): Record<string, unknown> {
  return { ...Object.fromEntries(COPIED[table].map((name) => [name, row[name]])), entered: JSON.stringify(typed(table, row)) }
}

/** What was typed for the fields that are taken over. */
function typed(table: Table, row: Row): Record<string, unknown> {
  const names: readonly string[] = COPIED[table]
  return Object.fromEntries(Object.entries(JSON.parse(row.entered) as Record<string, unknown>).filter(([name]) => names.includes(name)))
}

/** What was edited before it was taken over; an edited time is no longer what was typed there. */
function changed(table: Table, row: Row, { quantities, times }: Choice): Record<string, unknown> {
  const quantity = table === 'fabricatedPart' || table === 'equipmentLine' ? quantities.get(row.id) : undefined
  const given = table === 'operation' ? times.get(row.id) : undefined
  const different = Object.entries({ ...(quantity === undefined ? {} : { quantity }), ...given }).filter(([name, value]) => value !== undefined && value !== row[name])
  if (different.length === 0) return {}
  const names = different.map(([name]) => name)
  const entered = Object.fromEntries(Object.entries(typed(table, row)).filter(([name]) => !names.includes(name)))
  return { ...Object.fromEntries(different), entered: JSON.stringify(entered) }
}
