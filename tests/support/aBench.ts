import type { Test } from 'tap'
import { aBuild } from './aBuild.ts'
import { openShop, type Json, type TestShop } from './shop.ts'

/** A door pod with two operations on it, a clock that the test turns, and a shop far from Greenwich. */
export async function aBench(t: Test, at = '2027-01-12T12:00:00Z', timeZone = 'America/St_Johns') {
  const time = { now: new Date(at) }
  const shop = await openShop(t, { clock: () => time.now })
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { timeZone } }))
  const { build, zone, department } = await aBuild(shop)
  const { create } = shop.as('manager').api
  const part = await create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Door pod', quantity: 2, cautions: 'heavy item' })
  const operation = (kind: string, more: Json = {}) => create('/api/operations', { buildId: build.id, partId: part.id, kind, departmentId: department.id, setUp: '0.5 h', run: '1 h', ...more })
  const mold = await operation('mold')
  const sand = await operation('sand')
  return {
    shop, time, build, zone, part, department, mold, sand, operation, technician: shop.as('technician'),
    turn: (minutes: number) => { time.now = new Date(time.now.getTime() + minutes * 60_000) },
    stateOf: async (id: string) => (await shop.database.reads.operation.findUniqueOrThrow({ where: { id } })).state,
    entries: () => shop.database.reads.timeEntry.findMany({ orderBy: [{ createdAt: 'asc' }, { id: 'asc' }] }),
  }
}

/** What the history of a record says, the first first. */
export const history = (shop: TestShop, recordId: string) => shop.database.reads.auditEntry.findMany({ where: { recordId }, orderBy: [{ at: 'asc' }, { id: 'asc' }] })
