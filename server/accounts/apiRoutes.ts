import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { Problem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { loadAccount } from './accountData.ts'
import { accountSchema, draftSchema, invoiceSchema, paymentSchema } from './apiSchemas.ts'
import { BASES } from './content.ts'
import { issueCredit } from './crediting.ts'
import { draftOf } from './draft.ts'
import { standingOf } from './invoiceData.ts'
import { issueInvoice } from './issuing.ts'
import { pay, takeBack } from './paying.ts'
import { creditJson, issueJson, paymentJson, typedOf } from './schemas.ts'
import { getInvoice, getPayment, type StoredPayment } from './store.ts'

const tags = ['accounts']
const draftAsked = z.object({ basis: z.enum(BASES).default('time and material') })

/** Account, payments and invoices under /api. Nothing issued or entered has an address that changes it. */
export function registerAccountApi(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database
  const config = { roles: MANAGERS }
  refuseChanges(app, shell)

  app.get('/api/builds/:id/account', { config, schema: { tags, summary: 'What is accepted, invoiced, credited and paid of a build', params: idParams, response: { 200: accountSchema, ...problemAnswers } } }, async (request) => {
    const { account, accepted, documents, payments } = await loadAccount(reads, request.params.id)
    const { invoicedMinor, creditedMinor, paidMinor, balanceMinor, aheadMinor } = account
    return {
      acceptedMinor: accepted?.totalMinor ?? null, invoicedMinor, creditedMinor, paidMinor, balanceMinor, aheadMinor, payments: payments.map(paymentJsonOf),
      invoices: documents.map(({ id, number, kind, creditsId, issuedOn, dueOn, totalMinor }) => ({ id, number, kind, creditsId, issuedOn, dueOn, totalMinor, openMinor: account.invoices.find((one) => one.id === id)?.openMinor ?? null })),
    }
  })

  app.post('/api/builds/:id/payments', { config, schema: { tags, summary: 'Enter a payment, or what was paid back', params: idParams, body: paymentJson, response: { 201: paymentSchema, ...problemAnswers } } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> =>
      ({ status: 201, body: { id: await pay(write, request.params.id, typedOf(request.body, viewer.today), viewer, actorOf(request, shell)) } }))
    return reply.status(201).send(await paymentOf(reads, answer))
  })

  app.post('/api/payments/:id/counter-entries', {
    config, schema: { tags, summary: 'Take an entry back by one of the opposite amount', params: idParams, body: z.object({ note: z.string().max(4000).default('') }), response: { 201: paymentSchema, ...problemAnswers } },
  }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> =>
      ({ status: 201, body: { id: await takeBack(write, request.params.id, request.body.note, viewerOn(request), actorOf(request, shell)) } }))
    return reply.status(201).send(await paymentOf(reads, answer))
  })

  app.get('/api/builds/:id/invoice-draft', { config, schema: { tags, summary: 'An invoice as it would be issued now', params: idParams, querystring: draftAsked, response: { 200: draftSchema, ...problemAnswers } } }, async (request) => {
    const { basis, offered, chosen, lines, earlier, total, paidAheadMinor, fingerprint } = await draftOf(reads, request.params.id, { basis: request.query.basis, chosen: null }, viewerOn(request).currency)
    return { basis, offered: offered.map(({ offer, text, amountMinor }) => ({ offer, text, amountMinor, isChosen: chosen.includes(offer) })), lines: [...lines], earlier: withCopies(earlier), total: withCopy(total), paidAheadMinor, fingerprint }
  })

  app.post('/api/builds/:id/invoices', {
    config, schema: { tags, summary: 'Issue an invoice', description: 'It takes the next number of the shop and is frozen. What was invoiced once is not invoiced again.', params: idParams, body: issueJson, response: { 201: invoiceSchema, ...problemAnswers } },
  }, async (request, reply) => {
    const { basis, lines, fingerprint, note, confirmed } = request.body
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> =>
      ({ status: 201, body: { id: await issueInvoice(write, request.params.id, { basis, chosen: lines ?? null, fingerprint: fingerprint ?? null, note, confirmed }, viewerOn(request), actorOf(request, shell)) } }))
    return reply.status(201).send(await invoiceJson(reads, idOf(answer)))
  })

  app.get('/api/invoices/:id', { config, schema: { tags, summary: 'An issued invoice or credit note', params: idParams, response: { 200: invoiceSchema, ...problemAnswers } } }, (request) => invoiceJson(reads, request.params.id))

  app.post('/api/invoices/:id/credit-notes', { config, schema: { tags, summary: 'Issue a credit note on an invoice', params: idParams, body: creditJson, response: { 201: invoiceSchema, ...problemAnswers } } }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> =>
      ({ status: 201, body: { id: await issueCredit(write, request.params.id, request.body, viewerOn(request), actorOf(request, shell)) } }))
    return reply.status(201).send(await invoiceJson(reads, idOf(answer)))
  })
}

