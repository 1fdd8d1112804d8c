import { randomUUID } from 'node:crypto'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { CreditFormPage } from '../../web/accounts/creditForm.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import type { Working } from '../calc/amounts.ts'
import { formatMoney } from '../calc/money.ts'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { getCreditable, issueCredit, type CreditAsked } from './crediting.ts'
import { trailOf } from './invoiceData.ts'
import { amountsOf, creditForm } from './schemas.ts'

/** Credit notes on an invoice. */
export function registerCreditPages(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database
  const config = { roles: MANAGERS }

  app.get('/invoices/:id/credit-notes/new', { config, schema: { hide: true, params: idParams } }, (request, reply) =>
    showForm(request, reply, request.params.id, { what: 'whole', amounts: {}, note: '' }, []))

  app.post('/invoices/:id/credit-notes', { config, schema: { hide: true, params: idParams, body: creditForm } }, async (request, reply) => {
    const { id } = request.params
    const { what, note, _key } = request.body
    const asked = { what, note, amounts: amountsOf(request.body) }
    try {
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> =>
        ({ status: 303, location: `/invoices/${await issueCredit(write, id, asked, viewerOn(request), actorOf(request, shell))}?issued=yes` }))
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return showForm(request, reply.status(422), id, asked, error.fields, _key)
    }
  })

  async function showForm(request: FastifyRequest, reply: FastifyReply, id: string, asked: CreditAsked, problems: readonly FieldProblem[], key?: unknown): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    const { invoice, left, creditedOf } = await getCreditable(reads, id)
    const written = (minor: number): string => formatMoney(minor, viewer.currency)
    const lines = invoice.content.lines.map((line) => ({ ...line, leftMinor: line.amountMinor - (creditedOf.get(line.key) ?? 0) })).filter(({ leftMinor }) => leftMinor > 0)
    const data = {
      trail: [...trailOf(invoice), { name: invoice.number, href: `/invoices/${id}` }, { name: 'Credit note' }], number: invoice.number, left: leftWorking(invoice.number, invoice.content.total.totalMinor, left.totalMinor), what: asked.what, note: asked.note,
      lines: lines.map(({ key: line, text, leftMinor }) => ({ key: line, text, left: written(leftMinor), typed: String(asked.amounts[line] ?? '') })), problems,
      action: `/invoices/${id}/credit-notes`, key: typeof key === 'string' ? key : randomUUID(), cancelHref: `/invoices/${id}`,
    }
    return sendPage(reply, CreditFormPage({ viewer, data }))
  }
}

function leftWorking(number: string, totalMinor: number, leftMinor: number): Working {
  return {
    title: 'Left of the invoice, with tax', inputs: [{ label: number, source: 'total with tax', amount: { kind: 'money', value: totalMinor } }, { label: 'Credited before', source: 'credit notes', amount: { kind: 'money', value: totalMinor - leftMinor } }],
    result: { kind: 'money', value: leftMinor }, formula: 'total − credited before', assumed: '', source: 'common practice, no source',
  }
}
