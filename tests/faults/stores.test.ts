import t, { type Test } from 'tap'
import type { Database } from '../../server/shared/database/database.ts'
import { Prisma } from '../../prisma/client/client.ts'
import { aBuild } from '../support/aBuild.ts'
import { newFault, withFault, type Fault } from '../support/faulty.ts'
import { rowsOf } from '../support/rows.ts'
import { openShop, type Answer, type TestShop } from '../support/shop.ts'

const MOST_CALLS = 90
const locked = (): Error => new Prisma.PrismaClientKnownRequestError('Operation has timed out', { code: 'P1008', clientVersion: 'test' })

async function openFaultyShop(t: { teardown(work: () => unknown): unknown }): Promise<{ shop: TestShop; fault: Fault }> {
  const fault = newFault()
  const shop = await openShop(t, { through: (database: Database) => withFault(database, fault) })
  return { shop, fault }
}

/** Makes the first, second, third … store call fail until none is left to fail; returns the answer that got through. */
async function failEachCall(t: Test, shop: TestShop, fault: Fault, ask: () => Promise<Answer>): Promise<Answer> {
  const before = await rowsOf(shop.database)
  for (let failAt = 1; failAt <= MOST_CALLS; failAt += 1) {
    for (const isDoneFirst of [false, true]) {
      Object.assign(fault, { failAt, isDoneFirst, hasFired: false, isOnce: false, error: new Error('disk I/O error') })
      const answer = await ask()
      if (!fault.hasFired) {
        fault.failAt = 0
        t.ok(failAt > 2, `${failAt - 1} store calls were made to fail, one by one`)
        return answer
      }
      if (answer.statusCode !== 500) t.fail(`call ${failAt} failed and the answer was ${answer.statusCode}: ${answer.body.slice(0, 200)}`)
      if (/disk I\/O|at .*\.ts:\d/.test(answer.body)) t.fail(`the failure of call ${failAt} was told to the outside`)
    }
    t.same(await rowsOf(shop.database), before, `nothing is left of the attempts that failed at call ${failAt}`)
  }
  throw new Error(`more than ${MOST_CALLS} store calls`)
}

/** The same, with a lock that is gone at the second try: the write must come through once. */
async function lockEachCall(fault: Fault, ask: () => Promise<Answer>, isEnough: (answer: Answer) => void): Promise<void> {
  for (let failAt = 1; failAt <= MOST_CALLS; failAt += 1) {
    Object.assign(fault, { failAt, isDoneFirst: true, hasFired: false, isOnce: true, error: locked() })
    const answer = await ask()
    const wasLocked = fault.hasFired
    fault.failAt = 0
    isEnough(answer)
    if (!wasLocked) return
  }
  throw new Error(`more than ${MOST_CALLS} store calls`)
}

interface Happened { action: string; changes: { field: string; before: unknown; after: unknown }[] }

async function historyOf(shop: TestShop, url: string): Promise<Happened[]> {
  return (await shop.as('owner').api.get(`${url}/history`)).json<{ items: Happened[] }>().items
}

t.test('a record is created whole with its history, or not at all, whichever store call fails', async (t) => {
  const { shop, fault } = await openFaultyShop(t)
  const { department } = await aBuild(shop)
  const { api } = shop.as('owner')
  const skills = await Promise.all(['laminating', 'wiring'].map((name) => api.create('/api/skills', { name, departmentId: department.id })))
  const person = { name: 'Ada Bryce', signInName: 'a.bryce', role: 'technician', skills: skills.map((skill) => skill.id) }

  const answer = await failEachCall(t, shop, fault, () => api.post('/api/people', person, { 'idempotency-key': 'new person' }))
  t.equal(answer.statusCode, 201)
  const { id } = answer.json<{ id: string }>()
  const stored = (await api.get(`/api/people/${id}`)).json<Record<string, unknown>>()
  t.match(stored, { name: 'Ada Bryce', version: 1 })
  t.same((stored.skills as string[]).sort(), [...person.skills].sort())
  const [created, ...others] = await historyOf(shop, `/api/people/${id}`)
  t.equal(others.length, 0)
  t.equal(created?.action, 'created')
  t.same(created?.changes.find((change) => change.field === 'name')?.after, 'Ada Bryce')
})

