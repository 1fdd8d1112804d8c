import type { Reads, Write } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

const STANDING = { removedAt: null } as const
const BY_NUMBER = { orderBy: { number: 'asc' } } as const
const ZONE = { select: { number: true, name: true } } as const

const DELIVERED = {
  id: true, number: true, title: true, kind: true, stage: true, holding: true, deliveredOn: true, reason: true,
  vehicle: { select: { make: true, model: true, year: true, body: true, energy: true, vin: true, plate: true, factoryOptions: true, customer: { select: { name: true } } } },
  zones: { where: STANDING, ...BY_NUMBER, select: { number: true, name: true, place: true } },
  lines: {
    where: { ...STANDING, isFitted: true }, ...BY_NUMBER,
    select: {
      number: true, name: true, quantity: true, suppliedBy: true, serialNumbers: true, mounting: true, price: true, zone: ZONE,
      item: { select: { kind: true, maker: true, model: true, mass: true, current: true, fuse: true, channels: true, warrantyMonths: true } },
      swaps: { where: STANDING, orderBy: { swappedOn: 'asc' }, select: { oldSerial: true, newSerial: true, swappedOn: true, warrantyUntil: true } },
    },
  },
  parts: { where: STANDING, ...BY_NUMBER, select: { id: true, number: true, name: true, quantity: true, isFitted: true, mass: true, removable: true, zone: ZONE } },
  uses: { where: STANDING, select: { parentId: true, partId: true, quantity: true } },
  finishes: { where: STANDING, ...BY_NUMBER, select: { number: true, kind: true, material: true, color: true, code: true, batch: true, supplier: true, part: { select: { number: true, name: true } } } },
  alterations: {
    where: STANDING, ...BY_NUMBER,
    select: { number: true, kind: true, what: true, consentBy: true, consentOn: true, isReversible: true, reversal: true, reversedOn: true, partToBuy: true, furtherParts: { where: { removedAt: null }, orderBy: { id: 'asc' }, select: { name: true, count: true } }, zone: ZONE },
  },
  factoryParts: {
    where: STANDING, ...BY_NUMBER,
    select: {
      number: true, name: true, partNumber: true, state: true, condition: true, place: true, zone: ZONE, bin: { select: { number: true, place: true } },
      moves: { orderBy: { at: 'desc' }, take: 1, select: { kind: true, at: true, toWhom: true, signedName: true, place: true } },
    },
  },
  points: { where: { ...STANDING, closedOn: null }, ...BY_NUMBER, select: { number: true, text: true, personId: true, stopsWork: true, zone: ZONE } },
  photos: { where: STANDING, orderBy: { createdAt: 'asc' }, select: { id: true, subjectKind: true, subjectId: true, hash: true, width: true, height: true, caption: true, moment: true, createdAt: true } },
  delivery: true,
} as const

export type StoredDelivery = Awaited<ReturnType<typeof loadDelivery>>

/** A build as it is handed over. Throws a 404. */
export async function loadDelivery(client: Reads | Write, buildId: string) {
  const build = await client.build.findFirst({ where: { id: buildId, removedAt: null }, select: DELIVERED })
  if (!build) throw notFound('build')
  const shop = await client.shop.findFirst({ select: { name: true, address: true, phone: true, timeZone: true, currency: true } })
  const people = await client.person.findMany({ where: { isActive: true, removedAt: null }, orderBy: { name: 'asc' }, select: { id: true, name: true } })
  const explainedBy = build.delivery?.explainedById ? await client.person.findUnique({ where: { id: build.delivery.explainedById }, select: { name: true } }) : null
  return { build, shop: shop ?? { name: '', address: '', phone: '', timeZone: 'UTC', currency: 'USD' }, people, explainedBy: explainedBy?.name ?? '' }
}

export const findDelivery = (write: Write, buildId: string) => write.delivery.findUnique({ where: { buildId } })

export async function storeReceipt(write: Write, id: string, receipt: { receivedBy: string, signature: string, receivedAt: Date }): Promise<void> {
  await write.delivery.update({ where: { id }, data: { ...receipt, version: { increment: 1 } } })
}
