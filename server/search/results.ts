import type { Role } from '../../web/shared/viewer.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { getKind, numbered, type RecordKind } from '../shared/records/kind.ts'
import { nameOf } from '../shared/records/display.ts'
import { listFindable, type Findable } from './findable.ts'
import { exactness, holds, textAt } from './matching.ts'
import { findOfKind, MOST_FOUND } from './store.ts'
import { readSearch, refuseSearch, type Search } from './words.ts'

export const SHOWN_AT_ONCE = 20

export interface Found {
  readonly id: string
  readonly number: string
  readonly name: string
  readonly href: string
  readonly build: { readonly id: string, readonly name: string } | null
  /** Where the words stand, apart from number and name. */
  readonly foundIn: readonly { readonly field: string, readonly text: string }[]
}

export interface FoundGroup {
  readonly kind: RecordKind
  readonly found: readonly Found[]
  readonly total: number
  /** There may be more than were counted. */
  readonly isCapped: boolean
  /** The page after this one, or null. */
  readonly next: number | null
}

export interface Results {
  /** Why nothing was looked for, or that nothing was found; else empty. */
  readonly note: string
  readonly groups: readonly FoundGroup[]
}

interface Asked {
  readonly find: string
  /** The address of the only kind that is asked for. */
  readonly kindPath: string | undefined
  readonly page: number
}

/** What fits, kind by kind: those whose number was typed come first. */
export async function findEverywhere(reads: Reads, role: Role, { find, kindPath, page }: Asked): Promise<Results> {
  const refusal = refuseSearch(find)
  if (refusal !== null) return { note: refusal, groups: [] }
  const findable = listFindable(role).filter(({ kind }) => kindPath === undefined || kind.path === kindPath)
  const search = readSearch(find)
  const narrowed = await searchAll(reads, findable, search, page)
  // "B-21" may be part of a model's name as well.
  const groups = narrowed.length > 0 || search.builds.length === 0 ? narrowed : await searchAll(reads, findable, { words: [...search.words, ...search.builds], builds: [] }, page)
  return { note: groups.length === 0 ? 'Nothing fits. Every word has to stand in the same record; try fewer, or a part of one.' : '', groups }
}

async function searchAll(reads: Reads, findable: readonly Findable[], search: Search, page: number): Promise<FoundGroup[]> {
  const groups: { readonly group: FoundGroup, readonly best: number }[] = []
  for (const each of findable) {
    if (search.builds.length > 0 && !each.kind.isOfBuild) continue
    const ranked = (await findOfKind(reads, each, search)).map((row) => ({ row, rank: exactness(each.kind, row, search.words) }))
    if (ranked.length === 0) continue
    const sorted = ranked.toSorted((a, b) => b.rank - a.rank)
    groups.push({ group: toGroup(each, search, sorted.map(({ row }) => row), page), best: sorted[0]?.rank ?? 0 })
  }
  return groups.toSorted((a, b) => b.best - a.best).map(({ group }) => group)
}

function toGroup(findable: Findable, search: Search, rows: readonly Row[], page: number): FoundGroup {
  const end = page * SHOWN_AT_ONCE
  return {
    kind: findable.kind, total: rows.length, isCapped: rows.length >= MOST_FOUND, next: rows.length > end ? page + 1 : null,
    found: rows.slice(end - SHOWN_AT_ONCE, end).map((row) => toFound(findable, search, row)),
  }
}

function toFound({ kind, fields }: Findable, { words }: Search, row: Row): Found {
  const build = row.build as Row | undefined
  const title = kind.title(row)
  const matched = fields.filter((field) => words.some((word) => holds(row, field, word)) && !title.includes(textAt(row, field.path)))
  return {
    id: row.id, number: numbered(kind, row), name: title, href: `/${kind.path}/${row.id}`,
    build: kind.isOfBuild && build ? { id: build.id, name: nameOf(getKind('build'), build) } : null,
    foundIn: matched.map(({ label, path }) => ({ field: label, text: shorten(textAt(row, path)) })),
  }
}

const LONGEST_EXCERPT = 120

function shorten(text: string): string {
  const line = text.replaceAll(/\s*\n\s*/g, ', ')
  return line.length <= LONGEST_EXCERPT ? line : `${line.slice(0, LONGEST_EXCERPT)} …`
}
