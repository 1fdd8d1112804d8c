import { randomUUID } from 'node:crypto'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { DifferencePage } from '../../web/consents/difference.tsx'
import { RevisionPage } from '../../web/consents/revision.tsx'
import { getRevision, standingAt, type StoredRevision } from '../quotes/revisionStore.ts'
import { shopOf, viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { PAPERS } from '../shared/pdf/makeSheet.ts'
import { answerOnce } from '../shared/once.ts'
import { FieldProblems, Problem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { takeConsent } from './answering.ts'
import { registerConsentApi } from './apiRoutes.ts'
import { readSent } from './body.ts'
import { differenceData } from './differenceData.ts'
import { frozenPaper, type PaperAsked } from './paperData.ts'
import { paperPdf } from './paperPdf.ts'
import { registerSharedPapers } from './sharedPaper.ts'
import { withdraw } from './withdrawing.ts'

const paperQuery = z.object({ paper: z.enum(PAPERS).default('A4').catch('A4') })
const pageQuery = z.object({ saved: z.enum(['frozen', 'answered', 'withdrawn']).optional().catch(undefined) })
const formBody = z.looseObject({})
const SAVED = { frozen: 'the revision, for good', answered: 'the answer, for good', withdrawn: 'that it is withdrawn' } as const

interface Again {
  readonly saved?: keyof typeof SAVED | undefined
  readonly again?: Pick<PaperAsked, 'sent' | 'problems' | 'refused'>
  readonly withdrawal?: { readonly why: string, readonly problems: readonly FieldProblem[] }
}

/** Frozen quotes and change orders: read, compared, printed, consented to, withdrawn. */
export function registerConsents(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database
  const config = { roles: MANAGERS }
  registerSharedPapers()
  registerConsentApi(app, shell)

  app.get('/revisions/:id', { config, schema: { hide: true, params: idParams, querystring: pageQuery } }, (request, reply) =>
    show(request, reply, request.params.id, { saved: request.query.saved }))

  app.get('/revisions/:id/paper.pdf', { config, schema: { hide: true, params: idParams, querystring: paperQuery } }, async (request, reply) => {
    const revision = await getRevision(reads, request.params.id)
    return reply.type('application/pdf').header('cache-control', 'no-store').header('content-disposition', `inline; filename="${revision.content.number}.pdf"`)
      .send(await paperPdf(revision, { paper: request.query.paper, timeZone: (await shopOf(reads)).timeZone }, request.log))
  })

  app.get('/revisions/:id/difference', { config, schema: { hide: true, params: idParams, querystring: z.object({ from: z.uuid().optional().catch(undefined) }) } }, async (request, reply) => {
    const to = await getRevision(reads, request.params.id)
    const from = await getRevision(reads, request.query.from ?? '')
    if (from.buildId !== to.buildId) throw new Problem(409, 'They belong to two builds', 'Compare two revisions of one build.')
    return sendPage(reply, DifferencePage({ viewer: viewerOn(request), data: differenceData(from, to) }))
  })

  app.post('/revisions/:id/withdrawals', { config, schema: { hide: true, params: idParams, body: z.looseObject({ why: z.string().default('') }) } }, async (request, reply) => {
    const { id } = request.params
    const { why } = request.body
    try {
      await answerOnce(database, askedOf(request), async (write) => {
        await withdraw(write, id, why, actorOf(request, shell))
        return { status: 303 }
      })
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return show(request, reply.status(422), id, { withdrawal: { why, problems: error.fields } })
    }
    return reply.redirect(`/revisions/${id}?saved=withdrawn`, 303)
  })

  app.post('/revisions/:id/consents', { config, schema: { hide: true, params: idParams, body: formBody } }, async (request, reply) => {
    const { id } = request.params
    const revision = await getRevision(reads, id)
    const notTaken = await takeConsent(database, revision, readSent(request.body, revision.content), { way: 'in the shop', linkId: null, asked: askedOf(request), actor: actorOf(request, shell) })
    return notTaken ? show(request, reply.status(notTaken.status), id, { again: notTaken.again }) : reply.redirect(`/revisions/${id}?saved=answered`, 303)
  })

  app.post('/revisions/:id/totals', { config, schema: { hide: true, params: idParams, body: formBody } }, async (request, reply) => {
    const revision = await getRevision(reads, request.params.id)
    return show(request, reply, revision.id, { again: { sent: readSent({ ...request.body, decision: 'accepted' }, revision.content) } })
  })

  async function show(request: FastifyRequest, reply: FastifyReply, id: string, { saved, again = {}, withdrawal }: Again): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    const revision = await getRevision(reads, id)
    const { timeZone } = await shopOf(reads)
    const base = `/revisions/${id}`
    const pdfs = PAPERS.map((size) => ({ name: `PDF, ${size}`, href: `${base}/paper.pdf?paper=${size}` }))
    const paper = frozenPaper(revision, { timeZone, now: shell.clock(), base, isInShop: true, csrfToken: viewer.csrfToken, pdfs, ...again })
    const isOpen = standingAt(revision, viewer.today) === 'open'
    return sendPage(reply, RevisionPage({
      viewer,
      data: {
        trail: trailOf(revision), saved: saved === undefined ? null : SAVED[saved], paper,
        links: [{ name: 'Send it by link', href: `/builds/${revision.buildId}/links` }],
        withdrawal: isOpen ? { action: `${base}/withdrawals`, key: randomUUID(), why: withdrawal?.why ?? '', problems: withdrawal?.problems ?? [] } : null,
      },
    }))
  }
}

function trailOf({ buildId, buildName, kind, content }: StoredRevision) {
  const page = `/builds/${buildId}`
  const drawn = kind === 'quote' ? { name: 'Quote', href: `${page}/quote` } : { name: 'Change orders', href: `${page}/change-orders` }
  return [{ name: `${content.build.number} ${buildName}`, href: page }, drawn, { name: content.number }]
}