/** Said in words to whoever tries: what is issued or entered is neither changed nor removed. */
function refuseChanges(app: App, { database: { reads } }: Shell): void {
  for (const method of ['PUT', 'PATCH', 'DELETE'] as const) {
    app.route({
      method, url: '/api/invoices/:id', config: { roles: MANAGERS }, schema: { tags, summary: `Refused: what is issued is neither changed nor removed (${method})`, params: idParams, response: problemAnswers },
      handler: async (request) => {
        const { number, kind } = await getInvoice(reads, request.params.id)
        throw new Problem(405, 'It is issued', `${number} stays as it was issued. ${kind === 'invoice' ? 'What is wrong on it is taken back by a credit note.' : 'What is to be charged again is a new invoice.'}`)
      },
    })
    app.route({
      method, url: '/api/payments/:id', config: { roles: MANAGERS }, schema: { tags, summary: `Refused: an entry is neither changed nor removed (${method})`, params: idParams, response: problemAnswers },
      handler: async (request) => {
        await getPayment(reads, request.params.id)
        throw new Problem(405, 'It is entered', 'An entry stays as it was entered. One made in error is taken back by another: POST to its counter-entries.')
      },
    })
  }
}

const idOf = ({ body }: Answer): string => (body as { id: string }).id

async function paymentOf(reads: Reads, answer: Answer): Promise<z.infer<typeof paymentSchema>> {
  return paymentJsonOf(await getPayment(reads, idOf(answer)))
}

const paymentJsonOf = ({ id, buildId, invoiceId, amountMinor, paidOn, method, reference, takesBackId, note }: StoredPayment): z.infer<typeof paymentSchema> =>
  ({ id, buildId, invoiceId, amountMinor, paidOn, method, reference, takesBackId, note })

async function invoiceJson(reads: Reads, id: string): Promise<z.infer<typeof invoiceSchema>> {
  const invoice = await getInvoice(reads, id)
  const { content, number, buildId, kind, basis, issuedOn, dueOn, contentHash, creditsId } = invoice
  const { openMinor } = await standingOf(reads, invoice)
  return {
    id, number, buildId, kind, basis, issuedOn, dueOn, contentHash, creditsId, customer: content.customer.name, note: content.note, lines: [...content.lines], earlier: withCopies(content.earlier),
    total: withCopy(content.total), paidAheadMinor: content.paidAheadMinor, openMinor,
  }
}

type Total = z.infer<typeof invoiceSchema>['total']
type Earlier = z.infer<typeof invoiceSchema>['earlier']
// The answers' types are not readonly.
const withCopy = <T extends { readonly codes: readonly Total['codes'][number][] }>(total: T): Omit<T, 'codes'> & Pick<Total, 'codes'> => ({ ...total, codes: [...total.codes] })
const withCopies = (parts: readonly (Omit<Earlier[number], 'codes'> & { readonly codes: readonly Total['codes'][number][] })[]): Earlier => parts.map(withCopy)
