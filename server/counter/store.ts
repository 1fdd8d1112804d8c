import type { Reads, Write } from '../shared/database/database.ts'

/** So many of the latest a form offers; older ones are begun from their own page. */
export const MOST_OFFERED = 200

const ITEM = { id: true, number: true, maker: true, model: true } as const
const FITTING = {
  id: true, name: true, place: true, departmentId: true, skillId: true, setUp: true, run: true, kitId: true, cautions: true, item: { select: ITEM },
} as const

export type Item = NonNullable<Awaited<ReturnType<typeof findItem>>>
export type Fitting = NonNullable<Awaited<ReturnType<typeof getFitting>>>
export type Offered = Awaited<ReturnType<typeof listOffered>>

/** A standard fitting in use, or null. */
export function getFitting(write: Write, id: string) {
  return write.standardFitting.findFirst({ where: { id, removedAt: null }, select: FITTING })
}

/** The catalog item that somebody means: by its number, "K-011 …", or by maker and model. */
export async function findItem(write: Write, typed: string) {
  const number = /^K-?0*(\d{1,9})\b/i.exec(typed)?.[1]
  const where = { removedAt: null }
  if (number !== undefined) return write.equipmentItem.findFirst({ where: { ...where, number: Number(number) }, select: ITEM })
  const words = typed.toLowerCase()
  const found = await write.equipmentItem.findMany({ where, select: ITEM })
  return found.find(({ maker, model }) => `${maker} ${model}`.toLowerCase() === words) ?? null
}

export async function ownerOf(write: Write, vehicleId: string): Promise<string | null> {
  const vehicle = await write.vehicle.findFirst({ where: { id: vehicleId, removedAt: null }, select: { customerId: true } })
  return vehicle?.customerId ?? null
}

/** Customers on record who are called the same, however it is written. */
export async function findNamesakes(write: Write, name: string): Promise<{ number: number, name: string }[]> {
  const plain = (text: string): string => text.trim().replaceAll(/\s+/g, ' ').toLowerCase()
  const customers = await write.customer.findMany({ where: { removedAt: null }, orderBy: { number: 'asc' }, select: { number: true, name: true } })
  return customers.filter((customer) => plain(customer.name) === plain(name))
}

const CUSTOMER = { id: true, number: true, name: true } as const
const VEHICLE = { id: true, number: true, make: true, model: true, year: true, customer: { select: { name: true } } } as const

/** What the form of a counter job offers: of one customer or the latest of all, and in any case those chosen already. */
export async function listOffered(reads: Reads, customerId: string | null, chosen: readonly string[]) {
  const removedAt = null
  const id = { in: [...chosen] }
  const [customers, vehicles, chosenCustomers, chosenVehicles, fittings, items, bays, standing] = await Promise.all([
    reads.customer.findMany({ where: { removedAt, ...(customerId ? { id: customerId } : {}) }, orderBy: { number: 'desc' }, take: MOST_OFFERED, select: CUSTOMER }),
    reads.vehicle.findMany({ where: { removedAt, ...(customerId ? { customerId } : {}) }, orderBy: { number: 'desc' }, take: MOST_OFFERED, select: VEHICLE }),
    reads.customer.findMany({ where: { removedAt, id }, select: CUSTOMER }),
    reads.vehicle.findMany({ where: { removedAt, id }, select: VEHICLE }),
    reads.standardFitting.findMany({ where: { removedAt }, orderBy: [{ name: 'asc' }], select: { id: true, name: true, setUp: true, run: true } }),
    reads.equipmentItem.findMany({ where: { removedAt }, orderBy: [{ maker: 'asc' }, { model: 'asc' }], take: 2 * MOST_OFFERED, select: ITEM }),
    reads.bay.findMany({ where: { removedAt }, orderBy: [{ name: 'asc' }], select: { id: true, name: true } }),
    reads.build.findMany({ where: { removedAt, stage: { not: 'delivered' }, bayId: { not: null } }, select: { bayId: true, number: true } }),
  ])
  return { customers: together(customers, chosenCustomers), vehicles: together(vehicles, chosenVehicles), fittings, items, bays, standing }
}

const together = <Row extends { id: string }>(latest: readonly Row[], chosen: readonly Row[]): Row[] =>
  [...new Map([...latest, ...chosen].map((row) => [row.id, row])).values()]
