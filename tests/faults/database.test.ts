import t from 'tap'
import { setTimeout as pause } from 'node:timers/promises'
import type { Database } from '../../server/shared/database/database.ts'
import { lockFromOutside, longestStall } from '../support/foreignLock.ts'
import { openShop, type TestShop } from '../support/shop.ts'

const nextNumber = async (database: Database): Promise<number> => (await database.reads.customer.count()) + 1
const addBay = (database: Database, name: string, fate: () => Promise<void> = async () => undefined): Promise<string> =>
  database.write(async (write) => {
    const { id } = await write.bay.create({ data: { name } })
    await fate()
    return id
  })
const bayNames = async (database: Database): Promise<string[]> =>
  (await database.reads.bay.findMany({ orderBy: { id: 'asc' } })).map((bay) => bay.name)

t.test('a write acknowledged while another one is open and fails is still there afterwards', async (t) => {
  const { database } = await openShop(t)
  let isOpen = false
  const failing = addBay(database, 'comes to nothing', async () => {
    isOpen = true
    await pause(150)
    throw new Error('changed my mind')
  })
  while (!isOpen) await pause(5)
  const acknowledged = addBay(database, 'acknowledged')
  await t.rejects(failing, { message: 'changed my mind' })
  await acknowledged
  t.same(await bayNames(database), ['acknowledged'])
})

t.test('of many writes at once, all acknowledged ones stand, no failed one does, and no reader sees one under way', async (t) => {
  const { database } = await openShop(t)
  const acknowledged: string[] = []
  const failed: string[] = []
  let isRunning = true
  let looks = 0
  let dirty = 0
  const reader = (async () => {
    while (isRunning) {
      const names = await bayNames(database)
      looks += 1
      dirty += names.filter((name) => name.startsWith('fails')).length
      await pause(1)
    }
  })()
  await Promise.all(Array.from({ length: 90 }, async (_, index) => {
    await pause(index * 4)
    const name = `${index % 3 === 0 ? 'fails' : 'stands'} ${index}`
    const fate = async (): Promise<void> => {
      await pause(3)
      if (index % 3 === 0) throw new Error('rolled back')
    }
    await addBay(database, name, fate).then(() => acknowledged.push(name), () => failed.push(name))
  }))
  isRunning = false
  await reader
  t.equal(acknowledged.length, 60)
  t.equal(failed.length, 30)
  t.same((await bayNames(database)).sort(), acknowledged.sort())
  t.equal(dirty, 0)
  t.ok(looks > 20, 'readers were not held up by writers')
})

t.test('a reader does not see what an open write has not committed', async (t) => {
  const { database } = await openShop(t)
  const seen: string[][] = []
  await addBay(database, 'under way', async () => {
    seen.push(await bayNames(database))
  })
  seen.push(await bayNames(database))
  t.same(seen, [[], ['under way']])
})

t.test('nothing can be written outside a write', async (t) => {
  const { database } = await openShop(t)
  await t.rejects(database.reads.bay.create({ data: { name: 'past the door' } }), /readonly|read-only|query_only/i)
  t.same(await bayNames(database), [])
})

t.test('while another process holds the lock, a write waits, others are served, and it succeeds afterwards', async (t) => {
  const shop = await openShop(t)
  const manager = shop.as('manager')
  await manager.page('/bays')
  const lock = await lockFromOutside(shop.config.databaseFile, 1500)
  let answered = 0
  const stall = await longestStall(async () => {
    let isWaiting = true
    const write = manager.api.post('/api/bays', { name: 'after the lock' }).finally(() => { isWaiting = false })
    while (isWaiting) {
      await manager.page('/bays')
      answered += 1
      await pause(20)
    }
    t.equal((await write).statusCode, 201)
  })
  await lock.released
  t.ok(stall < 500, `the longest stall was ${Math.round(stall)} ms`)
  t.ok(answered > 3, `${answered} pages were served meanwhile`)
  t.same(await bayNames(shop.database), ['after the lock'])
})

