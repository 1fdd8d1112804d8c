import { audit, changesBetween, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { notFound, VersionConflict } from '../shared/problems.ts'

interface Hold {
  readonly pinnedAt: Date | null
  readonly personId: string | null
}

/** The version of an operation, and whether it is held. */
export async function loadHold(reads: Reads | Write, id: string) {
  const found = await reads.operation.findFirst({ where: { id, removedAt: null }, select: { version: true, pinnedAt: true, personId: true } })
  if (!found) throw notFound('operation')
  return found
}

/** Holds an operation to a time and names a person, or lets it go. Throws where somebody changed it since. */
export async function holdOperation(write: Write, { id, version }: { readonly id: string, readonly version: number }, hold: Hold, actor: Actor): Promise<void> {
  const before = await loadHold(write, id)
  const { count } = await write.operation.updateMany({ where: { id, version }, data: { ...hold, version: { increment: 1 } } })
  if (count === 0) throw new VersionConflict(before)
  await audit(write, actor, { action: 'changed', recordKind: 'operation', recordId: id, changes: changesBetween({ pinnedAt: before.pinnedAt, personId: before.personId }, { ...hold }) })
}
