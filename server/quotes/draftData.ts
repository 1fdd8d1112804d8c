import { randomUUID } from 'node:crypto'
import type { QuoteDraftData, RevisionRow } from '../../web/quotes/draft.tsx'
import type { PaperView } from '../../web/shared/paperData.ts'
import { writeDay } from '../../web/shared/day.ts'
import { counted } from '../../web/shared/text.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { correctionsIn } from '../builds/corrections.ts'
import { formatQuantity } from '../calc/figures.ts'
import { formatMoney } from '../calc/money.ts'
import type { PaperStanding } from '../calc/quotes/paperStanding.ts'
import type { Spreads } from '../spread/spreads.ts'
import { CHANCES } from '../spread/spreadWorkings.ts'
import { label } from '../shared/records/kind.ts'
import { inGroups } from './content.ts'
import { whatHinders } from './draft.ts'
import { fingerprintOf, type DrawnQuote } from './freezing.ts'
import { toPaperView, totalsWith } from './paperView.ts'
import { standingAt, type StoredRevision } from './revisionStore.ts'

const SHOWN_GROUPS = 14
const SAVED: Readonly<Record<string, string>> = { begun: 'the quote, with the shop’s terms', changed: 'the terms of the quote', put: 'what is in the option' }

interface Again {
  readonly spreads?: Spreads | null
  readonly saved?: string | undefined
  readonly problems?: readonly FieldProblem[]
  readonly typed?: { readonly thing: string, readonly option: string }
}

/** The draft of a quote as the manager sees it. */
export function draftData({ stored, recorded, draft }: DrawnQuote, revisions: readonly StoredRevision[], viewer: Viewer, { spreads = null, saved, problems = [], typed = { thing: '', option: '' } }: Again): QuoteDraftData {
  const { build, terms, taxCodes } = stored
  const { content } = draft
  const page = `/builds/${build.id}`
  const accepted = revisions.find(({ consent }) => consent?.decision === 'accepted')
  const hinders = accepted ? [] : whatHinders(content)
  const codeOf = (id: string | null): string => (id === null ? 'none: bears no tax' : taxCodes.get(id)?.code ?? 'none: bears no tax')
  return {
    trail: [{ name: `${label('B', build.number)} ${build.title}`, href: page }, { name: 'Estimate', href: `${page}/estimate` }, { name: 'Quote' }],
    number: content.number, title: build.title, customer: content.customer.name, total: { text: formatMoney(content.totals.totalMinor, content.currency), how: 'total' },
    standing: accepted ? `${accepted.content.number} is accepted` : `draft of revision ${content.revision}`, saved: saved === undefined ? null : savedInWords(saved, build),
    view: withHow(toPaperView(content), stored, content.lines), termsHref: build.quote ? `/quotes/${build.quote.id}/form` : null,
    begin: build.quote ? null : { action: `${page}/quote`, idempotencyKey: randomUUID() },
    terms: [
      { name: 'Lines by', text: terms.linesBy }, { name: 'Tax code of labor', text: codeOf(terms.laborTaxCodeId) }, { name: 'Tax code of material', text: codeOf(terms.materialTaxCodeId) },
      { name: 'Shop supplies', text: suppliesInWords(terms, content.currency) }, { name: 'Good for', text: `${counted(terms.validDays, 'day', 'days')}: frozen today, until ${writeDay(content.validUntil)}` },
    ],
    adds: [{ name: 'Add a line', href: `/quote-lines/new?build=${build.id}` }, { name: 'Add an option', href: `/quote-options/new?build=${build.id}` }, { name: 'Add a deposit step', href: `/deposit-steps/new?build=${build.id}` }],
    notes: correctionsIn(recorded), csv: [{ name: 'Lines of this draft as CSV', href: `${page}/quote-draft.csv` }, ...(revisions.length === 0 ? [] : [{ name: 'Lines of all revisions as CSV', href: `${page}/quote-lines.csv` }])],
    steps: build.depositSteps.map(({ id, due }) => ({ name: due, href: `/deposit-steps/${id}` })),
    ...chancesOf(spreads, content.currency, page),
    assign: build.quoteOptions.length === 0 ? null : {
      action: `${page}/option-assignments`, key: randomUUID(), problems, typed, things: thingsOf(stored),
      options: build.quoteOptions.map(({ id, number, name }) => ({ value: id, label: `${number} ${name}` })),
    },
    hinders, freeze: accepted || hinders.length > 0 ? null : { action: `${page}/revisions`, idempotencyKey: randomUUID(), values: [['seen', fingerprintOf(content)]] },
    accepted: accepted ? `${accepted.content.number} was accepted by ${accepted.consent?.typedName ?? ''}. What stands below is how a quote would look today; what changes from here on is a change order, with its own consent.` : null,
    revisions: revisionRows(revisions, viewer.today), linksHref: `${page}/links`, takingHref: `${page}/can-we`,
  }
}

