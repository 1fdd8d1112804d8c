import type { Reads, Write } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

const LINES = { where: { removedAt: null }, orderBy: { number: 'asc' }, select: { id: true, number: true, text: true, quantity: true, price: true, taxCodeId: true } } as const

const findOrder = (client: Reads | Write, id: string) => client.changeOrder.findFirst({
  where: { id, removedAt: null, build: { removedAt: null } },
  select: {
    id: true, version: true, buildId: true, number: true, title: true, reason: true, daysLater: true, validDays: true, lines: LINES,
    build: { select: { number: true, title: true, vehicle: { select: { make: true, model: true, body: true, year: true, customer: { select: { name: true, address: true } } } } } },
  },
})

export type Order = NonNullable<Awaited<ReturnType<typeof findOrder>>>

/** A change order with its lines. Throws a 404 where there is none. */
export async function getOrder(client: Reads | Write, id: string): Promise<Order> {
  const order = await findOrder(client, id)
  if (!order) throw notFound('change order')
  return order
}

/** The change orders of a build. Throws a 404 where there is no such build. */
export async function listOrders(client: Reads | Write, buildId: string) {
  const build = await client.build.findFirst({
    where: { id: buildId, removedAt: null },
    select: { id: true, number: true, title: true, changeOrders: { where: { removedAt: null }, orderBy: { number: 'asc' }, select: { id: true, number: true, title: true, daysLater: true, lines: LINES } } },
  })
  if (!build) throw notFound('build')
  return build
}

export const listCodes = (client: Reads | Write) => client.taxCode.findMany({ select: { id: true, code: true, name: true, rate: true } })

/** How labor and material are taxed on this build unless a line says otherwise. */
export async function usualCodeIds(client: Reads | Write, buildId: string): Promise<Readonly<Record<'labor' | 'material', string | null>>> {
  const select = { laborTaxCodeId: true, materialTaxCodeId: true } as const
  const [quote, shop] = [await client.quote.findFirst({ where: { buildId, removedAt: null }, select }), await client.shop.findFirst({ select })]
  return { labor: quote?.laborTaxCodeId ?? shop?.laborTaxCodeId ?? null, material: quote?.materialTaxCodeId ?? shop?.materialTaxCodeId ?? null }
}

export async function shopHead(client: Reads | Write) {
  return await client.shop.findFirst({ select: { name: true, address: true, phone: true, currency: true } }) ?? { name: '', address: '', phone: '', currency: 'USD' }
}
