import t from 'tap'
import { loadShopFacts } from '../../server/schedule/facts.ts'
import { printOf } from '../../server/schedule/prints.ts'
import type { PlanContent } from '../../server/schedule/planContent.ts'
import { keepPlan } from '../../server/schedule/planStore.ts'
import { aBuild } from '../support/aBuild.ts'
import { rowsOf } from '../support/rows.ts'
import { openShop, type Answer, type TestShop } from '../support/shop.ts'

const words = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/&#39;/g, '’').replace(/\s+/g, ' ')
// A Monday.
const NOW = new Date('2031-03-03T08:00:00Z')

interface Taken {
  readonly state: string
  readonly plannedAt: string | null
  readonly startsAt: string | null
  readonly endsAt: string | null
  readonly aloneEndsAt: string | null
  readonly by: string | null
  readonly inTime: number | null
  readonly chances: { readonly even: string, readonly in90: string } | null
  readonly limits: readonly { readonly what: string, readonly name: string, readonly endsAt?: string }[]
  readonly first: { readonly endsAt: string, readonly later: readonly { readonly buildId: string }[] } | null
}

/** A shop with one joiner who is busy for two days with what is ordered, and a quote that is out. */
async function aQuote(shop: TestShop) {
  const { api } = shop.as('manager')
  const { create } = api
  const { build: ordered, zone, department, vehicle } = await aBuild(shop)
  const skill = await create('/api/skills', { name: 'joinery', departmentId: department.id })
  const person = await create('/api/people', { name: 'Ida Carreg', signInName: 'i.carreg', role: 'technician', skills: [skill.id] })
  const part = await create('/api/parts', { buildId: ordered.id, zoneId: zone.id, name: 'Corner box', quantity: 1 })
  const cutting = await create('/api/operations', { buildId: ordered.id, partId: part.id, departmentId: department.id, number: 10, kind: 'cut', run: '16 h', skillId: skill.id, reworkAllowance: '0 %' })
  await api.patch(`/api/builds/${ordered.id}`, { stage: 'order' }, { 'if-match': '"1"' })
  const quoted = await create('/api/builds', { title: 'Shelves for tools', kind: 'everyday build', vehicleId: vehicle.id, stage: 'quote', deadline: '2031-03-05' })
  const shelves = await create('/api/zones', { buildId: quoted.id, name: 'Load floor', place: 'load floor' })
  return {
    ordered, quoted, person, cutting, url: `/builds/${quoted.id}/can-we`,
    addWork: async (more: object = {}) => {
      const shelf = await create('/api/parts', { buildId: quoted.id, zoneId: shelves.id, name: 'Shelf', quantity: 1 })
      return create('/api/operations', { buildId: quoted.id, partId: shelf.id, departmentId: department.id, number: 10, kind: 'cut', run: '6 h', skillId: skill.id, reworkAllowance: '0 %', ...more })
    },
    ask: async (query = ''): Promise<Taken> => (await api.get(`/api/builds/${quoted.id}/can-we${query}`)).json<Taken>(),
  }
}

t.test('a quote is placed beside what the shop has to do: when it is done, what holds it up, who gives way; nothing is written', async (t) => {
  const shop = await openShop(t, { clock: () => NOW })
  const manager = shop.as('manager')
  const { url, addWork, ask, ordered, quoted } = await aQuote(shop)
  t.equal((await ask()).state, 'no operations')
  t.match(words(await manager.page(url)), /Enter its made parts and equipment with their operations and hours first/)
  await addWork()
  const before = JSON.stringify(await rowsOf(shop.database))
  const taken = await ask()
  t.equal(taken.state, 'fits')
  t.equal(taken.by, '2031-03-05', 'the deadline wished for')
  // Sixteen hours of nine a day from Monday at eight, then six: the ordered build has her until Tuesday at three.
  t.equal(taken.startsAt, '2031-03-04T15:00:00.000Z')
  t.equal(taken.endsAt, '2031-03-05T12:00:00.000Z')
  t.equal(taken.aloneEndsAt, '2031-03-03T14:00:00.000Z')
  t.same(taken.limits, [{ what: 'skill', name: 'joinery', endsAt: '2031-03-03T14:00:00.000Z' }])
  t.equal(taken.first!.endsAt, '2031-03-03T14:00:00.000Z')
  t.same(taken.first!.later.map(({ buildId }) => buildId), [ordered.id])
  t.equal(taken.chances, null, 'nobody is unsure of its hours')
  const page = words(await manager.page(url))
  t.match(page, /Done by Wed 5 Mar 2031 \?/)
  t.match(page, /Yes: beside what is planned it ends on Wed 5 Mar 2031, on the day/)
  t.match(page, /One more who can do joinery Mon 3 Mar 2031 2 days earlier/)
  t.match(page, /No plan is in force, so a first plan of the shop was made for this question alone/)
  t.match(words(await manager.page(`${url}?by=2031-03-04`)), /Not beside what is planned: it ends on Wed 5 Mar 2031, 1 day after it. If it went first it would be done by Mon 3 Mar 2031: others give way then/)
  // A Saturday: the day is named, and that nobody works on it.
  t.match(words(await manager.page(`${url}?by=2031-03-08`)), /ends on Wed 5 Mar 2031, 3 days before\. Nobody is there on Sat 8 Mar 2031 itself\./)
  t.notMatch(words(await manager.page(`${url}?by=2031-03-07`)), /Nobody is there/)
  t.match(words(await manager.page(`${url}?by=&from=2031-03-10`)), /Beside what is planned it ends on Mon 10 Mar 2031/)
  t.match(words(await manager.page(`${url}?how=end`)), /Ends beside the plan: Wed 5 Mar 2031, calendar days from today 2/)
  t.equal(JSON.stringify(await rowsOf(shop.database)), before, 'nothing is written')
  t.match(words(await manager.page(`/builds/${quoted.id}/quote`)), /Can we take it by then/)
})

