import type { StoredConsent } from '../quotes/revisionStore.ts'
import type { Reads, Write } from '../shared/database/database.ts'

/** A consent as it is given. */
export interface NewConsent extends Omit<StoredConsent, 'id' | 'createdAt'> {
  readonly buildId: string
  readonly revisionId: string
  readonly linkId: string | null
}

/** Keeps a consent for good; nothing changes or removes it again. */
export async function storeConsent(write: Write, { chosen, ...consent }: NewConsent, now: Date): Promise<string> {
  const { id } = await write.consent.create({ data: { ...consent, chosen: JSON.stringify(chosen), createdAt: now }, select: { id: true } })
  return id
}

export async function nameOfPerson(reads: Reads, id: string | null): Promise<string> {
  const person = id === null ? null : await reads.person.findUnique({ where: { id }, select: { name: true } })
  return person?.name ?? ''
}

/** Whether a link is still good, looked at within the write that goes by it. */
export async function isLinkOpen(write: Write, id: string, now: Date): Promise<boolean> {
  const link = await write.shareLink.findUnique({ where: { id }, select: { revokedAt: true, expiresAt: true } })
  return link !== null && link.revokedAt === null && link.expiresAt > now
}

/** The consents of a build, newest first. */
export const listConsents = (reads: Reads, buildId: string) => reads.consent.findMany({
  where: { buildId }, orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
  select: { id: true, createdAt: true, revisionId: true, decision: true, typedName: true, contentHash: true, chosen: true, netMinor: true, taxMinor: true, way: true, note: true },
})
