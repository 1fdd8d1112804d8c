import type { Row } from '../shared/database/delegate.ts'
import { label } from '../shared/records/kind.ts'
import type { Rows } from './scope.ts'

/** The records of a preview by what they are called on paper: P-510, E-04, F-021, and P-510.20 for an operation on one. */
export interface Keys {
  readonly idOf: ReadonlyMap<string, string>
  readonly keyOf: ReadonlyMap<string, string>
  /** The operations on a part, line or factory part, in their order. */
  operationsOn(id: string): readonly Row[]
}

const PREFIXES = [['fabricatedPart', 'P'], ['equipmentLine', 'E'], ['factoryPart', 'F']] as const

export function keysOf(rows: Rows): Keys {
  const keyOf = new Map(PREFIXES.flatMap(([table, prefix]) => rows[table].map((row) => [row.id, label(prefix, Number(row.number))] as const)))
  const taken = new Set<string>()
  const byOwner = new Map<string, Row[]>()
  for (const operation of rows.operation) {
    const owner = ownerOf(operation)
    byOwner.set(owner, [...(byOwner.get(owner) ?? []), operation])
    const plain = `${keyOf.get(owner) ?? ''}.${String(operation.number)}`
    // Two operations may carry the same number.
    const key = taken.has(plain) ? `${plain}-${taken.size}` : plain
    taken.add(key)
    keyOf.set(operation.id, key)
  }
  return { keyOf, idOf: new Map([...keyOf].map(([id, key]) => [key, id])), operationsOn: (id) => byOwner.get(id) ?? [] }
}

export const ownerOf = ({ partId, lineId, factoryPartId }: Row): string => String(partId ?? lineId ?? factoryPartId ?? '')
