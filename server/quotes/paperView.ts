import type { PaperLineView, PaperOptionView, PaperTotalView, PaperView } from '../../web/shared/paperData.ts'
import { counted } from '../../web/shared/text.ts'
import { formatQuantity } from '../calc/figures.ts'
import { formatMoneyFigure } from '../calc/money.ts'
import { linesWith, totalsOf, type PaperTotals } from '../calc/quotes/paperTotals.ts'
import { depositsOf } from '../calc/quotes/quoteLines.ts'
import type { PaperContent, PaperLine } from './content.ts'

const ONE = 1000

export interface ViewAsked {
  /** Numbers of the options said yes to; left out where nobody was asked yet. */
  readonly chosen?: readonly number[] | undefined
}

/** Totals of a paper with some of its options. */
export const totalsWith = (content: PaperContent, chosen: readonly number[]): PaperTotals => totalsOf(linesWith(content.lines, chosen))

/** Everything that stands on a paper, in words. */
export function toPaperView(content: PaperContent, { chosen }: ViewAsked = {}): PaperView {
  const write = (minor: number): string => formatMoneyFigure(minor, content.currency)
  const totals = totalsWith(content, chosen ?? [])
  const amounts = depositsOf(Math.max(totals.totalMinor, 0), content.deposits.map(({ share }) => share))
  const linesIn = (option: number | null): PaperLineView[] => content.lines.filter((line) => line.option === option).map((line) => lineView(line, write))
  return {
    currency: content.currency, lines: linesIn(null),
    options: content.options.map(({ number, name, note, insteadOf, totals: own }): PaperOptionView => ({
      number, name, note, oneOf: insteadOf.trim(), lines: linesIn(number), net: signed(own.netMinor, write), total: signed(own.totalMinor, write), isChosen: chosen?.includes(number) ?? false,
    })),
    totals: totalRows(totals, write), totalsFor: totalsFor(content, chosen),
    deposits: content.deposits.map(({ due, share }, index) => ({ due, share: formatQuantity(share, 'share', 'metric'), amount: write(amounts[index] ?? 0) })),
    said: [
      { name: 'What has changed', text: content.reason }, { name: 'Not included', text: content.exclusions }, { name: 'Assumed', text: content.assumptions },
      { name: 'Replaced parts', text: REPLACED[content.replacedParts] ?? content.replacedParts },
      { name: 'Ready', text: content.daysLater === null ? '' : content.daysLater === 0 ? 'As promised before.' : `${counted(content.daysLater, 'day', 'days')} later than promised before.` },
      { name: 'A word to you', text: content.note },
    ].filter(({ text }) => text !== ''),
  }
}

const REPLACED: Readonly<Record<string, string>> = {
  'not asked yet': 'Tell us whether you want the replaced parts back.',
  'wanted back': 'You want replaced parts back: we keep them for you.',
  'not wanted': 'You do not want replaced parts back: we dispose of them.',
}

function totalsFor({ options }: PaperContent, chosen: readonly number[] | undefined): string {
  if (options.length === 0) return 'All of it'
  if (chosen === undefined || chosen.length === 0) return 'Without options'
  return `With ${counted(chosen.length, 'option', 'options')}`
}

function lineView({ text, quantity, eachMinor, amountMinor, taxCode }: PaperLine, write: (minor: number) => string): PaperLineView {
  const isOne = quantity === ONE
  return {
    text, quantity: isOne ? '' : formatQuantity(quantity, 'times', 'metric'), each: isOne ? '' : write(eachMinor), tax: taxCode?.code ?? 'no tax',
    amount: amountMinor === 0 ? `${write(0)}, no charge` : write(amountMinor),
  }
}

const signed = (minor: number, write: (minor: number) => string): string => (minor < 0 ? write(minor) : `+ ${write(minor)}`)

/** Net, tax code by code, and the total. */
export function totalRows({ netMinor, totalMinor, taxes }: PaperTotals, write: (minor: number) => string): PaperTotalView[] {
  return [
    { name: 'Without tax', amount: write(netMinor), isTotal: false },
    ...taxes.map(({ code, name, rateThousandthsOfPercent, netMinor: own, taxMinor }) =>
      ({ name: `${name} (${code}) ${formatQuantity(rateThousandthsOfPercent, 'rate', 'metric')} of ${write(own)}`, amount: write(taxMinor), isTotal: false })),
    { name: 'Total', amount: write(totalMinor), isTotal: true },
  ]
}
