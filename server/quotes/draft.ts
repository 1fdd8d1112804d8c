import { LARGEST_INTEGER } from '../calc/amounts.ts'
import { addDays } from '../calc/calendar.ts'
import { formatMoney, priceTimes } from '../calc/money.ts'
import { boundsOf } from '../calc/quotes/paperOptions.ts'
import { totalsOf, type PaperTaxCode } from '../calc/quotes/paperTotals.ts'
import { depositsOf, suppliesOf, type DraftLine } from '../calc/quotes/quoteLines.ts'
import type { BuildFigures } from '../builds/figures.ts'
import { label } from '../shared/records/kind.ts'
import { paperNumber, type PaperContent, type PaperLine } from './content.ts'
import { linesOf, pricesOf } from './pricing.ts'
import type { StoredQuote } from './store.ts'

const ONE = 1000

export interface DraftAsked {
  /** Calendar date of the shop. */
  readonly today: string
  readonly createdBy: string
  readonly revision: number
  readonly replaces: string
}

/** A quote as it would be frozen now, and what it is summed from. Minor units. */
export interface QuoteDraft {
  readonly content: PaperContent
  /** The lines that come from the estimate, by key. */
  readonly drawn: ReadonlyMap<string, DraftLine>
  readonly estimateMinor: number
  readonly baseLaborMinor: number
  readonly suppliesMinor: number
  readonly furtherMinor: number
}

export function toDraft(stored: StoredQuote, figures: BuildFigures, { today, createdBy, revision, replaces }: DraftAsked): QuoteDraft {
  const { build, shop, terms } = stored
  const codeOf = taxCodeFinder(stored)
  const prices = pricesOf(figures, stored)
  const numberOf = new Map(build.quoteOptions.map(({ id, number }) => [id, number]))
  const drawn = linesOf(prices, stored, figures)
  const estimated = drawn.map(({ key, text, amountMinor, taxCodeId, option }): PaperLine =>
    ({ key, text, quantity: ONE, eachMinor: amountMinor, amountMinor, taxCode: codeOf(taxCodeId), option }))
  const suppliesMinor = suppliesOf(prices.baseLaborMinor, { shareThousandths: terms.suppliesShare, mostMinor: terms.suppliesMost })
  const supplies = suppliesMinor === 0 ? [] : [{ key: 'supplies', text: 'Shop supplies', quantity: ONE, eachMinor: suppliesMinor, amountMinor: suppliesMinor, taxCode: codeOf(terms.materialTaxCodeId), option: null }]
  const further = build.quoteLines.map(({ id, text, quantity, price, taxCodeId, optionId }): PaperLine =>
    ({ key: `line:${id}`, text, quantity, eachMinor: price, amountMinor: priceTimes(price, quantity), taxCode: codeOf(taxCodeId), option: numberOf.get(optionId ?? '') ?? null }))
  const lines = [...estimated, ...supplies, ...further]
  const totals = totalsOf(lines.filter(({ option }) => option === null))
  const amounts = depositsOf(Math.max(totals.totalMinor, 0), build.depositSteps.map(({ share }) => share))
  const { make, model, body, year, customer } = build.vehicle
  return {
    content: {
      format: 1, kind: 'quote', number: paperNumber('quote', build.number, revision), revision, replaces, title: build.title,
      shop: { name: shop?.name ?? '', address: shop?.address ?? '', phone: shop?.phone ?? '' }, customer: { name: customer.name, address: customer.address },
      vehicle: [`${make} ${model}`, body, ...(year === null ? [] : [String(year)])].join(', '), build: { number: label('B', build.number), title: build.title },
      currency: shop?.currency ?? 'USD', issuedOn: today, validUntil: addDays(today, terms.validDays), createdBy, reason: '', daysLater: null, lines,
      options: build.quoteOptions.map(({ id, number, name, note, insteadOf }) => ({ id, number, name, note, insteadOf, totals: totalsOf(lines.filter(({ option }) => option === number)) })),
      totals, supplies: suppliesMinor === 0 ? null : { share: terms.suppliesShare, mostMinor: terms.suppliesMost },
      deposits: build.depositSteps.map(({ number, share, due }, index) => ({ number, share, due, amountMinor: amounts[index] ?? 0 })),
      exclusions: terms.exclusions, assumptions: terms.assumptions, replacedParts: terms.replacedParts, note: terms.note,
    },
    drawn: new Map(drawn.map((line) => [line.key, line])), estimateMinor: prices.totalMinor, baseLaborMinor: prices.baseLaborMinor, suppliesMinor, furtherMinor: further.reduce((sum, { amountMinor }) => sum + amountMinor, 0),
  }
}

function taxCodeFinder({ taxCodes }: StoredQuote): (id: string | null) => PaperTaxCode | null {
  return (id) => {
    const found = id === null ? undefined : taxCodes.get(id)
    return found ? { code: found.code, name: found.name, rateThousandthsOfPercent: found.rate } : null
  }
}

/** Why a paper cannot be frozen as it is, in words; nothing where it can. */
export function whatHinders({ lines, options, totals, currency }: PaperContent): string[] {
  if (lines.length === 0) return ['There is nothing on it yet: enter operations, equipment and material in the build, or add a line here.']
  const empty = options.filter(({ number }) => !lines.some(({ option }) => option === number))
  const codes = [...new Set([totals, ...options.map((option) => option.totals)].flatMap(({ taxes }) => taxes.map(({ code }) => code)))]
  const netOf = (code: string | null, { netMinor, taxes }: PaperContent['totals']): number => (code === null ? netMinor : taxes.filter((tax) => tax.code === code).reduce((sum, tax) => sum + tax.netMinor, 0))
  const bounds = (code: string | null) => boundsOf(netOf(code, totals), options.map(({ insteadOf, totals: own }) => ({ insteadOf, by: netOf(code, own) })))
  const most = boundsOf(totals.totalMinor, options.map(({ insteadOf, totals: own }) => ({ insteadOf, by: own.totalMinor }))).most
  const isTooMuch = most > LARGEST_INTEGER || lines.some(({ amountMinor, eachMinor }) => Math.max(Math.abs(amountMinor), Math.abs(eachMinor)) > LARGEST_INTEGER)
  return [
    ...empty.map(({ number, name }) => `Option ${number}, ${name}, has nothing in it: put an equipment line, a made part or a further line into it, or take it away.`),
    ...(isTooMuch ? [`It comes to more than a paper can carry, which is ${formatMoney(LARGEST_INTEGER, currency)}. Check hours, quantities and prices.`] : []),
    ...(bounds(null).least < 0 ? ['Its total can come to less than nothing. Lower the discount.'] : []),
    ...codes.filter((code) => bounds(code).least < 0).map((code) => `What bears the tax code ${code} can come to less than nothing. Give a discount the tax code of what it lowers.`),
  ]
}
