import type { TaxedLine } from '../calc/quotes/tax.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { getShop, listNamedCodes, listTaxCodes } from './store.ts'

export type Code = Pick<TaxedLine, 'taxCode' | 'rateThousandthsOfPercent'>

/** Where nothing names a code: no tax is computed, and the paper says so. */
export const NO_CODE: Code = { taxCode: 'none', rateThousandthsOfPercent: 0 }

export interface Codes {
  readonly labor: Code
  readonly material: Code
  ofEquipment(lineId: string): Code
}

/** How the lines of a build are taxed: an equipment line by its own code, the rest by the quote's or the shop's. */
export async function codesOf(client: Reads | Write, buildId: string): Promise<Codes> {
  const [shop, all, { ofLine, quote }] = await Promise.all([getShop(client), listTaxCodes(client), listNamedCodes(client, buildId)])
  const byId = new Map(all.map(({ id, code, rate }): [string, Code] => [id, { taxCode: code, rateThousandthsOfPercent: rate }]))
  const first = (...ids: readonly (string | null | undefined)[]): Code => ids.map((id) => byId.get(id ?? '')).find((code) => code !== undefined) ?? NO_CODE
  const material = first(quote?.materialTaxCodeId, shop.materialTaxCodeId)
  return { labor: first(quote?.laborTaxCodeId, shop.laborTaxCodeId), material, ofEquipment: (lineId) => byId.get(ofLine.get(lineId) ?? '') ?? material }
}

/** Lines whose code stands with two rates, as after a change of the law, name the rate with it: each rate is summed by itself. */
export function withOneRateACode<Line extends TaxedLine>(lines: readonly Line[]): Line[] {
  const rates = new Map<string, Set<number>>()
  for (const { taxCode, rateThousandthsOfPercent } of lines) rates.set(taxCode, (rates.get(taxCode) ?? new Set()).add(rateThousandthsOfPercent))
  return lines.map((line) => ((rates.get(line.taxCode)?.size ?? 0) > 1 ? { ...line, taxCode: `${line.taxCode} at ${line.rateThousandthsOfPercent / 1000} %` } : line))
}
