import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

export const SECRET_KINDS = ['radio code', 'immobilizer code', 'place of the keys'] as const
export type SecretKind = (typeof SECRET_KINDS)[number]
/** What the history calls such a record. */
export const SECRET = 'vehicle secret'

const SELECT = { id: true, createdAt: true, buildId: true, kind: true, sealed: true, personId: true, erasedAt: true } as const
export type StoredSecret = Awaited<ReturnType<typeof listSecrets>>[number]

export function listSecrets(client: Reads | Write, buildId: string) {
  return client.vehicleSecret.findMany({ where: { buildId }, orderBy: [{ createdAt: 'asc' }, { id: 'asc' }], select: SELECT })
}

/** A secret of this build that is still sealed. Throws a 404. */
export async function getSecret(client: Reads | Write, buildId: string, id: string): Promise<StoredSecret> {
  const found = await client.vehicleSecret.findFirst({ where: { id, buildId, erasedAt: null }, select: SELECT })
  if (!found) throw notFound('code or place of this build')
  return found
}

/** One that is sealed, of any build: whether the key fits is tried on it. */
export function findSealed(reads: Reads): Promise<StoredSecret | null> {
  return reads.vehicleSecret.findFirst({ where: { erasedAt: null }, orderBy: { createdAt: 'asc' }, select: SELECT })
}

/** Puts a sealed text in the place of what was kept of that kind; `sealFor` gets the id that the text is bound to. */
export async function storeSecret(write: Write, { buildId, kind }: { buildId: string, kind: SecretKind }, sealFor: (id: string) => string, actor: Actor): Promise<void> {
  for (const old of await write.vehicleSecret.findMany({ where: { buildId, kind, erasedAt: null }, select: SELECT })) await eraseSecret(write, old, 'replaced', actor)
  const { id } = await write.vehicleSecret.create({ data: { buildId, kind, sealed: '', personId: actor.personId ?? '', createdAt: actor.now }, select: { id: true } })
  await write.vehicleSecret.update({ where: { id }, data: { sealed: sealFor(id) } })
  await audit(write, actor, { action: 'sealed', recordKind: SECRET, recordId: id })
}

export async function eraseSecret(write: Write, { id }: { id: string }, why: 'replaced' | 'erased' | 'erased at delivery', actor: Actor): Promise<void> {
  await write.vehicleSecret.update({ where: { id }, data: { sealed: '', erasedAt: actor.now } })
  await audit(write, actor, { action: why, recordKind: SECRET, recordId: id })
}

/** Once the vehicle is delivered the shop has no use for its codes: they go in the same write. */
export async function eraseAtDelivery(write: Write, buildId: string, actor: Actor): Promise<void> {
  for (const kept of await write.vehicleSecret.findMany({ where: { buildId, erasedAt: null }, select: { id: true } })) await eraseSecret(write, kept, 'erased at delivery', actor)
}

export async function tellLook(write: Write, id: string, actor: Actor): Promise<void> {
  await audit(write, actor, { action: 'looked at', recordKind: SECRET, recordId: id })
}

export interface Happened {
  readonly recordId: string
  readonly at: Date
  readonly personName: string
  readonly action: string
}

/** Who sealed, looked at and erased what of a build, newest first. */
export async function listHappened(reads: Reads, ids: readonly string[]): Promise<Happened[]> {
  return reads.auditEntry.findMany({
    where: { recordKind: SECRET, recordId: { in: [...ids] } }, orderBy: [{ at: 'desc' }, { id: 'desc' }], take: 200,
    select: { recordId: true, at: true, personName: true, action: true },
  })
}
