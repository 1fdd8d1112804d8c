import t from 'tap'
import { setTimeout } from 'node:timers/promises'
import { aBuild } from '../support/aBuild.ts'
import { openShop, type TestShop } from '../support/shop.ts'

const words = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

interface Answer {
  readonly state: string
  readonly isSearching: boolean
  readonly isStale: boolean
  readonly builds: readonly { readonly buildId: string, readonly endsAt: string | null }[]
  readonly work: readonly { readonly operationId: string, readonly startsAt: string, readonly endsAt: string, readonly personIds: readonly string[], readonly bayId: string | null }[]
  readonly leftOut: readonly { readonly why: string }[]
}

const planned = async (shop: TestShop): Promise<Answer> => (await shop.as('manager').api.get('/api/schedule')).json() as Answer

/** The search goes on beside the service; what it found is there when it has ended. */
async function searched(shop: TestShop): Promise<Answer> {
  for (let tries = 0; tries < 200; tries += 1) {
    const answer = await planned(shop)
    if (!answer.isSearching) return answer
    await setTimeout(50)
  }
  throw new Error('the search did not end')
}

t.test('the shop is planned by one press: what is sanded after it was cut, by whom, and whether the promise holds', async (t) => {
  const shop = await openShop(t)
  const { build, zone, department } = await aBuild(shop)
  const manager = shop.as('manager')
  t.match(words(await manager.page('/schedule')), /No open operation is recorded/)
  const part = await manager.api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Corner box', quantity: 1 })
  const on = { buildId: build.id, partId: part.id, departmentId: department.id, reworkAllowance: '0 %' }
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h', wait: '1 h' })
  const sand = await manager.api.create('/api/operations', { ...on, number: 20, kind: 'sand', run: '3 h' })
  await manager.post('/schedule/plan', {})
  const answer = await searched(shop)
  t.equal(answer.state, 'planned')
  const [first, second] = [cut, sand].map(({ id }) => answer.work.find(({ operationId }) => operationId === id)!)
  t.ok(Date.parse(second!.startsAt) >= Date.parse(first!.endsAt) + 3_600_000, 'an hour of waiting lies between')
  t.equal(first!.personIds.length, 1)
  t.equal(first!.bayId, null, 'at the bench')
  t.equal(answer.builds[0]!.endsAt, second!.endsAt)
  const page = words(await manager.page('/schedule'))
  t.match(page, /Planned .*nothing has changed since/)
  t.match(page, /P-\d+ Corner box/)

  await manager.api.create('/api/operations', { ...on, number: 30, kind: 'wrap', run: '1 h' })
  t.match(words(await manager.page('/schedule')), /things have changed since/)
  t.ok((await planned(shop)).isStale)
  await manager.post('/schedule/plan', {})
  t.notOk((await searched(shop)).isStale)
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { closesAt: 14 * 3600 } }))
  t.ok((await planned(shop)).isStale, 'other hours of the shop make another plan')
})

t.test('work nobody can do is named, and so is what waits for it; the build has no end then', async (t) => {
  const shop = await openShop(t)
  const { build, zone, department } = await aBuild(shop)
  const { api, page } = shop.as('manager')
  const skill = await api.create('/api/skills', { name: 'aluminum welding', departmentId: department.id })
  const part = await api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Rack', quantity: 1 })
  const on = { buildId: build.id, partId: part.id, departmentId: department.id }
  await api.create('/api/operations', { ...on, number: 10, kind: 'weld', run: '2 h', skillId: skill.id })
  await api.create('/api/operations', { ...on, number: 20, kind: 'paint', run: '1 h' })
  await api.post('/api/schedule', {})
  const answer = await searched(shop)
  t.same(answer.leftOut.length, 2)
  t.match(answer.leftOut[0]!.why, /no people with the skill aluminum welding/)
  t.match(answer.leftOut[1]!.why, /waits for/)
  t.equal(answer.builds[0]!.endsAt, null)
  t.match(words(await page('/schedule')), /part of it cannot be planned/)
})

t.test('running work that no half year holds makes no plan, and the page says so', async (t) => {
  const shop = await openShop(t)
  const { build, zone, department } = await aBuild(shop)
  const { api } = shop.as('manager')
  const part = await api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Rack', quantity: 1 })
  const { id } = await api.create('/api/operations', { buildId: build.id, partId: part.id, departmentId: department.id, kind: 'weld', run: '2000 h' })
  await shop.database.write((write) => write.timer.create({ data: { personId: shop.people.technician, buildId: build.id, operationId: id, kind: 'work', startedAt: shop.clock() } }))
  t.equal((await shop.as('manager').post('/schedule/plan', {})).statusCode, 303)
  t.match(words(await shop.as('manager').page('/schedule')), /cannot be worked as it stands/)
})

t.test('an empty shop says that there is nothing to plan, and stopping without a search changes nothing', async (t) => {
  const shop = await openShop(t)
  const manager = shop.as('manager')
  await manager.post('/schedule/plan', {})
  t.equal((await manager.post('/schedule/stop', {})).statusCode, 303)
  t.match(words(await manager.page('/schedule')), /No open operation is recorded/)
})
