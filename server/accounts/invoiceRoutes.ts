import { z } from 'zod'
import { DraftPage } from '../../web/accounts/draft.tsx'
import { InvoicePage, InvoicePaperPage } from '../../web/accounts/invoice.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { PAPERS } from '../shared/pdf/makeSheet.ts'
import { FieldProblems, Problem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { addressOf, draftPage, draftWorkings } from './draftData.ts'
import { invoicePage, invoicePaper, trailOf } from './invoiceData.ts'
import { invoiceWorkings } from './invoiceWorkings.ts'
import { issueInvoice } from './issuing.ts'
import { invoicePdf } from './paperPdf.ts'
import { draftQuery, issueForm } from './schemas.ts'
import { getHead, getInvoice } from './store.ts'
import { buildName } from './accountData.ts'

const pageQuery = z.object({ how, issued: z.enum(['yes']).optional().catch(undefined) })
const paperQuery = z.object({ paper: z.enum(PAPERS).default('A4').catch('A4') })

/** Invoices: drawn up, issued, looked at, printed. */
export function registerInvoicePages(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database
  const config = { roles: MANAGERS }

  app.get('/builds/:id/invoices/new', { config, schema: { hide: true, params: idParams, querystring: draftQuery.extend({ how }) } }, async (request, reply) => {
    const { id } = request.params
    const { basis, chosen, line, how: key } = request.query
    const asked = { basis, chosen: chosen === undefined ? null : line }
    const viewer = viewerOn(request)
    if (key !== undefined) {
      const workings = await draftWorkings(reads, id, asked, viewer.currency)
      const trail = [{ name: buildName(await getHead(reads, id)), href: `/builds/${id}` }, { name: 'A new invoice', href: `/builds/${id}/invoices/new?${addressOf(asked)}` }]
      return sendWorking(reply, viewer, { workings, how: key, place: 'builds', trail })
    }
    return sendPage(reply, DraftPage({ viewer, data: await draftPage(reads, id, { ...asked, note: '' }, viewer) }))
  })

  app.post('/builds/:id/invoices', { config, schema: { hide: true, params: idParams, body: issueForm } }, async (request, reply) => {
    const { basis, line, fingerprint, note, confirmed, _key } = request.body
    const asked = { basis, chosen: line, note, confirmed }
    const viewer = viewerOn(request)
    try {
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        const id = await issueInvoice(write, request.params.id, { ...asked, fingerprint }, viewer, actorOf(request, shell))
        return { status: 303, location: `/invoices/${id}?issued=yes` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (!(error instanceof Problem) || ![409, 422].includes(error.status)) throw error
      // Shown again as it stands now, with what was typed.
      const why = error instanceof FieldProblems ? { problems: error.fields } : { refused: { title: error.title, text: error.detail } }
      const key = typeof _key === 'string' && _key !== '' ? _key : undefined
      return sendPage(reply.status(error.status), DraftPage({ viewer, data: await draftPage(reads, request.params.id, { ...asked, ...why, key }, viewer) }))
    }
  })

  app.get('/invoices/:id', { config, schema: { hide: true, params: idParams, querystring: pageQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const invoice = await getInvoice(reads, request.params.id)
    if (request.query.how !== undefined) {
      const workings = invoiceWorkings(invoice.content)
      return sendWorking(reply, viewer, { workings, how: request.query.how, place: 'builds', trail: [...trailOf(invoice), { name: invoice.number, href: `/invoices/${invoice.id}` }] })
    }
    return sendPage(reply, InvoicePage({ viewer, data: await invoicePage(reads, invoice, request.query.issued === 'yes') }))
  })

  app.get('/invoices/:id/paper', { config, schema: { hide: true, params: idParams } }, async (request, reply) =>
    sendPage(reply, InvoicePaperPage({ viewer: viewerOn(request), data: invoicePaper(await getInvoice(reads, request.params.id)) })))

  app.get('/invoices/:id/invoice.pdf', { config, schema: { hide: true, params: idParams, querystring: paperQuery } }, async (request, reply) => {
    const invoice = await getInvoice(reads, request.params.id)
    const { data } = await invoicePdf(invoice, request.query.paper, (signs) => request.log.warn({ invoice: invoice.number, signs }, 'signs that the fonts of papers lack stand as their codes'))
    return reply.type('application/pdf').header('cache-control', 'no-store').header('content-disposition', `inline; filename="${invoice.number}.pdf"`).send(data)
  })
}