t.test('unsure hours give chances, and the chance of the day asked about', async (t) => {
  const shop = await openShop(t, { clock: () => NOW })
  const { addWork, ask, url } = await aQuote(shop)
  await addWork({ runBest: '2 h', run: '4 h', runWorst: '30 h' })
  const taken = await ask('?by=2031-03-06')
  t.ok(taken.chances!.even < taken.chances!.in90)
  t.ok(taken.inTime! > 50 && taken.inTime! < 100, `${taken.inTime}`)
  t.ok((await ask('?by=2031-03-20')).inTime! >= taken.inTime!)
  t.match(words(await shop.as('manager').page(`${url}?by=2031-03-06&how=by`)), /Ended by Thu 6 Mar 2031/)
})

t.test('a day that is past, or no day, is asked for again with what was typed', async (t) => {
  const shop = await openShop(t, { clock: () => NOW })
  const manager = shop.as('manager')
  const { url, addWork } = await aQuote(shop)
  await addWork()
  const refused = async (query: string): Promise<Answer> => {
    const answer = await manager.get(`${url}?${query}`)
    t.equal(answer.statusCode, 422, query)
    t.equal((await manager.api.get(`/api${url}?${query}`)).statusCode, 422, query)
    return answer
  }
  const past = await refused('by=2031-03-02')
  t.match(words(past.body), /Sun 2 Mar 2031 is past/)
  t.match(past.body, /value="2031-03-02"/)
  t.match(words((await refused('by=soon')).body), /Write a day as year-month-day/)
  t.match(words((await refused('by=2032-03-02')).body), /half a year ahead/)
  t.match(words((await refused('by=2031-03-05&from=2031-03-06')).body), /cannot begin after the day/)
})

t.test('a quote takes nobody’s time in the plan, whatever day it names, until it is ordered; then the page says so', async (t) => {
  const shop = await openShop(t, { clock: () => NOW })
  const manager = shop.as('manager')
  const { url, addWork, ask, quoted, ordered } = await aQuote(shop)
  await addWork()
  const planned = async (): Promise<string[]> => (await loadShopFacts(shop.database.reads, NOW)).builds.map(({ id }) => id)
  const change = async (json: object): Promise<void> => {
    const { version } = (await manager.api.get(`/api/builds/${quoted.id}`)).json<{ version: number }>()
    t.equal((await manager.api.patch(`/api/builds/${quoted.id}`, json, { 'if-match': `"${version}"` })).statusCode, 200)
  }
  await change({ promisedOn: '2031-03-20' })
  t.same(await planned(), [ordered.id])
  t.equal((await ask()).by, '2031-03-20', 'the day it names is asked about')
  await change({ stage: 'order' })
  t.same((await planned()).sort(), [ordered.id, quoted.id].sort())
  t.equal((await ask()).state, 'in the plan')
  t.match(words(await manager.page(url)), /takes people’s time in the plan already/)
})

t.test('what the plan in force has later stays later, though it could begin at once', async (t) => {
  const shop = await openShop(t, { clock: () => NOW })
  const manager = shop.as('manager')
  const { url, addWork, ask, ordered, person, cutting } = await aQuote(shop)
  await addWork()
  const [startsAt, endsAt] = ['2031-03-06T08:00:00.000Z', '2031-03-07T15:00:00.000Z']
  const content: PlanContent = {
    fromAt: NOW.toISOString(), people: [{ id: person.id, name: 'Ida Carreg' }], bays: [], builds: [{ buildId: ordered.id, name: 'B-0001', endsAt, dueAt: null, chances: null }], visits: [], leftOut: [], delay: 0, leastDelay: 0, tries: 1,
    work: [{ operationId: cutting.id, buildId: ordered.id, name: 'cut', shortName: 'cut', startsAt, endsAt, hours: [], personIds: [person.id], bayId: null, machineId: null, after: [], dueBackAt: null }],
  }
  const print = printOf(await loadShopFacts(shop.database.reads, NOW))
  await shop.database.write((write) => keepPlan(write, { madeAt: NOW, reason: '', print, content }, { personId: manager.personId, personName: 'Test manager', requestId: 'r', now: NOW }))
  t.match(await ask(), { state: 'fits', plannedAt: NOW.toISOString(), isStale: false, startsAt: '2031-03-03T08:00:00.000Z', endsAt: '2031-03-03T14:00:00.000Z', limits: [], first: { later: [] } })
  const page = words(await manager.page(url))
  t.notMatch(page, /No plan is in force|Things have changed/)
  t.match(page, /No single thing: with one person, bay or machine more it would end no earlier/)
  t.match(page, /No other build would end later than planned/)
  await manager.api.create('/api/operations', { buildId: ordered.id, partId: cutting.partId, departmentId: cutting.departmentId, number: 20, kind: 'sand', run: '1 h' })
  t.match(words(await manager.page(url)), /Things have changed since the plan was taken/)
})

t.test('work nobody can do is named', async (t) => {
  const shop = await openShop(t, { clock: () => NOW })
  const { url, addWork, ask, person } = await aQuote(shop)
  await addWork()
  await shop.database.write((write) => write.person.update({ where: { id: person.id }, data: { isActive: false } }))
  t.equal((await ask()).state, 'cannot be planned')
  t.match(words(await shop.as('manager').page(url)), /Not as it stands: part of it cannot be planned. .*no people with the skill joinery/)
})
