import type { DifferenceData, DifferenceRow } from '../../web/consents/difference.tsx'
import { writeDay } from '../../web/shared/day.ts'
import { formatMoneyFigure } from '../calc/money.ts'
import { compareLines } from '../calc/quotes/paperDifference.ts'
import type { PaperContent } from '../quotes/content.ts'
import type { StoredRevision } from '../quotes/revisionStore.ts'

/** What the newer of two papers says differently. Amounts without options. */
export function differenceOf(from: PaperContent, to: PaperContent): Pick<DifferenceData, 'lines' | 'totals' | 'words'> {
  const write = (minor: number | null): string => (minor === null ? '' : formatMoneyFigure(minor, to.currency))
  const row = (what: string, text: string, more: string, before: number | null, after: number | null): DifferenceRow =>
    ({ what, text, more, before: write(before), after: write(after), by: write((after ?? 0) - (before ?? 0)) })
  const codes = [...new Set([...from.totals.taxes, ...to.totals.taxes].map(({ code, rateThousandthsOfPercent }) => `${code} ${rateThousandthsOfPercent / 1000} %`))]
  const taxOf = ({ totals }: PaperContent, key: string): number | null => totals.taxes.find(({ code, rateThousandthsOfPercent }) => `${code} ${rateThousandthsOfPercent / 1000} %` === key)?.taxMinor ?? null
  const told = (before: number, after: number): string => (before === after ? 'the same' : 'changed')
  const total = (name: string, pick: (content: PaperContent) => number): DifferenceRow => row(told(pick(from), pick(to)), name, '', pick(from), pick(to))
  return {
    lines: compareLines(from.lines, to.lines).map(({ what, text, textBefore, beforeMinor, afterMinor }) => row(what, text, textBefore === null ? '' : `(before: ${textBefore})`, beforeMinor, afterMinor)),
    totals: [
      total('Without tax', ({ totals }) => totals.netMinor), ...codes.map((key) => row(told(taxOf(from, key) ?? 0, taxOf(to, key) ?? 0), `Tax ${key}`, '', taxOf(from, key), taxOf(to, key))),
      total('Total', ({ totals }) => totals.totalMinor),
    ],
    words: WORDS.map(([name, pick]) => ({ name, before: pick(from), after: pick(to) })).filter(({ before, after }) => before !== after),
  }
}

const WORDS: readonly (readonly [name: string, pick: (content: PaperContent) => string])[] = [
  ['Options', ({ options }) => options.map(({ number, name }) => `${number} ${name}`).join('; ')], ['Good until', ({ validUntil }) => writeDay(validUntil)],
  ['Deposits', ({ deposits }) => deposits.map(({ due, share }) => `${share / 10} % ${due}`).join('; ')], ['Not included', ({ exclusions }) => exclusions], ['Assumed', ({ assumptions }) => assumptions],
  ['Replaced parts', ({ replacedParts }) => replacedParts], ['What has changed', ({ reason }) => reason], ['A word to the customer', ({ note }) => note], ['Customer', ({ customer }) => customer.name], ['Vehicle', ({ vehicle }) => vehicle],
]

export function differenceData(from: StoredRevision, to: StoredRevision): DifferenceData {
  const page = `/builds/${to.buildId}`
  return {
    trail: [{ name: `${to.content.build.number} ${to.buildName}`, href: page }, { name: to.content.number, href: `/revisions/${to.id}` }, { name: `Against ${from.content.number}` }],
    number: to.content.number, from: from.content.number, currency: to.content.currency, ...differenceOf(from.content, to.content),
  }
}
