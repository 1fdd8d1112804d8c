import type { Reads, Write } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

const STANDING = { removedAt: null } as const
const TAX = { id: true, code: true, name: true, rate: true } as const

/** What a quote is made from beside the estimate. Throws a 404 where there is no such build. */
export async function loadQuote(client: Reads | Write, buildId: string) {
  const build = await client.build.findFirst({
    where: { id: buildId, ...STANDING },
    select: {
      id: true, number: true, title: true,
      vehicle: { select: { make: true, model: true, year: true, body: true, customer: { select: { name: true, address: true } } } },
      quote: true,
      quoteOptions: { where: STANDING, orderBy: { number: 'asc' }, select: { id: true, number: true, name: true, insteadOf: true, note: true } },
      quoteLines: { where: { ...STANDING, changeOrderId: null }, orderBy: { number: 'asc' }, select: { id: true, number: true, text: true, quantity: true, price: true, taxCodeId: true, optionId: true } },
      depositSteps: { where: STANDING, orderBy: { number: 'asc' }, select: { id: true, number: true, due: true, share: true } },
      lines: { where: STANDING, orderBy: { number: 'asc' }, select: { id: true, number: true, name: true, quantity: true, suppliedBy: true, zoneId: true, taxCodeId: true, optionId: true } },
      parts: { where: STANDING, orderBy: { number: 'asc' }, select: { id: true, number: true, name: true, quantity: true, zoneId: true, optionId: true } },
    },
  })
  if (!build) throw notFound('build')
  const shop = await client.shop.findFirst({
    select: {
      name: true, address: true, phone: true, currency: true, timeZone: true, goWrongTogether: true, laborTaxCodeId: true, materialTaxCodeId: true,
      suppliesShare: true, suppliesMost: true, quoteValidDays: true, quoteExclusions: true, quoteAssumptions: true,
    },
  })
  // A code that was taken away still says what stands taxed by it.
  const taxCodes = new Map((await client.taxCode.findMany({ select: TAX })).map((code) => [code.id, code]))
  return { build, shop, taxCodes, terms: termsOf(build.quote, shop) }
}

export type StoredQuote = Awaited<ReturnType<typeof loadQuote>>

interface ShopTerms {
  readonly laborTaxCodeId: string | null
  readonly materialTaxCodeId: string | null
  readonly suppliesShare: number
  readonly suppliesMost: number | null
  readonly quoteValidDays: number
  readonly quoteExclusions: string
  readonly quoteAssumptions: string
}

/** What a quote begins with until somebody says otherwise: the shop's own. */
export function termsOfShop(shop: ShopTerms | null) {
  return {
    linesBy: 'zone', laborTaxCodeId: shop?.laborTaxCodeId ?? null, materialTaxCodeId: shop?.materialTaxCodeId ?? null, suppliesShare: shop?.suppliesShare ?? 0,
    suppliesMost: shop?.suppliesMost ?? null, validDays: shop?.quoteValidDays ?? 30, exclusions: shop?.quoteExclusions ?? '', assumptions: shop?.quoteAssumptions ?? '',
    replacedParts: 'not asked yet', note: '',
  }
}

type Terms = ReturnType<typeof termsOfShop>

function termsOf(quote: (Terms & { readonly id: string, readonly removedAt: Date | null }) | null, shop: ShopTerms | null): Terms {
  return quote && !quote.removedAt ? quote : termsOfShop(shop)
}

export const hasOption = async (client: Reads | Write, buildId: string, id: string): Promise<boolean> =>
  (await client.quoteOption.count({ where: { id, buildId, removedAt: null } })) > 0
