import { addDays } from '../calc/calendar.ts'
import { formatMoney, priceTimes } from '../calc/money.ts'
import { totalsOf, type PaperTaxCode, type PaperTotals } from '../calc/quotes/paperTotals.ts'
import { findAccepted } from '../quotes/acceptedStore.ts'
import { refuseAnswered } from '../quotes/answeredStore.ts'
import { paperNumber, type PaperContent, type PaperLine } from '../quotes/content.ts'
import { nextRevision, storeRevision } from '../quotes/revisionStore.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { LARGEST_INTEGER } from '../calc/amounts.ts'
import type { Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { HeldProblem, Problem } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { guardOf } from './preparing.ts'
import { getOrder, listCodes, shopHead, type Order } from './store.ts'

/** A change order as it would be frozen now. */
export interface Drawn {
  readonly lines: readonly PaperLine[]
  readonly totals: PaperTotals
}

export async function draw(client: Reads | Write, order: Pick<Order, 'lines'>): Promise<Drawn> {
  const codes = new Map((await listCodes(client)).map(({ id, code, name, rate }): [string, PaperTaxCode] => [id, { code, name, rateThousandthsOfPercent: rate }]))
  const lines = order.lines.map(({ id, text, quantity, price, taxCodeId }): PaperLine =>
    ({ key: `line:${id}`, text, quantity, eachMinor: price, amountMinor: priceTimes(price, quantity), taxCode: codes.get(taxCodeId ?? '') ?? null, option: null }))
  return { lines, totals: totalsOf(lines) }
}

/** Freezes the next revision of a change order. Returns the id of the revision. */
export async function freezeOrder(write: Write, id: string, viewer: Viewer, actor: Actor): Promise<string> {
  const order = await getOrder(write, id)
  await refuseAnswered(write, id)
  const { lines, totals } = await draw(write, order)
  if (lines.length === 0) throw new Problem(409, 'Nothing stands on it', 'Enter a line at least: what comes on top, or below zero what is left out.')
  await checkTotals(write, order, totals, viewer.currency)
  const [shop, revision] = [await shopHead(write), await nextRevision(write, order.buildId, 'change order', id)]
  const { customer, make, model, body, year } = order.build.vehicle
  const guard = await guardOf(write, order.buildId)
  const number = (at: number): string => paperNumber('change order', order.build.number, at, order.number)
  const content: PaperContent = {
    format: 1, kind: 'change order', number: number(revision), revision, replaces: revision === 1 ? '' : number(revision - 1), title: order.title,
    shop: { name: shop.name, address: shop.address, phone: shop.phone }, customer: { name: customer.name, address: customer.address },
    vehicle: [`${make} ${model}`, body, year].filter(Boolean).join(', '), build: { number: label('B', order.build.number), title: order.build.title },
    currency: viewer.currency, issuedOn: viewer.today, validUntil: addDays(viewer.today, order.validDays), createdBy: viewer.name,
    reason: order.reason, daysLater: order.daysLater, lines, options: [], totals, supplies: null, deposits: [], ...(guard ? { measured: { estimateMinor: guard.estimateMinor, missingMinor: guard.missingMinor } } : {}), exclusions: '', assumptions: '', replacedParts: '', note: '',
  }
  return storeRevision(write, { buildId: order.buildId, changeOrderId: id, content }, actor)
}

/** A change order changes something accepted, never below zero and never beyond what can be kept. */
async function checkTotals(write: Write, { buildId }: Order, { netMinor, taxMinor, totalMinor }: PaperTotals, currency: string): Promise<void> {
  const accepted = await findAccepted(write, buildId)
  if (!accepted) throw new HeldProblem('Nothing accepted yet', 'A change order changes what the customer has accepted. Until then change the quote itself.', { href: `/builds/${buildId}/quote`, name: 'To the quote' })
  const [net, tax] = [accepted.netMinor + netMinor, accepted.taxMinor + taxMinor]
  if (net < 0 || net + tax < 0) {
    throw new Problem(409, 'Less than nothing', `Accepted so far are ${formatMoney(accepted.netMinor, currency)} without tax; with this change order it would be ${formatMoney(net, currency)}. Leave out no more than was accepted.`)
  }
  if ([net, net + tax, totalMinor].some((minor) => Math.abs(minor) > LARGEST_INTEGER)) {
    throw new Problem(409, 'More than can be kept', `With this change order the accepted total would be ${formatMoney(net + tax, currency)}; at most ${formatMoney(LARGEST_INTEGER, currency)} can be kept. Check quantities and prices.`)
  }
}
