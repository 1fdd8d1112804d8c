import { groupBy } from '../grouping.ts'
import type { PlacedPrice } from './placedPrices.ts'
import { addExactly, scaleHalfAway } from '../rounding.ts'
import { shareOut } from '../shares.ts'

/** How a line is headed, what it is grouped by, and what the customer gets there. */
export interface LineGroup {
  readonly key: string
  readonly heading: string
  readonly detail: string
}

export interface DraftLine {
  readonly key: string
  readonly text: string
  readonly amountMinor: number
  readonly taxCodeId: string | null
  readonly option: number | null
  /** What it is summed from. */
  readonly prices: readonly PlacedPrice[]
}

const WHOLE = 1000
const WORDS = { labor: 'work', bought: 'material and equipment' } as const

/**
 * Lines of a quote from prices at their things: one for each group, option and tax code. Where a group is split, each
 * line says what is in it. Lines that come to nothing are left out. Minor units; all lines sum to all prices.
 *
 * Source: common practice, no source.
 * @example a door with 400.00 of work at one tax code and 150.00 of material at another: two lines, "Door, work" and "Door, material and equipment"
 */
export function toLines(prices: readonly PlacedPrice[], groupOf: (price: PlacedPrice) => LineGroup, codeOf: (taxCodeId: string) => string): DraftLine[] {
  return [...groupBy(prices, (price) => `${groupOf(price).key} ${price.option ?? ''}`).values()].flatMap((group) => {
    const buckets = [...groupBy(group, ({ taxCodeId }) => taxCodeId)].map(([taxCodeId, bucket]) => ({
      taxCodeId, bucket, amountMinor: addExactly(bucket.map(({ sellMinor }) => sellMinor)), holds: holdingOf(bucket),
    })).filter(({ amountMinor }) => amountMinor !== 0)
    return buckets.flatMap(({ taxCodeId, bucket, amountMinor, holds }, index) => bucket.slice(0, 1).map((first): DraftLine => {
      const { key, heading, detail } = groupOf(first)
      const isAlike = buckets.filter((other) => other.holds === holds).length > 1
      const code = taxCodeId === null ? 'no tax code' : codeOf(taxCodeId)
      const said = [heading, ...(buckets.length > 1 ? [holds] : []), ...(isAlike ? [code] : [])].join(', ')
      return { key: `${key}/${first.option ?? ''}/${taxCodeId ?? ''}`, text: detail === '' || index > 0 ? said : `${said}: ${detail}`, amountMinor, taxCodeId, option: first.option, prices: bucket }
    }))
  })
}

function holdingOf(bucket: readonly PlacedPrice[]): string {
  const kinds = new Set(bucket.filter(({ sellMinor }) => sellMinor !== 0).map(({ what }) => what))
  if (kinds.size === 2) return 'work, material and equipment'
  return kinds.has('labor') ? WORDS.labor : WORDS.bought
}

/** How shop supplies are charged: a share (thousandths) of the price of labor, with a most. */
export interface SuppliesRule {
  readonly shareThousandths: number
  readonly mostMinor: number | null
}

/**
 * Shop supplies in minor units: a share (thousandths) of the price of labor, with a most.
 * Source: the shop's rule; local law decides.
 *
 * @example suppliesOf(250_000, { shareThousandths: 30, mostMinor: 5_000 }) // 5000
 */
export function suppliesOf(laborMinor: number, { shareThousandths, mostMinor }: SuppliesRule): number {
  const share = scaleHalfAway(laborMinor, shareThousandths, WHOLE)
  return mostMinor === null ? share : Math.min(share, mostMinor)
}

/**
 * What each deposit step asks for, in minor units: shares in thousandths of the total, without a rest, so that steps of
 * 1000 in all come to the total. Source: common practice, no source.
 *
 * @example depositsOf(100, [333, 333, 334]) // [33, 33, 34]
 */
export function depositsOf(totalMinor: number, shares: readonly number[]): number[] {
  const rest = WHOLE - addExactly(shares)
  return shareOut(totalMinor, rest > 0 ? [...shares, rest] : shares).slice(0, shares.length)
}
