import type { Reads, Write } from '../shared/database/database.ts'
import { nameOf } from '../shared/records/display.ts'
import type { Field } from '../shared/records/field.ts'
import { kindsReferredTo, numbered } from '../shared/records/kind.ts'
import { listRecords } from '../shared/records/table.ts'
import { fold } from './headings.ts'

export type Found = { readonly id: string } | { readonly message: string }

/** The records a field may refer to, by what people call them. */
export interface Names {
  find(text: string): Found
  /** Several in one cell, apart by semicolons or commas. */
  findAll(text: string): { readonly ids: readonly string[] } | { readonly message: string }
  /** All names by id. */
  readonly all: ReadonlyMap<string, string>
  /** What stands in an export for a record. */
  nameOf(id: string): string
}

const MOST_OFFERED = 8

export async function loadNames(client: Reads | Write, field: Field, buildId: string | null): Promise<Names> {
  const byExact = new Map<string, Set<string>>()
  const byFolded = new Map<string, Set<string>>()
  const names = new Map<string, string>()
  for (const kind of kindsReferredTo(field.entry)) {
    const rows = await listRecords(client, kind, kind.isOfBuild && buildId ? { buildId } : {})
    for (const row of rows) {
      const name = nameOf(kind, row)
      names.set(row.id, name)
      add(byExact, name, row.id)
      for (const called of [name, kind.title(row), numbered(kind, row)]) add(byFolded, fold(called), row.id)
    }
  }
  const find = (text: string): Found => {
    const ids = [...(byExact.get(text.trim()) ?? byFolded.get(fold(text)) ?? [])]
    const [id] = ids
    if (id !== undefined && ids.length === 1) return { id }
    if (ids.length > 1) return { message: `${field.label}: ${ids.length} are called “${text}”. Write one as ${ids.map((one) => `“${names.get(one) ?? ''}”`).join(' or ')}, or rename one.` }
    return { message: `${field.label}: there is no “${text.slice(0, 60)}”. ${offered([...names.values()])}` }
  }
  return { all: names, find, findAll: (text) => findAll(text, find), nameOf: (id) => names.get(id) ?? '' }
}

function add(map: Map<string, Set<string>>, key: string, id: string): void {
  if (key === '') return
  map.set(key, (map.get(key) ?? new Set()).add(id))
}

function offered(names: readonly string[]): string {
  if (names.length === 0) return 'There is none yet: add it first.'
  const more = names.length > MOST_OFFERED ? ` and ${names.length - MOST_OFFERED} more` : ''
  return `There are: ${names.slice(0, MOST_OFFERED).join(', ')}${more}. Write one of these, or add it first.`
}

// A name may hold a comma itself, so the longest run of pieces that is a name counts as one.
function findAll(text: string, find: Names['find']): ReturnType<Names['findAll']> {
  const pieces = text.split(/([;,])/)
  const ids: string[] = []
  for (let from = 0; from < pieces.length;) {
    const run = longestName(pieces, from, find)
    if ('message' in run) return run
    if (run.id !== '') ids.push(run.id)
    from = run.next
  }
  return { ids: [...new Set(ids)].sort() }
}

function longestName(pieces: readonly string[], from: number, find: Names['find']): { id: string; next: number } | { message: string } {
  if ((pieces[from] ?? '').trim() === '') return { id: '', next: from + 2 }
  for (let to = pieces.length; to > from; to -= 2) {
    const found = find(pieces.slice(from, to).join('').trim())
    if ('id' in found) return { id: found.id, next: to + 1 }
  }
  const found = find((pieces[from] ?? '').trim())
  return 'message' in found ? found : { id: found.id, next: from + 2 }
}
