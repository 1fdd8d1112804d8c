import type { Working } from '../calc/amounts.ts'
import { totalOf } from '../calc/quotes/invoicing.ts'
import { linesWith } from '../calc/quotes/paperTotals.ts'
import { taxByCode } from '../calc/quotes/tax.ts'
import type { PaperLine } from '../quotes/content.ts'
import { listRevisions, type StoredRevision } from '../quotes/revisionStore.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { Problem } from '../shared/problems.ts'
import type { AcceptedPart, Quantity } from './content.ts'
import { NO_CODE, withOneRateACode } from './taxCodes.ts'
import type { OfferedLine } from './timeLines.ts'

/** What the customer has said yes to: the accepted revision with the options chosen, and the accepted change orders. */
export interface Accepted {
  readonly netMinor: number
  readonly totalMinor: number
  readonly working: Working
  readonly papers: readonly StoredRevision[]
}

/** Null while nothing frozen was accepted. */
export async function acceptedTotal(client: Reads | Write, buildId: string): Promise<Accepted | null> {
  const revisions = (await listRevisions(client, buildId)).filter(({ consent }) => consent?.decision === 'accepted').toReversed()
  const papers = [...revisions.filter(({ kind }) => kind === 'quote'), ...revisions.filter(({ kind }) => kind !== 'quote')]
  if (papers.length === 0) return null
  const inputs = papers.flatMap(({ content, consent }) => (consent ? [{ label: `${content.number}, ${content.kind}`, source: 'consent, with tax', amount: { kind: 'money' as const, value: consent.netMinor + consent.taxMinor } }] : []))
  const totalMinor = inputs.reduce((sum, { amount }) => sum + amount.value, 0)
  return {
    totalMinor, papers, netMinor: papers.reduce((sum, { consent }) => sum + (consent?.netMinor ?? 0), 0),
    working: { title: 'Accepted, with tax', inputs, result: { kind: 'money', value: totalMinor }, formula: 'accepted revision + accepted change orders', assumed: '', source: 'common practice, no source; local law decides what a consent is' },
  }
}

/** The lines that were said yes to, as they stand on their frozen papers, and each paper's tax as it was accepted. */
export function acceptedLines({ papers }: Accepted): { readonly offered: OfferedLine[], readonly parts: AcceptedPart[] } {
  const offered = withOneRateACode(papers.flatMap(linesOf))
  const parts = papers.map(({ content, consent }): AcceptedPart => {
    const { codes, netMinor, taxMinor } = taxByCode(offered.filter(({ group }) => group === groupOf(content)))
    if (netMinor !== consent?.netMinor || taxMinor !== consent.taxMinor) throw new Problem(500, 'An accepted paper does not add up', `${content.number}: its lines are not what was accepted. Do not invoice it; restore a backup.`)
    return { number: content.number, codes }
  })
  return { offered, parts }
}

/** All parts together, code by code: no tax is rounded a second time. */
export function sumOfParts(parts: readonly AcceptedPart[]): ReturnType<typeof totalOf> {
  const all = parts.flatMap(({ codes }) => codes)
  const names = [...new Set(all.map(({ taxCode }) => taxCode))].sort()
  return totalOf(names.flatMap((taxCode) => {
    const own = all.filter((code) => code.taxCode === taxCode)
    return own.slice(0, 1).map((first) => ({ ...first, netMinor: own.reduce((sum, one) => sum + one.netMinor, 0), taxMinor: own.reduce((sum, one) => sum + one.taxMinor, 0) }))
  }))
}

const groupOf = ({ number, title }: StoredRevision['content']): string => `${number}, ${title}`

function linesOf({ content, consent }: StoredRevision): OfferedLine[] {
  const chosen = content.options.filter(({ id }) => consent?.chosen.includes(id)).map(({ number }) => number)
  return linesWith(content.lines, chosen).map((line) => ({
    offer: `a${line.key}`, group: groupOf(content), text: line.text, quantity: quantityOf(line), eachMinor: line.eachMinor, amountMinor: line.amountMinor,
    ...(line.taxCode === null ? NO_CODE : { taxCode: line.taxCode.code, rateThousandthsOfPercent: line.taxCode.rateThousandthsOfPercent }), holds: [],
  }))
}

const quantityOf = ({ quantity }: PaperLine): Quantity => ({ of: 'count', thousandths: quantity, unit: '' })
