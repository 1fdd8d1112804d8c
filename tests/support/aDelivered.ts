import { aBuild } from './aBuild.ts'
import { deliver } from './aFinalCheck.ts'
import type { TestShop } from './shop.ts'

/** A delivered build with an amplifier and two speakers of the catalog, a fitted ring and a panel that is out. */
export async function aDelivered(shop: TestShop, deliveredOn = '2026-03-31') {
  const { create } = shop.as('manager').api
  const base = await aBuild(shop, 'Four speakers and an amplifier')
  const { build, zone, department } = base
  const inZone = { buildId: build.id, zoneId: zone.id }
  const item = (kind: string, model: string, warrantyMonths?: number) => create('/api/catalog', { kind, maker: 'Averne', model, cost: '100.00', price: '200.00', warrantyMonths })
  const [ampItem, speakerItem] = [await item('amplifier', 'A 4', 6), await item('speaker', 'M 165')]
  const amplifier = await create('/api/equipment-lines', { ...inZone, itemId: ampItem.id, quantity: 1, serialNumbers: 'A4-0127', isFitted: true })
  const speakers = await create('/api/equipment-lines', { ...inZone, itemId: speakerItem.id, quantity: 2, serialNumbers: 'M-31\nM-32', isFitted: true })
  const ring = await create('/api/parts', { ...inZone, name: 'Speaker ring', quantity: 2, isFitted: true })
  const panel = await create('/api/factory-parts', { ...inZone, name: 'Door panel', state: 'fitted' })
  const speaker = await create('/api/factory-parts', { ...inZone, name: 'Door speaker', state: 'out with the customer' })
  const built = await create('/api/operations', { buildId: build.id, partId: ring.id, kind: 'cut', departmentId: department.id, run: '1 h', state: 'done' })
  await deliver(shop, build.id, { deliveredOn })
  const visit = (more: Record<string, unknown> = {}) => create('/api/service-visits', { buildId: build.id, cameOn: '2026-05-04', complaint: 'Channel 3 is dead', ...more })
  return { ...base, amplifier, speakers, ring, panel, speaker, built, visit }
}
