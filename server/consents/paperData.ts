import { randomUUID } from 'node:crypto'
import type { ConsentFormData, FrozenPaperData } from '../../web/consents/paperData.ts'
import { writeDay } from '../../web/shared/day.ts'
import { capital, counted } from '../../web/shared/text.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { formatMoney } from '../calc/money.ts'
import { inGroups } from '../quotes/content.ts'
import { toPaperView, totalsWith } from '../quotes/paperView.ts'
import { standingAt, type StoredRevision } from '../quotes/revisionStore.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { typedOf, type Sent } from './body.ts'

export interface PaperAsked {
  readonly timeZone: string
  readonly now: Date
  /** Addresses of the consent and of what belongs to the paper begin so. */
  readonly base: string
  readonly isInShop: boolean
  readonly csrfToken: string
  readonly pdfs: FrozenPaperData['pdfs']
  /** What was sent, when the form is shown again. */
  readonly sent?: Sent | undefined
  readonly problems?: readonly FieldProblem[]
  /** What was refused, in words. */
  readonly refused?: FrozenPaperData['notice'] | undefined
}

/** Numbers of the options that the consent said yes to. */
export const chosenOf = ({ content, consent }: StoredRevision): number[] =>
  content.options.filter(({ id }) => consent?.chosen.includes(id) ?? false).map(({ number }) => number)

/** A frozen paper as it is read now: with the form of consent while it is open, else with what became of it. */
export function frozenPaper(revision: StoredRevision, asked: PaperAsked): FrozenPaperData {
  const { content, consent, contentHash } = revision
  const isOpen = standingAt(revision, calendarDateIn(asked.timeZone, asked.now)) === 'open'
  const chosen = consent ? chosenOf(revision) : asked.sent?.given.chosen.filter((number) => content.options.some((option) => option.number === number)) ?? []
  const totals = totalsWith(content, chosen)
  const total = formatMoney(totals.totalMinor, content.currency)
  return {
    number: content.number, documentType: capital(content.kind), title: content.title, customer: content.customer.name, shop: content.shop.name,
    shopMore: [content.shop.address.replaceAll('\n', ', '), content.shop.phone].filter((word) => word !== '').join(', '), vehicle: content.vehicle,
    total, until: writeDay(content.validUntil), issued: writeDay(content.issuedOn), hash: inGroups(contentHash), view: toPaperView(content, { chosen }),
    notice: asked.refused ?? noticeOf(revision, asked), pdfs: asked.pdfs,
    consent: isOpen ? formOf(revision, asked, { seen: totals.totalMinor, total }) : null,
  }
}

function formOf({ contentHash }: StoredRevision, { base, isInShop, csrfToken, sent, problems = [] }: PaperAsked, { seen, total }: Pick<ConsentFormData, 'seen' | 'total'>): ConsentFormData {
  return {
    action: `${base}/consents`, totalsAction: `${base}/totals`, csrfToken, key: randomUUID(), declineKey: randomUUID(), hash: contentHash, seen, total, isInShop, problems,
    typed: sent ? typedOf(sent) : { typedName: '', hasRead: false, note: '', declineName: '', declineNote: '' },
  }
}

function noticeOf(revision: StoredRevision, { timeZone, now }: PaperAsked): FrozenPaperData['notice'] {
  const { content, consent, withdrawnWhy, validUntil } = revision
  if (consent) {
    const at = `${writeDay(calendarDateIn(timeZone, consent.createdAt))} at ${clockTimeIn(timeZone, consent.createdAt)}`
    const chosen = content.options.filter(({ id }) => consent.chosen.includes(id)).map(({ name }) => name)
    const options = content.options.length === 0 || consent.decision === 'declined' ? '' : chosen.length === 0 ? ' Without options.' : ` With ${counted(chosen.length, 'option', 'options')}: ${chosen.join(', ')}.`
    return { title: capital(consent.decision), text: `${capital(consent.decision)} by ${consent.typedName} on ${at}, ${consent.way}.${options}${consent.note === '' ? '' : ` ${consent.note}`}` }
  }
  const standing = standingAt(revision, calendarDateIn(timeZone, now))
  if (standing === 'withdrawn') return { title: 'Withdrawn', text: `The shop has withdrawn this revision: ${withdrawnWhy}` }
  if (standing === 'superseded') return { title: 'Superseded', text: 'There is a newer revision. Ask the shop for it; this one can no longer be agreed to.' }
  if (standing === 'expired') return { title: 'No longer good', text: `It was good until ${writeDay(validUntil)}. Ask the shop for a new one; this one can no longer be agreed to.` }
  return null
}
