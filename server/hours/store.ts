import type { TimeEntry, TimeKind } from '../calc/hours/timeEntries.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { OPERATION_NAME } from './operationName.ts'

/** All hours of a build for costing, with their corrections, in the order they were written. */
export async function loadTimeEntries(reads: Reads | Write, buildId: string): Promise<TimeEntry[]> {
  return toTimeEntries(await reads.timeEntry.findMany({ where: { buildId }, orderBy: AS_WRITTEN, select: COSTED }))
}

/** The same of some operations. */
export async function loadOperationEntries(reads: Reads, operationIds: readonly string[]): Promise<TimeEntry[]> {
  return toTimeEntries(await reads.timeEntry.findMany({ where: { operationId: { in: [...operationIds] } }, orderBy: AS_WRITTEN, select: COSTED }))
}

const AS_WRITTEN: { createdAt?: 'asc', id?: 'asc' }[] = [{ createdAt: 'asc' }, { id: 'asc' }]

const COSTED = {
  id: true, operationId: true, personId: true, kind: true, seconds: true, correctsId: true,
  operation: { select: { departmentId: true, part: { select: { id: true, removedAt: true } } } },
} as const

interface Costed {
  readonly id: string
  readonly operationId: string
  readonly personId: string
  readonly kind: string
  readonly seconds: number
  readonly correctsId: string | null
  readonly operation: { readonly departmentId: string; readonly part: { readonly id: string; readonly removedAt: Date | null } | null }
}

function toTimeEntries(rows: readonly Costed[]): TimeEntry[] {
  return inOrderWritten(rows).map(({ operation, kind, ...row }) => ({
    id: row.id, operationId: row.operationId, personId: row.personId, kind: kind as TimeKind, seconds: row.seconds,
    correctsId: row.correctsId, departmentId: operation.departmentId,
    partId: operation.part && !operation.part.removedAt ? operation.part.id : null,
  }))
}

interface Chained {
  readonly id: string
  readonly correctsId: string | null
}

/** Puts every correction after what it corrects, whatever the clock said; else the order stays. */
export function inOrderWritten<Entry extends Chained>(entries: readonly Entry[]): Entry[] {
  const byId = new Map(entries.map((entry) => [entry.id, entry]))
  const depthOf = (entry: Entry, seen = 0): number => {
    const earlier = entry.correctsId === null ? undefined : byId.get(entry.correctsId)
    return earlier && seen < entries.length ? 1 + depthOf(earlier, seen + 1) : 0
  }
  const depths = new Map(entries.map((entry) => [entry.id, depthOf(entry)]))
  return entries.toSorted((a, b) => (depths.get(a.id) ?? 0) - (depths.get(b.id) ?? 0))
}

const LOGGED = {
  id: true, createdAt: true, buildId: true, operationId: true, personId: true, kind: true, startedAt: true, seconds: true,
  why: true, correctsId: true, enteredById: true, person: { select: { name: true } }, operation: { select: OPERATION_NAME },
  correctedBy: { select: { id: true } },
} as const

/** An entry as it was written, with what it is about and whether another has taken its place. */
export type LoggedEntry = NonNullable<Awaited<ReturnType<typeof findEntry>>>

export function findEntry(client: Reads | Write, id: string) {
  return client.timeEntry.findFirst({ where: { id }, select: LOGGED })
}

/** What counts of a person's hours in a span of time, newest first. */
export function listEffective(client: Reads | Write, personId: string, from: Date, to: Date): Promise<LoggedEntry[]> {
  return client.timeEntry.findMany({
    where: { personId, startedAt: { gte: from, lt: to }, correctedBy: null }, orderBy: [{ startedAt: 'desc' }, { id: 'desc' }], select: LOGGED,
  })
}

/** What others have taken the place of, for the way each figure came about. */
export function listSuperseded(reads: Reads, personId: string): Promise<LoggedEntry[]> {
  return reads.timeEntry.findMany({ where: { personId, correctedBy: { isNot: null } }, select: LOGGED })
}

interface EntryPage {
  readonly build?: string | undefined
  readonly person?: string | undefined
  readonly cursor?: string | undefined
  readonly limit: number
}

/** Entries as they were written, corrections beside what they correct, one page at a time. */
export async function pageOfEntries(reads: Reads, { build, person, cursor, limit }: EntryPage): Promise<{ entries: LoggedEntry[]; next: string | null }> {
  const found = await reads.timeEntry.findMany({
    where: { ...(build ? { buildId: build } : {}), ...(person ? { personId: person } : {}) },
    orderBy: [{ id: 'asc' }], take: limit + 1, select: LOGGED, ...(cursor ? { cursor: { id: cursor }, skip: 1 } : {}),
  })
  const entries = found.slice(0, limit)
  return { entries, next: found.length > limit ? (entries.at(-1)?.id ?? null) : null }
}

/** Names of people by id, those who left as well. */
export async function namesOfPeople(reads: Reads): Promise<ReadonlyMap<string, string>> {
  const people = await reads.person.findMany({ select: { id: true, name: true } })
  return new Map(people.map(({ id, name }) => [id, name]))
}

/** Those who log hours. */
export function listBench(reads: Reads): Promise<{ id: string; name: string }[]> {
  return reads.person.findMany({
    where: { removedAt: null, isActive: true, role: { not: 'delivery' } }, orderBy: { name: 'asc' }, select: { id: true, name: true },
  })
}
