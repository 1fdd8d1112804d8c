import type { Reads } from '../shared/database/database.ts'
import { delegate, type Row } from '../shared/database/delegate.ts'
import type { Findable, FindableField } from './findable.ts'
import { isMatch, mayBeNumberOf, withoutGaps } from './matching.ts'
import { loosely, type Search, type SearchWord } from './words.ts'

/** So many of a kind are looked at in detail; who finds more narrows it. */
export const MOST_FOUND = 400
const ROWS_AT_ONCE = 400

type Where = Readonly<Record<string, unknown>>

/**
 * Records of one kind that fit, the newest first. The database looks for text within text, which no
 * index can serve, so numbers have none of their own either: a shop's tables are read in milliseconds.
 */
export async function findOfKind(reads: Reads, findable: Findable, search: Search): Promise<Row[]> {
  const numbers = search.words.filter((word) => mayBeNumberOf(findable.kind, word)).flatMap(({ number }) => number?.number ?? [])
  const where = whereOf(findable, search)
  const byNumber = numbers.length === 0 ? [] : await collect(reads, findable, search, { AND: [where, { number: { in: numbers } }] })
  const byText = await collect(reads, findable, search, where)
  const seen = new Set(byNumber.map(({ id }) => id))
  return [...byNumber, ...byText.filter(({ id }) => !seen.has(id))].slice(0, MOST_FOUND)
}

async function collect(reads: Reads, findable: Findable, { words }: Search, where: Where): Promise<Row[]> {
  const found: Row[] = []
  for (let cursor: string | undefined; found.length < MOST_FOUND;) {
    const rows = await delegate(reads, findable.kind.model).findMany({
      where, orderBy: [{ id: 'desc' }], take: ROWS_AT_ONCE, include: includeOf(findable), ...(cursor === undefined ? {} : { cursor: { id: cursor }, skip: 1 }),
    })
    found.push(...rows.filter((row) => isMatch(row, findable, words)))
    cursor = rows.at(-1)?.id
    if (rows.length < ROWS_AT_ONCE) break
  }
  return found
}

function whereOf(findable: Findable, { words, builds }: Search): Where {
  const { kind } = findable
  const inBuilds = builds.length === 0 ? {} : { number: { in: builds.flatMap(({ number }) => number?.number ?? []) } }
  return {
    removedAt: null,
    ...(kind.isOfBuild ? { build: { removedAt: null, ...inBuilds } } : {}),
    AND: words.map((word) => ({ OR: anywhere(findable, word) })),
  }
}

function anywhere({ kind, fields }: Findable, word: SearchWord): Where[] {
  return [
    ...(mayBeNumberOf(kind, word) && word.number ? [{ number: word.number.number }] : []),
    ...fields.map((field) => within(field.path, comparison(field, word))),
  ]
}

const comparison = (field: FindableField, { folded }: SearchWord): Where =>
  (field.endsWith === undefined ? { contains: loosely(folded) } : { endsWith: loosely(withoutGaps(folded)) })

/** @example within(['vehicle', 'make'], { contains: 'x' }) // { vehicle: { make: { contains: 'x' } } } */
const within = (path: readonly string[], condition: Where): Where =>
  path.reduceRight<Where>((inner, name) => ({ [name]: inner }), condition)

function includeOf({ kind, fields }: Findable): Where {
  const relations = fields.map(({ path }) => path.slice(0, -1)).filter((path) => path.length > 0)
  const longest = relations.toSorted((a, b) => a.length - b.length)
  return {
    ...(kind.isOfBuild ? { build: true } : {}),
    ...Object.assign({}, ...longest.map(([first = '', ...rest]) => ({ [first]: rest.length === 0 ? true : { include: within(rest, {}) } }))),
  }
}