t.test('a lock held longer than our patience is answered with 503 and when to try again, and nothing is written', async (t) => {
  let now = new Date('2031-03-03T09:00:00Z')
  const shop = await openShop(t, { clock: () => now })
  now = new Date('2031-03-03T09:10:00Z')
  const lock = await lockFromOutside(shop.config.databaseFile)
  const [read, json, page] = await Promise.all([
    shop.as('technician').get('/builds'),
    shop.as('manager').api.post('/api/bays', { name: 'too late' }, { 'idempotency-key': 'patience' }),
    shop.as('manager').post('/bays', { name: 'too late as well' }),
  ])
  lock.release()
  await lock.released
  t.equal(read.statusCode, 200, 'who only looks is answered, though the time they were last seen could not be noted')
  t.equal(json.statusCode, 503)
  t.ok(Number(json.headers['retry-after']) > 0)
  t.match(json.json(), { status: 503, detail: 'Nothing was saved. Try again in a few seconds.' })
  t.equal(page.statusCode, 503)
  t.match(page.body, 'Nothing was saved')
  t.same(await bayNames(shop.database), [])
  const again = await shop.as('manager').api.post('/api/bays', { name: 'too late' }, { 'idempotency-key': 'patience' })
  t.equal(again.statusCode, 201, 'the same request succeeds once the lock is gone')
  t.same(await bayNames(shop.database), ['too late'])
})

t.test('of ten changes made at once from the same version one wins and the others get a conflict', async (t) => {
  const shop = await openShop(t)
  const { api } = shop.as('manager')
  const { id } = await api.create('/api/customers', { name: 'Before' })
  const answers = await Promise.all(Array.from({ length: 10 }, (_, index) =>
    api.patch(`/api/customers/${id}`, { name: `Name ${index}` }, { 'if-match': '"1"' })))
  const codes = answers.map((answer) => answer.statusCode).sort()
  t.same(codes, [200, ...Array<number>(9).fill(412)])
  const winner = answers.find((answer) => answer.statusCode === 200)!.json<{ name: string }>()
  const stands = (await api.get(`/api/customers/${id}`)).json<{ name: string; version: number }>()
  t.match(stands, { name: winner.name, version: 2 })
  const history = (await api.get(`/api/customers/${id}/history`)).json<{ items: { action: string }[] }>()
  t.same(history.items.map((entry) => entry.action), ['changed', 'created'], 'the losers left no trace')
})

t.test('ten counts up at once, each from the version it read, are all counted', async (t) => {
  const { database } = await openShop(t)
  const id = await addBay(database, '0')
  await Promise.all(Array.from({ length: 10 }, () => database.write(async (write) => {
    const bay = await write.bay.findUniqueOrThrow({ where: { id } })
    await pause(2)
    await write.bay.update({ where: { id }, data: { name: String(Number(bay.name) + 1) } })
  })))
  t.same(await bayNames(database), ['10'])
})

t.test('a full disk refuses the write, keeps what stood, and lets writes through again once there is room', async (t) => {
  const shop = await openShop(t)
  const { api } = shop.as('manager')
  await api.create('/api/customers', { name: 'Before' })
  const [size] = await pragma(shop, 'page_count')
  await pragma(shop, `max_page_count = ${size}`)
  const answers = []
  for (let index = 0; index < 12; index += 1) {
    answers.push(await api.post('/api/customers', { name: `Full ${index}`, note: 'n'.repeat(4000), address: 'a'.repeat(4000) }))
  }
  const refused = answers.filter((answer) => answer.statusCode !== 201)
  t.ok(refused.length > 0, 'the disk did fill up')
  for (const answer of refused) {
    t.ok([500, 503].includes(answer.statusCode))
    t.notMatch(answer.body, /sqlite|prisma|node_modules/i)
  }
  t.equal(await shop.database.reads.customer.count(), 1 + answers.length - refused.length)
  await pragma(shop, 'max_page_count = 1000000')
  t.equal((await api.post('/api/customers', { name: 'Room again' })).statusCode, 201)
  t.equal(await nextNumber(shop.database), 3 + answers.length - refused.length)
})

async function pragma(shop: TestShop, text: string): Promise<number[]> {
  const rows = await shop.database.write((write) => write.$queryRawUnsafe<Record<string, bigint>[]>(`PRAGMA ${text}`))
  return rows.map((row) => Number(Object.values(row)[0]))
}
