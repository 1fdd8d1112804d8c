import type { Row } from '../shared/database/delegate.ts'
import { showValue, type Reader } from '../shared/records/display.ts'
import { getKind } from '../shared/records/kind.ts'
import { seenFields } from '../shared/records/submission.ts'
import type { Role } from '../../web/shared/viewer.ts'
import { COPIED, KIND_OF, type Table } from './tables.ts'

/** A record of the earlier build beside its copy; one of them is missing where it was not taken over, or is new. */
export interface Pair {
  readonly there: Row | null
  readonly here: Row | null
}

/** All records of both builds, each copy beside where it came from, then those that are only here. */
export function pairUp(there: readonly Row[], here: readonly Row[]): Pair[] {
  const known = new Set(there.map(({ id }) => id))
  return [
    ...there.flatMap((row): Pair[] => {
      const copies = here.filter(({ copiedFromId }) => copiedFromId === row.id)
      return copies.length === 0 ? [{ there: row, here: null }] : copies.map((copy) => ({ there: row, here: copy }))
    }),
    ...here.filter(({ copiedFromId }) => !known.has(String(copiedFromId ?? ''))).map((row) => ({ there: null, here: row })),
  ]
}

/** In which of the fields that were taken over a copy now differs, in words; only those that this role sees. */
export function differencesOf(table: Table, { there, here }: Pair, reader: Reader & { readonly role: Role }): string {
  if (!here) return 'not here'
  if (!there) return 'new here'
  const names: readonly string[] = COPIED[table]
  const differing = seenFields(getKind(KIND_OF[table] ?? ''), reader.role).filter(([name]) => names.includes(name) && (there[name] ?? null) !== (here[name] ?? null))
  return differing.map(([name, field]) => {
    if (field.entry.as === 'reference') return `another ${field.label.toLowerCase()}`
    const [first, second] = [there, here].map((row) => showValue(field, row[name], reader, new Map(), row) || 'none')
    return field.entry.as === 'long' ? `another ${field.label.toLowerCase()}` : `${field.label.toLowerCase()} ${first} there, ${second} here`
  }).join('; ')
}
