import type { Write } from './database/database.ts'

/** Who does something, as the history of a record names them. */
export interface Actor {
  readonly personId: string | null
  readonly personName: string
  readonly requestId: string
  readonly now: Date
}

export interface Change {
  readonly field: string
  readonly before: unknown
  readonly after: unknown
}

interface Happening {
  readonly action: string
  readonly recordKind: string
  readonly recordId: string
  readonly changes?: readonly Change[]
}

/** Writes one line of a record's history, in the transaction that changes the record. */
export async function audit(write: Write, actor: Actor, happening: Happening): Promise<void> {
  await write.auditEntry.create({
    data: {
      at: actor.now,
      personId: actor.personId,
      personName: actor.personName,
      requestId: actor.requestId,
      action: happening.action,
      recordKind: happening.recordKind,
      recordId: happening.recordId,
      changes: JSON.stringify(happening.changes ?? []),
    },
  })
}

/** The fields of `after` that differ from `before`. */
export function changesBetween(before: Readonly<Record<string, unknown>> | null, after: Readonly<Record<string, unknown>>): Change[] {
  return Object.entries(after)
    .map(([field, value]) => ({ field, before: plain(before?.[field]), after: plain(value) }))
    .filter((change) => JSON.stringify(change.before) !== JSON.stringify(change.after))
}

const plain = (value: unknown): unknown => (value instanceof Date ? value.toISOString() : (value ?? null))
