import { randomUUID } from 'node:crypto'
import type { DraftData } from '../../web/accounts/draft.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { addDays } from '../calc/calendar.ts'
import { formatMoney } from '../calc/money.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Workings } from '../shared/workings.ts'
import { acceptedTotal } from './accepted.ts'
import { buildName } from './accountData.ts'
import { draftOf, type Draft, type DraftAsked } from './draft.ts'
import { invoiceWorkings } from './invoiceWorkings.ts'
import { toShown, type Showable } from './shown.ts'
import { getShop, listInvoices } from './store.ts'
import { standingsOf } from './standing.ts'

interface Shown extends DraftAsked {
  readonly note: string
}

const showable = (draft: Draft): Showable => ({ ...draft, kind: 'invoice', dueOn: null })

export async function draftWorkings(reads: Reads, buildId: string, asked: DraftAsked, currency: string): Promise<Workings> {
  return invoiceWorkings(showable(await draftOf(reads, buildId, asked, currency)))
}

export async function draftPage(reads: Reads, buildId: string, asked: Shown, { currency, today }: Viewer): Promise<DraftData> {
  const draft = await draftOf(reads, buildId, asked, currency)
  const { head, basis, offered, chosen, total, lines } = draft
  const href = `/builds/${buildId}`
  const names = basis === 'accepted' ? [] : [...new Set(offered.map(({ group }) => group))]
  return {
    trail: [{ name: buildName(head), href }, { name: 'Account', href: `${href}/account` }, { name: 'A new invoice' }], build: buildName(head),
    title: basis === 'accepted' ? 'Invoice what was accepted' : 'Invoice time and material', basis,
    address: addressOf(asked), offers: names.map((name) => ({
      name, offers: offered.filter(({ group }) => group === name).map(({ offer, text, amountMinor }) => ({ offer, text, amount: formatMoney(amountMinor, currency), isChosen: chosen.includes(offer) })),
    })),
    shown: toShown(showable(draft), currency), isEmpty: lines.length === 0 || total.totalMinor <= 0, points: await pointsOf(reads, draft, currency),
    total: formatMoney(total.totalMinor, currency), due: writeDay(addDays(today, (await getShop(reads)).paymentDays)), note: asked.note, chosen: basis === 'accepted' ? [] : chosen,
    fingerprint: draft.fingerprint, action: `${href}/invoices`, key: randomUUID(), cancelHref: `${href}/account`,
  }
}

export const addressOf = ({ basis, chosen }: DraftAsked): string =>
  new URLSearchParams([['basis', basis], ...(chosen === null ? [] : [['chosen', 'yes'] as [string, string], ...chosen.map((line): [string, string] => ['line', line])])]).toString()

/** What somebody should look at before it is issued. */
async function pointsOf(reads: Reads, { head, basis, lines, offered, total }: Draft, currency: string): Promise<string[]> {
  const accepted = await acceptedTotal(reads, head.id)
  const invoiced = standingsOf(await listInvoices(reads, head.id)).reduce((sum, { left }) => sum + left.totalMinor, 0)
  const over = accepted === null ? 0 : invoiced + total.totalMinor - accepted.totalMinor
  return [
    ...(lines.some(({ taxCode }) => taxCode === 'none') ? ['Some lines have no tax code, so no tax is computed for them. Codes stand in the settings of the shop, at the quote and at equipment lines.'] : []),
    ...(basis === 'time and material' && offered.some(({ offer }) => /^[rs]/.test(offer)) ? ['Hours of rework, and fasteners that the way back will take, are not charged unless they are ticked.'] : []),
    ...(over > 0 ? [`With this invoice ${formatMoney(over, currency)} more is charged than the customer has accepted. Local law decides whether that may be.`] : []),
    ...(basis === 'time and material' && accepted === null ? ['The customer has accepted nothing in writing for this build. Local law decides what may be charged without consent.'] : []),
  ]
}
