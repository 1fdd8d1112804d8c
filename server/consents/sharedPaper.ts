import { SharedPaperPage } from '../../web/consents/sharedPaper.tsx'
import { findRevision, listRevisions, type StoredRevision } from '../quotes/revisionStore.ts'
import { PAPER_KINDS, type PaperKind } from '../quotes/content.ts'
import { shopOf } from '../shared/access.ts'
import { defineSharedPage, type Opened, type Told } from '../shared/links/sharedPages.ts'
import { PAPERS } from '../shared/pdf/makeSheet.ts'
import { MANAGERS } from '../shared/roles.ts'
import { takeConsent } from './answering.ts'
import { readSent } from './body.ts'
import { frozenPaper, type PaperAsked } from './paperData.ts'
import { paperPdf } from './paperPdf.ts'

// Longer than any paper is good for: what was agreed can be read for a while after.
const LONGEST_DAYS = 730

/** Quotes and change orders are read and answered by link. */
export function registerSharedPapers(): void {
  for (const kind of PAPER_KINDS) defineSharedPage(sharedPageOf(kind))
}

const sharedPageOf = (kind: PaperKind): Parameters<typeof defineSharedPage>[0] => ({
  subjectKind: kind, roles: MANAGERS, longestDays: LONGEST_DAYS,
  list: async (reads, buildId) => (await listRevisions(reads, buildId, kind)).map(({ id, content }) => ({ id, name: `${kind} ${content.number}` })),
  draw: async (opened) => {
    const revision = await findRevision(opened.reads, opened.subjectId)
    return revision && draw(opened, revision)
  },
  photoHashes: async () => [],
  file: async ({ reads, request, subjectId }, name) => {
    const revision = await findRevision(reads, subjectId)
    const paper = PAPERS.find((size) => name === `paper-${size}.pdf`)
    return revision && paper ? { type: 'application/pdf', data: await paperPdf(revision, { paper, timeZone: (await shopOf(reads)).timeZone }, request.log), name: `${revision.content.number}.pdf` } : null
  },
  deeds: new Map([['consents', answer], ['totals', workOut]]),
})

async function draw(opened: Opened, revision: StoredRevision, again: Pick<PaperAsked, 'sent' | 'problems' | 'refused'> = {}): Promise<JSX.Element> {
  const { timeZone } = await shopOf(opened.reads)
  const pdfs = PAPERS.map((size) => ({ name: `PDF, ${size}`, href: `${opened.base}/files/paper-${size}.pdf` }))
  return SharedPaperPage({ data: frozenPaper(revision, { timeZone, now: opened.shell.clock(), base: opened.base, isInShop: false, csrfToken: '', pdfs, ...again }) })
}

async function answer(opened: Opened, body: Readonly<Record<string, unknown>>): Promise<Told | null> {
  const { reads, shell, request, linkId, subjectId } = opened
  const revision = await findRevision(reads, subjectId)
  if (!revision) return null
  const sent = readSent(body, revision.content)
  const key = typeof body._key === 'string' && body._key !== '' ? body._key : null
  const notTaken = await takeConsent(shell.database, revision, sent, {
    way: 'by link', linkId, asked: { key, personId: `link ${linkId}`, address: 'consent by link', body },
    actor: { personId: null, personName: `${sent.given.typedName.trim().slice(0, 200)}, by link`, requestId: request.id, now: shell.clock() },
  })
  if (!notTaken) return 'done'
  const now = await findRevision(reads, subjectId)
  return { status: notTaken.status, page: await draw(opened, now ?? revision, notTaken.again) }
}

/** The same page with the total of what is ticked; nothing is written. */
async function workOut(opened: Opened, body: Readonly<Record<string, unknown>>): Promise<Told | null> {
  const revision = await findRevision(opened.reads, opened.subjectId)
  return revision && { status: 200, page: await draw(opened, revision, { sent: readSent({ ...body, decision: 'accepted' }, revision.content) }) }
}
