import type { Actor } from '../audit.ts'
import type { Role } from '../../../web/shared/viewer.ts'
import type { Model, Row } from '../database/delegate.ts'
import type { Reads, Write } from '../database/database.ts'
import type { EntryKind, Field } from './field.ts'

export type Values = Readonly<Record<string, unknown>>

/** What is about to be written, for rules that no single field can check. */
export interface Draft {
  readonly id: string | null
  readonly before: Row | null
  /** The whole record as it would stand. */
  readonly values: Values
  readonly actor: Actor
}

export interface Beginning {
  readonly href: string
  readonly name: string
  readonly roles: readonly Role[]
}

/** A subject's record: declared once, served as list, page, form, API and history. */
export interface RecordKind {
  readonly name: string
  readonly plural: string
  /** First part of its addresses: /equipment-lines and /api/equipment-lines. */
  readonly path: string
  readonly model: Model
  /** The top-level place its pages stand under. */
  readonly place: string
  readonly fields: Readonly<Record<string, Field>>
  /** Records of a build are listed and numbered within it. */
  readonly isOfBuild: boolean
  readonly number?: { readonly prefix: string; readonly within: 'shop' | 'build' | 'zoneId'; readonly first?: number }
  readonly seenBy: readonly Role[]
  readonly changedBy: readonly Role[]
  /** Where only one record exists and none is created or removed by hand. */
  readonly isSingle?: boolean
  /** The subject serves GET /path/:id itself. */
  readonly hasOwnPage?: boolean
  readonly hasOwnList?: boolean
  /** Pictures can be attached to it; its page shows them. */
  readonly hasPhotos?: boolean
  /** When they are usually taken, seen from the work. */
  readonly photoMoment?: 'before' | 'during' | 'after'
  /** Exported and imported as CSV; where a row brings no number, these fields together say which record it is. */
  readonly knownBy?: readonly string[]
  readonly orderBy?: readonly Readonly<Record<string, 'asc' | 'desc'>>[]
  title(row: Row): string
  /** The title from the names of the records it refers to, given by field. */
  titleBy?(nameIn: (field: string) => string, row: Row): string
  /** Refuses with FieldProblems, or returns further values to store; it asks the database and writes nothing. */
  check?(client: Reads | Write, draft: Draft): Promise<Values | undefined>
  /** What else is written in the same transaction. */
  after?(write: Write, row: Row, draft: Draft): Promise<void>
  /** What else is written when a record is taken away or back. */
  afterRemoval?(write: Write, row: Row, actor: Actor): Promise<void>
  /** What stands in the way of a removal, in words, or null. */
  holds?(reads: Reads | Write, row: Row): Promise<string | null>
  /** Where one goes after saving, if that is not its own page. */
  backTo?(row: Row): string
  /** What is begun from a record of this kind, or from the list of them (null). */
  begin?(row: Row | null): Beginning
  /** Refuses where its pictures may no longer be added to, taken away or renamed. */
  checkPhotos?(write: Write, row: Row): Promise<void>
  /** What is odd about a record that may stand all the same, in words, or null. */
  warns?(reads: Reads | Write, row: Row): Promise<string | null>
  /** What is recorded elsewhere and bears on records of this kind, in words by id; those without are left out. */
  readonly bearing?: { readonly label: string; of(reads: Reads, rows: readonly Row[]): Promise<ReadonlyMap<string, string>> }
  /** What to enter first, with one example. */
  readonly firstStep: { readonly why: string; readonly example: string }
}

export const numbered = (kind: RecordKind, row: Row): string =>
  kind.number ? label(kind.number.prefix, Number(row.number)) : ''

/** The short number as it stands on paper: P-510, F-021, B-0147; a zone or an open point is a plain 4. */
export function label(prefix: string, number: number): string {
  if (prefix === '') return String(number)
  return `${prefix}-${String(number).padStart(prefix === 'B' ? 4 : prefix === 'E' ? 2 : 3, '0')}`
}

const kinds = new Map<string, RecordKind>()

export function defineKind(kind: RecordKind): RecordKind {
  kinds.set(kind.name, kind)
  return kind
}

/** A kind by its name. Throws where a field refers to one that was never defined. */
export function getKind(name: string): RecordKind {
  const kind = kinds.get(name)
  if (!kind) throw new Error(`no record kind is called ${name}`)
  return kind
}

/** The kinds of record that a field may refer to; none for other fields. */
export function kindsReferredTo(entry: EntryKind): readonly RecordKind[] {
  if (entry.as === 'references') return [getKind(entry.kind)]
  return entry.as === 'reference' ? [entry.kind, ...(entry.orKinds ?? [])].map(getKind) : []
}

export const listKinds = (): readonly RecordKind[] => [...kinds.values()]
