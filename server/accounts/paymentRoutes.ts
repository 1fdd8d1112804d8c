import { randomUUID } from 'node:crypto'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { METHODS, PaymentFormPage, TakeBackPage, type PaymentTyped } from '../../web/accounts/paymentForm.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { formatMoney, formatMoneyFigure } from '../calc/money.ts'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { buildName, loadAccount } from './accountData.ts'
import { pay, takeBack } from './paying.ts'
import { noteForm, paymentForm } from './schemas.ts'
import { getPayment } from './store.ts'

const newQuery = z.object({ invoice: z.uuid().optional().catch(undefined) })

/** Payments: entered, and taken back by an entry of their own. */
export function registerPaymentPages(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database
  const config = { roles: MANAGERS }

  app.get('/builds/:id/payments/new', { config, schema: { hide: true, params: idParams, querystring: newQuery } }, async (request, reply) => {
    const { account } = await loadAccount(reads, request.params.id)
    const wanted = account.invoices.find(({ id }) => id === request.query.invoice) ?? account.invoices.find(({ openMinor }) => openMinor > 0)
    const viewer = viewerOn(request)
    const amount = wanted && wanted.openMinor > 0 ? formatMoneyFigure(wanted.openMinor, viewer.currency) : ''
    return showForm(request, reply, request.params.id, { direction: 'received', amount, paidOn: viewer.today, method: METHODS[2], reference: '', invoiceId: wanted?.id ?? '', note: '', confirmed: false }, [])
  })

  app.post('/builds/:id/payments', { config, schema: { hide: true, params: idParams, body: paymentForm } }, async (request, reply) => {
    const { id } = request.params
    try {
      await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        await pay(write, id, request.body, viewerOn(request), actorOf(request, shell))
        return { status: 303 }
      })
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return showForm(request, reply.status(422), id, request.body, error.fields)
    }
    return reply.redirect(`/builds/${id}/account?saved=payment`, 303)
  })

  app.get('/payments/:id/counter-entries/new', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const payment = await getPayment(reads, request.params.id)
    const { head } = await loadAccount(reads, payment.buildId)
    const viewer = viewerOn(request)
    const account = `/builds/${payment.buildId}/account`
    const data = {
      trail: [{ name: buildName(head), href: `/builds/${payment.buildId}` }, { name: 'Account', href: account }, { name: 'Take an entry back' }], build: buildName(head), note: '',
      entry: `${payment.amountMinor < 0 ? 'Paid back' : 'Received'} ${formatMoney(payment.amountMinor, viewer.currency)}, ${payment.method}, ${writeDay(payment.paidOn)}.`,
      action: `/payments/${payment.id}/counter-entries`, key: randomUUID(), cancelHref: account,
    }
    return sendPage(reply, TakeBackPage({ viewer, data }))
  })

  app.post('/payments/:id/counter-entries', { config, schema: { hide: true, params: idParams, body: noteForm } }, async (request, reply) => {
    const { buildId } = await getPayment(reads, request.params.id)
    await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      await takeBack(write, request.params.id, request.body.note, viewerOn(request), actorOf(request, shell))
      return { status: 303 }
    })
    return reply.redirect(`/builds/${buildId}/account?saved=taken+back`, 303)
  })

  async function showForm(request: FastifyRequest, reply: FastifyReply, buildId: string, typed: PaymentTyped & { readonly _key?: unknown }, problems: readonly FieldProblem[]): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    const { head, account } = await loadAccount(reads, buildId)
    const href = `/builds/${buildId}/account`
    const data = {
      trail: [{ name: buildName(head), href: `/builds/${buildId}` }, { name: 'Account', href }, { name: 'A payment' }], build: buildName(head),
      balance: account.workings.balance, typed, problems,
      invoices: account.invoices.map(({ id, number, openMinor }) => ({ value: id, label: `${number}, ${formatMoney(openMinor, viewer.currency)} open` })),
      action: `/builds/${buildId}/payments`, key: typeof typed._key === 'string' ? typed._key : randomUUID(), cancelHref: href,
    }
    return sendPage(reply, PaymentFormPage({ viewer, data }))
  }
}