/** What was saved, by what the address says: a deed, or the id of an option, a line or a deposit step. */
function savedInWords(saved: string, { quoteOptions, quoteLines, depositSteps }: DrawnQuote['stored']['build']): string | null {
  const isIt = ({ id }: { readonly id: string }): boolean => id === saved
  const [option, line, step] = [quoteOptions.find(isIt), quoteLines.find(isIt), depositSteps.find(isIt)]
  if (option) return `option ${option.number}, ${option.name}`
  if (line) return `line “${line.text}”`
  if (step) return `deposit step “${step.due}”`
  return Object.hasOwn(SAVED, saved) ? SAVED[saved] ?? null : null
}

function suppliesInWords({ suppliesShare, suppliesMost }: DrawnQuote['stored']['terms'], currency: string): string {
  if (suppliesShare === 0) return 'none'
  return `${formatQuantity(suppliesShare, 'share', 'metric')} of labor${suppliesMost === null ? '' : `, at most ${formatMoney(suppliesMost, currency)}`}`
}

const nameIn = (option: number | null, { build }: DrawnQuote['stored']): string => (option === null ? '' : ` (in option ${build.quoteOptions.find(({ number }) => number === option)?.number ?? ''})`)

function thingsOf(stored: DrawnQuote['stored']): { value: string, label: string }[] {
  const { build } = stored
  const numberOf = new Map(build.quoteOptions.map(({ id, number }) => [id, number]))
  const told = (optionId: string | null): string => nameIn(numberOf.get(optionId ?? '') ?? null, stored)
  return [
    ...build.lines.map(({ id, number, name, optionId }) => ({ value: `equipment line:${id}`, label: `${label('E', number)} ${name}${told(optionId)}` })),
    ...build.parts.map(({ id, number, name, optionId }) => ({ value: `made part:${id}`, label: `${label('P', number)} ${name}${told(optionId)}` })),
  ]
}

/** The view with the key of each figure, and the way to what was typed. */
function withHow(view: PaperView, { build }: DrawnQuote['stored'], lines: DrawnQuote['draft']['content']['lines']): PaperView {
  const base = lines.map((line, index) => ({ line, index })).filter(({ line }) => line.option === null)
  const last = view.totals.length - 1
  return {
    ...view,
    lines: view.lines.map((line, place) => {
      const own = base[place]
      return { ...line, how: `l${own?.index ?? 0}`, href: own?.line.key.startsWith('line:') === true ? `/quote-lines/${own.line.key.slice('line:'.length)}` : undefined }
    }),
    options: view.options.map((option, index) => ({ ...option, how: `o${option.number}`, href: `/quote-options/${build.quoteOptions[index]?.id ?? ''}` })),
    totals: view.totals.map((total, index) => ({ ...total, how: index === 0 ? 'net' : index === last ? 'total' : `t${index - 1}` })),
    deposits: view.deposits.map((deposit, index) => ({ ...deposit, how: `d${index}` })),
  }
}

function chancesOf(spreads: Spreads | null, currency: string, page: string): Pick<QuoteDraftData, 'chances' | 'chancesOf'> {
  if (spreads === null) return { chancesOf: page, chances: [] }
  const { price } = spreads
  return {
    chancesOf: `${page}/spread`,
    chances: price.labor.unsure.length === 0 ? [] : CHANCES.map(([key, words, share]) => ({ name: words, text: formatMoney(price.spread.percentile(share), currency), how: `p${key}` })),
  }
}

export const STANDING_WORDS: Readonly<Record<PaperStanding, string>> = {
  open: 'open', accepted: 'accepted', declined: 'declined', withdrawn: 'withdrawn', superseded: 'superseded by a newer one', expired: 'no longer good',
}

/** Frozen papers, the newest first. */
export function revisionRows(revisions: readonly StoredRevision[], today: string): RevisionRow[] {
  return revisions.map((revision, index) => {
    const { id, content, contentHash, consent, validUntil, withdrawnWhy } = revision
    const standing = standingAt(revision, today)
    const chosen = content.options.filter((option) => consent?.chosen.includes(option.id) ?? false).map(({ number }) => number)
    const older = revisions.slice(index + 1).find(({ kind, changeOrderId }) => kind === revision.kind && changeOrderId === revision.changeOrderId)
    return {
      href: `/revisions/${id}`, number: content.number, frozen: writeDay(content.issuedOn), until: writeDay(validUntil), total: formatMoney(totalsWith(content, chosen).totalMinor, content.currency),
      standing: [STANDING_WORDS[standing], ...(consent ? [`by ${consent.typedName}`] : []), ...(standing === 'withdrawn' ? [withdrawnWhy] : [])].join(': '),
      hash: `${inGroups(contentHash).slice(0, SHOWN_GROUPS)} …`, differenceHref: older ? `/revisions/${id}/difference?from=${older.id}` : null,
    }
  })
}
