import { z } from 'zod'
import type { MeasuredOrder } from '../calc/costing/besideEstimate.ts'
import { addExactly } from '../calc/rounding.ts'
import { groupBy } from '../calc/grouping.ts'
import type { SuppliesRule } from '../calc/quotes/quoteLines.ts'
import type { Reads } from '../shared/database/database.ts'

/** What the papers that were accepted on a build say beside its records. Minor units, without tax. */
export interface StoredPapers {
  /** Accepted quote and accepted change orders. */
  readonly netMinor: number
  readonly supplies: SuppliesRule | null
  readonly furtherMinor: number
  readonly options: readonly { readonly id: string, readonly number: number, readonly name: string, readonly isChosen: boolean }[]
  /** Price of the estimate on the quote. */
  readonly quotedMinor: number
  /** Accepted change orders that say how the build stood, in the order they were frozen. */
  readonly orders: readonly MeasuredOrder[]
}

const measured = z.object({ measured: z.object({ estimateMinor: z.int(), missingMinor: z.int() }).optional() })

/** As much of a frozen quote as the figures look at. */
const frozen = z.object({
  lines: z.array(z.object({ key: z.string(), amountMinor: z.int(), option: z.int().nullable() })),
  options: z.array(z.object({ id: z.string(), number: z.int(), name: z.string() })),
  supplies: z.object({ share: z.int(), mostMinor: z.int().nullable() }).nullable(),
})

/** The accepted papers of builds, by build; none where nothing frozen was accepted. */
export async function loadPapers(reads: Reads, ids: readonly string[]): Promise<Map<string, StoredPapers>> {
  const consents = await reads.consent.findMany({
    where: { buildId: { in: [...ids] }, decision: 'accepted' }, orderBy: [{ revision: { createdAt: 'asc' } }, { id: 'asc' }],
    select: { buildId: true, netMinor: true, chosen: true, revision: { select: { kind: true, content: true } } },
  })
  return new Map([...groupBy(consents, ({ buildId }) => buildId)].map(([id, own]) => {
    const quotes = own.filter(({ revision }) => revision.kind === 'quote').map(({ chosen, revision }) => toQuote(frozen.parse(JSON.parse(revision.content)), z.array(z.string()).parse(JSON.parse(chosen))))
    return [id, {
      netMinor: addExactly(own.map(({ netMinor }) => netMinor)), supplies: quotes[0]?.supplies ?? null,
      furtherMinor: addExactly(quotes.map(({ furtherMinor }) => furtherMinor)), options: quotes.flatMap(({ options }) => options),
      quotedMinor: addExactly(quotes.map(({ quotedMinor }) => quotedMinor)), orders: own.filter(({ revision }) => revision.kind !== 'quote').flatMap(toOrder),
    }]
  }))
}

function toQuote({ lines, options, supplies }: z.infer<typeof frozen>, chosen: readonly string[]): Pick<StoredPapers, 'supplies' | 'furtherMinor' | 'options' | 'quotedMinor'> {
  const isIn = (option: number | null): boolean => option === null || options.some(({ id, number }) => number === option && chosen.includes(id))
  return {
    supplies: supplies && { shareThousandths: supplies.share, mostMinor: supplies.mostMinor },
    furtherMinor: addExactly(lines.filter(({ key, option }) => key.startsWith('line:') && isIn(option)).map(({ amountMinor }) => amountMinor)),
    quotedMinor: addExactly(lines.filter(({ key }) => key !== 'supplies' && !key.startsWith('line:')).map(({ amountMinor }) => amountMinor)),
    options: options.map(({ id, number, name }) => ({ id, number, name, isChosen: chosen.includes(id) })),
  }
}

/** What was frozen before change orders told how the build stood is taken to stand in the estimate. */
function toOrder({ netMinor, revision }: { readonly netMinor: number, readonly revision: { readonly content: string } }): MeasuredOrder[] {
  const { measured: stood } = measured.parse(JSON.parse(revision.content))
  return stood === undefined ? [] : [{ netMinor, ...stood }]
}