t.test('a counter job with customer, vehicle, build, line, kit and hours is entered whole or not at all, whichever store call fails', async (t) => {
  const { shop, fault } = await openFaultyShop(t)
  const { create, post } = shop.as('owner').api
  const department = await create('/api/departments', { name: 'Fitting', costRate: '40.00', sellRate: '96.00' })
  const wire = await create('/api/materials', { name: 'Wire', form: 'length', packName: 'reel', packSize: '50 m', packCost: '68.00', packPrice: '102.00' })
  const kit = await create('/api/kits', { name: 'Speaker kit' })
  await create('/api/kit-parts', { kitId: kit.id, materialId: wire.id, quantity: '1.5 m' })
  const fitting = await create('/api/standard-fittings', { name: 'Speaker in a front door', place: 'front doors', departmentId: department.id, run: '45 min', kitId: kit.id })
  const job = { customerName: 'Tamsin Lowe', make: 'Corvane', model: 'Tern', body: 'van', lines: [{ fittingId: fitting.id, quantity: 2 }] }

  const answer = await failEachCall(t, shop, fault, () => post('/api/counter-jobs', job, { 'idempotency-key': 'one job' }))
  t.equal(answer.statusCode, 201)
  const { reads } = shop.database
  t.same(await Promise.all([reads.customer.count(), reads.vehicle.count(), reads.build.count(), reads.zone.count(), reads.equipmentLine.count(), reads.operation.count(), reads.materialNeed.count()]), [1, 1, 1, 1, 1, 1, 1])
})

t.test('a record is changed whole with its history, or not at all, whichever store call fails', async (t) => {
  const { shop, fault } = await openFaultyShop(t)
  const { department } = await aBuild(shop)
  const { api } = shop.as('owner')
  const skill = await api.create('/api/skills', { name: 'laminating', departmentId: department.id })
  const { id } = await api.create('/api/people', { name: 'Ada Bryce', signInName: 'a.bryce', role: 'technician' })

  const change = { name: 'Ada Bryce-Lund', skills: [skill.id], isActive: false }
  const answer = await failEachCall(t, shop, fault, () => api.patch(`/api/people/${id}`, change, { 'if-match': '"1"' }))
  t.match(answer.json(), { ...change, version: 2 })
  const [latest] = await historyOf(shop, `/api/people/${id}`)
  t.same(latest?.changes.map((one) => [one.field, one.after]).sort(), Object.entries(change).sort())
})

t.test('a removal from the vehicle and the place of its factory part are written together or not at all', async (t) => {
  const { shop, fault } = await openFaultyShop(t)
  const { build, zone } = await aBuild(shop)
  const technician = shop.as('technician')
  const ofBuild = { buildId: build.id }
  const bin = await technician.api.create('/api/bins', { ...ofBuild, place: 'Rack C, shelf 2' })
  const panel = await technician.api.create('/api/factory-parts', { ...ofBuild, zoneId: zone.id, name: 'Door panel left' })
  const form = { buildId: build.id, factoryPartId: panel.id, kind: 'came out', binId: bin.id, condition: 'as new', _key: 'removal form' }

  const answer = await failEachCall(t, shop, fault, () => technician.post('/removals', form))
  t.equal(answer.statusCode, 303)
  const rows = await rowsOf(shop.database)
  t.equal(rows.Removal?.length, 1)
  t.match((await technician.api.get(`/api/factory-parts/${panel.id}`)).json(), { state: 'out and stored', binId: bin.id, condition: 'as new' })
  t.equal((await technician.post('/removals', form)).headers.location, answer.headers.location, 'sent again, the form gets the same answer')
  t.same((await rowsOf(shop.database)).Removal, rows.Removal)
})

t.test('taking a record away and back is whole, whichever store call fails', async (t) => {
  const { shop, fault } = await openFaultyShop(t)
  const { build, zone } = await aBuild(shop)
  const { api } = shop.as('manager')
  const away = await failEachCall(t, shop, fault, () => api.post(`/api/zones/${zone.id}/removal`))
  t.type(away.json<{ removedAt: unknown }>().removedAt, 'string')
  const back = await failEachCall(t, shop, fault, () => api.post(`/api/zones/${zone.id}/recovery`))
  t.equal(back.json<{ removedAt: unknown }>().removedAt, null)
  t.same((await historyOf(shop, `/api/zones/${zone.id}`)).map((entry) => entry.action), ['recovered', 'removed', 'created'])
  t.equal(build.removedAt, null)
})

t.test('a lock met in the middle of a write repeats the whole of it, and it is written once', async (t) => {
  const { shop, fault } = await openFaultyShop(t)
  const { api } = shop.as('manager')
  let asked = 0
  await lockEachCall(fault, () => {
    asked += 1
    return api.post('/api/customers', { name: `Customer ${asked}` }, { 'idempotency-key': `customer ${asked}` })
  }, (answer) => t.equal(answer.statusCode, 201))
  const rows = await rowsOf(shop.database)
  const names = Array.from({ length: asked }, (_, index) => `Customer ${index + 1}`)
  t.same(rows.Customer?.map((row) => row.name).sort(), names.sort())
  t.equal(rows.AuditEntry?.filter((row) => row.recordKind === 'customer').length, asked)
  t.ok(asked > 3, 'several calls met the lock')
})
