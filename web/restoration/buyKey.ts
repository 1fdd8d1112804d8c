import type { BuyLine } from '../../server/calc/restoration/partsToBuy.ts'

/** A short key of a line of the parts to buy, the same wherever it is drawn: a hash of what sets it apart (FNV-1a). */
export function buyKey({ reason, name, priceMinor, leadDays }: Pick<BuyLine, 'reason' | 'name' | 'priceMinor' | 'leadDays'>): string {
  let hash = 0x81_1c_9d_c5
  for (const sign of JSON.stringify([reason, name, priceMinor, leadDays])) {
    hash = Math.imul(hash ^ (sign.codePointAt(0) ?? 0), 0x01_00_01_93) >>> 0
  }
  return hash.toString(36)
}
