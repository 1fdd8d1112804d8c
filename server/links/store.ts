import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { findSharedPage } from '../shared/links/sharedPages.ts'
import { forbidden, notFound } from '../shared/problems.ts'
import { hashOfSecret, newSecret } from '../shared/session.ts'
import type { Role } from '../../web/shared/viewer.ts'

const DAY_MS = 24 * 3600_000

/** A link without its secret, which nobody can read again. */
export interface LinkFacts {
  readonly id: string
  readonly buildId: string
  readonly subjectKind: string
  readonly subjectId: string
  readonly note: string
  readonly createdAt: Date
  readonly createdById: string
  readonly expiresAt: Date
  readonly revokedAt: Date | null
}

export interface LinkOrder {
  readonly buildId: string
  readonly subjectKind: string
  readonly subjectId: string
  readonly subjectName: string
  readonly note: string
  readonly days: number
}

const FACTS = {
  id: true, buildId: true, subjectKind: true, subjectId: true, note: true, createdAt: true, createdById: true, expiresAt: true, revokedAt: true,
} as const

/** Stores a link's hash and returns it with its secret, which is shown this once. */
export async function createLink(write: Write, order: LinkOrder, actor: Actor): Promise<{ secret: string, link: LinkFacts }> {
  const { days, subjectName, ...row } = order
  const secret = newSecret()
  const expiresAt = new Date(actor.now.getTime() + days * DAY_MS)
  const link = await write.shareLink.create({
    data: { ...row, tokenHash: hashOfSecret(secret), createdAt: actor.now, createdById: actor.personId ?? '', expiresAt }, select: FACTS,
  })
  await audit(write, actor, { action: `made a link to ${subjectName} for ${row.note}, until ${expiresAt.toISOString().slice(0, 10)}`, recordKind: 'build', recordId: row.buildId })
  return { secret, link }
}

/** Ends a link for good. Throws a 404 where there is none, 403 for those who may not make such a link. */
export async function revokeLink(write: Write, id: string, role: Role, actor: Actor): Promise<LinkFacts> {
  const link = await write.shareLink.findUnique({ where: { id }, select: FACTS })
  if (!link) throw notFound('link')
  if (!mayManage(link, role)) throw forbidden(`Links to a ${link.subjectKind} are withdrawn by those who make them. Ask the manager.`)
  if (link.revokedAt) return link
  await write.shareLink.update({ where: { id }, data: { revokedAt: actor.now } })
  await audit(write, actor, { action: `withdrew the link to a ${link.subjectKind} for ${link.note}`, recordKind: 'build', recordId: link.buildId })
  return { ...link, revokedAt: actor.now }
}

export const mayManage = ({ subjectKind }: { subjectKind: string }, role: Role): boolean => findSharedPage(subjectKind)?.roles.includes(role) ?? false

/** The links of a build, newest first, those that are over with them. */
export const listLinks = (reads: Reads, buildId: string): Promise<LinkFacts[]> =>
  reads.shareLink.findMany({ where: { buildId }, orderBy: [{ createdAt: 'desc' }, { id: 'desc' }], select: FACTS })

/** The link that a secret opens now, or null; whatever the reason, nothing tells them apart. */
export async function findOpenLink(reads: Reads, secret: string, now: Date): Promise<LinkFacts | null> {
  const link = await reads.shareLink.findUnique({ where: { tokenHash: hashOfSecret(secret) }, select: { ...FACTS, build: { select: { removedAt: true } } } })
  if (!link || link.revokedAt || link.expiresAt <= now || link.build.removedAt) return null
  return link
}

export async function listMakers(reads: Reads, links: readonly Pick<LinkFacts, 'createdById'>[]): Promise<ReadonlyMap<string, string>> {
  const people = await reads.person.findMany({ where: { id: { in: links.map(({ createdById }) => createdById) } }, select: { id: true, name: true } })
  return new Map(people.map(({ id, name }) => [id, name]))
}
