import { withArticle } from '../../web/shared/text.ts'
import type { Row } from '../shared/database/delegate.ts'
import { numbered, type RecordKind } from '../shared/records/kind.ts'
import { fold } from './headings.ts'

/** The record a row of the file is about: one that stands, a new one, or a reason why nobody can say. */
export type Identity =
  | { readonly row: Row }
  | { readonly isNew: true; readonly number: number | null; readonly key: string }
  | { readonly field: string; readonly message: string }

/** The shop's records of one kind, to be found by number or by what they are known by. */
export interface Register {
  identify(number: string, known: Readonly<Record<string, string>>): Identity
}

export function registerOf(kind: RecordKind, standing: readonly Row[], removed: readonly Row[]): Register {
  const byNumber = new Map(standing.map((row) => [Number(row.number), row]))
  const removedNumbers = new Set(removed.map((row) => Number(row.number)))
  const byExact = grouped(standing, (row) => exactKey(kind, row))
  const byFolded = grouped(standing, (row) => foldedKey(kind, row))
  return {
    identify: (numberText, known) => {
      const bringsKey = kind.knownBy?.every((name) => name in known) ?? false
      if (numberText !== '') return byNumberText(numberText, bringsKey)
      if (!bringsKey) return { field: 'number', message: 'Number is needed: nothing else in the file says which record this is.' }
      return byKey(known)
    },
  }

  function byNumberText(text: string, bringsKey: boolean): Identity {
    const number = readNumber(kind, text)
    if (number === null) return { field: 'number', message: `Number: “${text.slice(0, 30)}” is no number of ${withArticle(kind.name)}. Write it as ${numbered(kind, { number: 7 } as unknown as Row)}, or leave it empty for a new one.` }
    const row = byNumber.get(number)
    if (row) return { row }
    if (removedNumbers.has(number)) return { field: 'number', message: `Number: ${text} was removed. Take it back first, or leave the number empty for a new one.` }
    if (!bringsKey) return { field: 'number', message: `Number: there is no ${text}. Look it up in the list; a new one needs its other columns too.` }
    return { isNew: true, number, key: `number ${number}` }
  }

  function byKey(known: Readonly<Record<string, string>>): Identity {
    const exact = byExact.get(exactKey(kind, known)) ?? []
    const found = exact.length > 0 ? exact : (byFolded.get(foldedKey(kind, known)) ?? [])
    const [row] = found
    if (row && found.length === 1) return { row }
    if (row) return { field: kind.knownBy?.[0] ?? 'number', message: `${found.length} ${kind.plural} are called so: ${found.map((one) => numbered(kind, one) || kind.title(one)).join(', ')}. Say which by its number.` }
    return { isNew: true, number: null, key: foldedKey(kind, known) }
  }
}

const exactKey = (kind: RecordKind, of: Readonly<Record<string, unknown>>): string => JSON.stringify((kind.knownBy ?? []).map((name) => String(of[name] ?? '').trim()))
const foldedKey = (kind: RecordKind, of: Readonly<Record<string, unknown>>): string => JSON.stringify((kind.knownBy ?? []).map((name) => fold(String(of[name] ?? ''))))

function grouped(rows: readonly Row[], keyOf: (row: Row) => string): ReadonlyMap<string, readonly Row[]> {
  const groups = new Map<string, Row[]>()
  for (const row of rows) groups.set(keyOf(row), [...(groups.get(keyOf(row)) ?? []), row])
  return groups
}

/** K-012, k12 or 12 by its value. */
function readNumber(kind: RecordKind, text: string): number | null {
  const match = /^([a-z]?)-?0*(\d{1,7})$/i.exec(text.trim())
  const isOurs = match && (match[1] === '' || match[1]?.toUpperCase() === kind.number?.prefix)
  const number = Number(match?.[2] ?? 0)
  return isOurs && number > 0 ? number : null
}
