import { standingOf, type PaperStanding } from '../calc/quotes/paperStanding.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { notFound, Problem } from '../shared/problems.ts'
import { freezePaper, hashOfPaper, readPaper, type PaperContent, type PaperKind } from './content.ts'

const SELECT = {
  id: true, version: true, createdAt: true, buildId: true, kind: true, number: true, changeOrderId: true, content: true, contentHash: true, validUntil: true,
  netMinor: true, taxMinor: true, frozenById: true, withdrawnAt: true, withdrawnWhy: true, build: { select: { number: true, title: true } },
  consent: { select: { id: true, createdAt: true, decision: true, typedName: true, contentHash: true, chosen: true, netMinor: true, taxMinor: true, way: true, recordedById: true, note: true } },
} as const

export interface StoredConsent {
  readonly id: string
  readonly createdAt: Date
  readonly decision: 'accepted' | 'declined'
  readonly typedName: string
  readonly contentHash: string
  /** Ids of the options said yes to. */
  readonly chosen: readonly string[]
  readonly netMinor: number
  readonly taxMinor: number
  readonly way: 'by link' | 'in the shop'
  readonly recordedById: string | null
  readonly note: string
}

/** A frozen quote or change order with its content read, and the answer to it if there is one. */
export interface StoredRevision {
  readonly id: string
  readonly version: number
  readonly createdAt: Date
  readonly buildId: string
  readonly buildName: string
  readonly kind: PaperKind
  readonly number: number
  readonly changeOrderId: string | null
  readonly content: PaperContent
  readonly contentHash: string
  readonly validUntil: string
  readonly frozenById: string
  readonly withdrawnAt: Date | null
  readonly withdrawnWhy: string
  /** A newer one of the same paper was frozen. */
  readonly isReplaced: boolean
  readonly consent: StoredConsent | null
}

const findRows = (client: Reads | Write, where: Readonly<Record<string, unknown>>) =>
  client.quoteRevision.findMany({ where: { ...where, build: { removedAt: null } }, orderBy: [{ createdAt: 'desc' }, { number: 'desc' }], select: SELECT })
type StoredRow = Awaited<ReturnType<typeof findRows>>[number]

/** Frozen papers of a build, newest first; of one kind if asked. Throws a 500 where one is not what was frozen. */
export async function listRevisions(client: Reads | Write, buildId: string, kind?: PaperKind): Promise<StoredRevision[]> {
  const rows = await findRows(client, { buildId, ...(kind ? { kind } : {}) })
  return rows.map((row) => toRevision(row, rows))
}

export async function findRevision(client: Reads | Write, id: string): Promise<StoredRevision | null> {
  const row = await client.quoteRevision.findFirst({ where: { id, build: { removedAt: null } }, select: { buildId: true } })
  return row ? (await listRevisions(client, row.buildId)).find((one) => one.id === id) ?? null : null
}

/** A frozen paper by id. Throws a 404 where there is none. */
export async function getRevision(client: Reads | Write, id: string): Promise<StoredRevision> {
  const revision = await findRevision(client, id)
  if (!revision) throw notFound('quote or change order')
  return revision
}

export function standingAt({ consent, withdrawnAt, isReplaced, validUntil }: StoredRevision, today: string): PaperStanding {
  return standingOf({ decision: consent?.decision ?? null, isWithdrawn: withdrawnAt !== null, isReplaced, validUntil }, today)
}

export interface NewRevision {
  readonly buildId: string
  readonly changeOrderId: string | null
  readonly content: PaperContent
}

/** Freezes a paper for good: nothing changes its content again. */
export async function storeRevision(write: Write, { buildId, changeOrderId, content }: NewRevision, actor: Actor): Promise<string> {
  const { text, hash } = freezePaper(content)
  const { kind, revision, validUntil, totals: { netMinor, taxMinor } } = content
  const { id } = await write.quoteRevision.create({
    data: { buildId, kind, number: revision, changeOrderId, content: text, contentHash: hash, validUntil, netMinor, taxMinor, frozenById: actor.personId ?? '', createdAt: actor.now },
    select: { id: true },
  })
  await audit(write, actor, { action: `froze ${content.number}, ${hash.slice(0, 12)}`, recordKind: 'build', recordId: buildId })
  return id
}

/** The next revision of the quote, or of a change order. */
export async function nextRevision(client: Reads | Write, buildId: string, kind: PaperKind, changeOrderId: string | null = null): Promise<number> {
  const last = await client.quoteRevision.findFirst({ where: { buildId, kind, changeOrderId }, orderBy: { number: 'desc' }, select: { number: true } })
  return (last?.number ?? 0) + 1
}

/** Takes an open paper back. Throws a 409 where it was answered. */
export async function withdrawRevision(write: Write, id: string, why: string, actor: Actor): Promise<StoredRevision> {
  const revision = await getRevision(write, id)
  const { consent, content, withdrawnAt } = revision
  if (consent) throw new Problem(409, 'It has its answer', `${content.number} was ${consent.decision} by ${consent.typedName}. What was answered stays; what changes now is a change order.`)
  if (withdrawnAt) return revision
  await write.quoteRevision.update({ where: { id }, data: { withdrawnAt: actor.now, withdrawnWhy: why, version: { increment: 1 } } })
  await audit(write, actor, { action: `withdrew ${content.number}: ${why}`, recordKind: 'build', recordId: revision.buildId })
  return getRevision(write, id)
}

function toRevision({ build, consent, content, kind, ...row }: StoredRow, all: readonly StoredRow[]): StoredRevision {
  if (hashOfPaper(content) !== row.contentHash) throw new Problem(500, 'This paper is damaged', 'Its content is not what was frozen. Do not go by it: restore a backup.')
  const isReplaced = all.some((other) => other.kind === kind && other.changeOrderId === row.changeOrderId && other.number > row.number)
  const read = readPaper(content)
  return {
    id: row.id, version: row.version, createdAt: row.createdAt, buildId: row.buildId, buildName: build.title, kind: read.kind, number: row.number, changeOrderId: row.changeOrderId,
    content: read, contentHash: row.contentHash, validUntil: row.validUntil, frozenById: row.frozenById, withdrawnAt: row.withdrawnAt, withdrawnWhy: row.withdrawnWhy, isReplaced,
    consent: consent && {
      ...consent, decision: consent.decision === 'accepted' ? 'accepted' : 'declined', way: consent.way === 'by link' ? 'by link' : 'in the shop', chosen: JSON.parse(consent.chosen) as string[],
    },
  }
}

