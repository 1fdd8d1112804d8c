import { randomUUID } from 'node:crypto'
import type { DraftData } from '../../web/accounts/draft.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { addDays } from '../calc/calendar.ts'
import { formatMoney } from '../calc/money.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Workings } from '../shared/workings.ts'
import { buildName } from './accountData.ts'
import { draftOf, type Draft, type DraftAsked } from './draft.ts'
import { overInWords } from './issuing.ts'
import { invoiceWorkings } from './invoiceWorkings.ts'
import { toShown, type Showable } from './shown.ts'
import { getShop } from './store.ts'

/** What was typed, and why it was not issued. */
export interface Shown extends DraftAsked {
  readonly note: string
  readonly confirmed?: boolean
  readonly key?: string | undefined
  readonly refused?: { readonly title: string, readonly text: string }
  readonly problems?: readonly FieldProblem[]
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
    shown: withShortWays(draft, currency), isEmpty: lines.length === 0 || total.totalMinor <= 0, points: pointsOf(draft, currency),
    refused: asked.refused ?? null, problems: asked.problems ?? [], isOver: draft.overMinor > 0, isConfirmed: asked.confirmed ?? false,
    total: formatMoney(total.totalMinor, currency), due: writeDay(addDays(today, (await getShop(reads)).paymentDays)), note: asked.note, chosen: basis === 'accepted' ? [] : chosen,
    fingerprint: draft.fingerprint, action: `${href}/invoices`, key: asked.key ?? randomUUID(), cancelHref: `${href}/account`,
  }
}

/** The figure of a line opens on a draft of that line alone: the address of all that is chosen at each would be most of the page. */
function withShortWays(draft: Draft, currency: string): DraftData['shown'] {
  const shown = toShown(showable(draft), currency)
  if (draft.basis === 'accepted') return shown
  const offers = draft.offered.filter(({ offer }) => draft.chosen.includes(offer))
  return {
    ...shown, groups: shown.groups.map(({ name, lines }) => ({
      name, lines: lines.map((line) => ({ ...line, amount: { ...line.amount, how: 'L1', on: addressOf({ basis: draft.basis, chosen: [offers[Number(line.no) - 1]?.offer ?? ''] }) } })),
    })),
  }
}

export const addressOf = ({ basis, chosen }: { readonly basis: string, readonly chosen: readonly string[] | null }): string =>
  new URLSearchParams([['basis', basis], ...(chosen === null ? [] : [['chosen', 'yes'] as [string, string], ...chosen.map((line): [string, string] => ['line', line])])]).toString()

/** What somebody should look at before it is issued. */
function pointsOf({ basis, lines, offered, overMinor, isAccepted, creditedAgain, total }: Draft, currency: string): string[] {
  return [
    ...(lines.some(({ taxCode }) => taxCode === 'none') ? ['Some lines have no tax code, so no tax is computed for them. Codes stand in the settings of the shop, at the quote and at equipment lines.'] : []),
    ...(basis === 'time and material' && offered.some(({ offer }) => /^[rs]/.test(offer)) ? ['Hours of rework, and fasteners that the way back will take, are not charged unless they are ticked.'] : []),
    ...(creditedAgain.length > 0 && total.totalMinor > 0 ? [`${creditedAgain.join(', ')} took back a part of what was invoiced. This invoice charges it again, because it was accepted: where it is not to be paid, issue nothing.`] : []),
    ...(overMinor > 0 ? [overInWords(overMinor, currency)] : []),
    ...(basis === 'time and material' && !isAccepted ? ['The customer has accepted nothing in writing for this build. Local law decides what may be charged without consent.'] : []),
  ]
}
