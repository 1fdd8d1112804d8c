import t from 'tap'
import { setTimeout } from 'node:timers/promises'
import { aBuild } from '../support/aBuild.ts'
import { openShop, type TestShop } from '../support/shop.ts'

const words = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

interface Content {
  readonly builds: readonly { readonly buildId: string, readonly endsAt: string | null }[]
  readonly work: readonly { readonly operationId: string, readonly startsAt: string, readonly endsAt: string, readonly personIds: readonly string[], readonly bayId: string | null }[]
  readonly leftOut: readonly { readonly operationId: string, readonly why: string }[]
}
interface Answer {
  readonly state: string
  readonly isSearching: boolean
  readonly inForce: { readonly id: string, readonly isStale: boolean, readonly changed: readonly string[], readonly goneOn: readonly string[], readonly content: Content } | null
  readonly proposals: readonly { readonly id: string, readonly way: string, readonly isStale: boolean, readonly moved: number, readonly toAsk: readonly string[], readonly content: Content }[]
}

const planned = async (shop: TestShop): Promise<Answer> => (await shop.as('manager').api.get('/api/schedule')).json() as Answer

/** The search goes on beside the service; what it found is there when it has ended. */
async function searched(shop: TestShop): Promise<Answer> {
  await shop.as('manager').api.post('/api/schedule/stop', {})
  for (let tries = 0; tries < 400; tries += 1) {
    const answer = await planned(shop)
    if (!answer.isSearching) return answer
    await setTimeout(50)
  }
  throw new Error('the search did not end')
}

const propose = async (shop: TestShop, way: string): Promise<Answer['proposals'][number]> => {
  await shop.as('manager').post('/schedule/plan', { way })
  return (await searched(shop)).proposals.find((one) => one.way === way)!
}

async function planAndTake(shop: TestShop, way: string): Promise<void> {
  const { id } = await propose(shop, way)
  const answer = await shop.as('manager').post('/schedule/take', { proposal: id })
  if (answer.statusCode !== 303) throw new Error(`${answer.statusCode}: ${words(answer.body).slice(0, 1500)}`)
}

const MONDAY_MORNING = '2031-03-03T09:00:00Z'

async function aShop(test: Parameters<typeof openShop>[0]) {
  let now = new Date(MONDAY_MORNING)
  const shop = await openShop(test, { clock: () => now })
  const made = await aBuild(shop)
  const { build, zone, department } = made
  const { create } = shop.as('manager').api
  const part = await create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Corner box', quantity: 1 })
  const on = { buildId: build.id, partId: part.id, departmentId: department.id, reworkAllowance: '0 %' }
  return { shop, ...made, on, manager: shop.as('manager'), setNow: (text: string) => { now = new Date(text) } }
}

t.test('a plan is proposed by one press and in force by another: what is sanded after it was cut, by whom, and when it ends', async (t) => {
  const { shop, on, manager } = await aShop(t)
  const empty = await manager.page('/schedule')
  t.match(words(empty), /There is nothing to plan: no open operation is recorded/)
  t.notMatch(empty, /Plan the shop/, 'no button that would do nothing')
  t.match(words(empty), /No public holidays are kept/)
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { holidays: 'US' } }))
  // Memorial Day is the last Monday in May (5 U.S.C. 6103(a)): the 26th in 2031.
  t.match(words(await manager.page('/schedule')), /Public holidays kept, of US, in the next half year: .*Mon 26 May 2031, Memorial Day/)
  t.match(empty, /href="\/absences".*href="\/closings".*href="\/machines".*href="\/outside-finishers"/s)
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h', wait: '1 h' })
  const sand = await manager.api.create('/api/operations', { ...on, number: 20, kind: 'sand', run: '3 h' })
  const proposal = await propose(shop, 'anew')
  t.equal((await planned(shop)).state, 'proposed')
  t.match(words(await manager.page('/schedule')), /no plan in force yet.*Proposed, not in force.*A first plan/i)
  const [first, second] = [cut, sand].map(({ id }) => proposal.content.work.find(({ operationId }) => operationId === id)!)
  t.ok(Date.parse(second!.startsAt) >= Date.parse(first!.endsAt) + 3_600_000, 'an hour of waiting lies between')
  t.equal(first!.personIds.length, 1)
  t.equal(first!.bayId, null, 'at the bench')
  t.equal(proposal.content.builds[0]!.endsAt, second!.endsAt)
  t.match(words(await manager.page(`/schedule/proposals/${proposal.id}`)), /Take this plan/)

  t.equal((await manager.post('/schedule/take', { proposal: proposal.id, reason: 'The first one' })).statusCode, 303)
  const taken = await planned(shop)
  t.match(taken, { state: 'in force', proposals: [], inForce: { isStale: false, content: { builds: proposal.content.builds } } })
  t.match(words(await manager.page('/schedule')), /In force since .*taken by Test manager: The first one/)
  const history = await shop.database.reads.auditEntry.findMany({ where: { recordKind: 'plan of the shop' } })
  t.same(history.map(({ action, recordId, personName }) => [action, recordId, personName]), [['took', taken.inForce!.id, 'Test manager']])

  const wrap = await manager.api.create('/api/operations', { ...on, number: 30, kind: 'wrap', run: '1 h' })
  const after = await planned(shop)
  t.ok(after.inForce!.isStale)
  t.match(after.inForce!.changed, [/work, dates or priority of B-\d+/])
  t.match(words(await manager.page('/schedule')), /out of date/)
  const next = await propose(shop, 'least change')
  t.equal(next.moved, 0, 'new work moves nothing that was there')
  const { difference } = (await manager.api.get(`/api/schedule/proposals/${next.id}`)).json() as { difference: { work: readonly { operationId: string, is: string, why: string }[] } }
  t.match(difference.work, [{ operationId: wrap.id, is: 'new', why: 'new work' }])
})

t.test('what only goes on is told apart from what is changed', async (t) => {
  const { shop, on, manager } = await aShop(t)
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h' })
  await manager.api.create('/api/operations', { ...on, number: 20, kind: 'sand', run: '3 h' })
  await planAndTake(shop, 'anew')
  await manager.api.patch(`/api/operations/${cut.id}`, { state: 'done' }, { 'if-match': String(cut.version) })
  t.match((await planned(shop)).inForce, { changed: [], goneOn: [/B-\d+/] })
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { closesAt: 14 * 3600 } }))
  t.match((await planned(shop)).inForce, { changed: [/the shop’s hours/] })
})

t.test('two managers, a proposal made from what is no longer so, and one that is gone: none is taken, with words', async (t) => {
  const { shop, on, manager } = await aShop(t)
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h' })
  const first = await propose(shop, 'anew')
  await manager.api.patch(`/api/operations/${cut.id}`, { run: '4 h' }, { 'if-match': String(cut.version) })
  const stale = await manager.api.post('/api/schedule/take', { proposal: first.id })
  t.match([stale.statusCode, stale.body], [409, /Things have changed/])
  t.match(words(await manager.page(`/schedule/proposals/${first.id}`)), /Plan again, and take what comes of it/)

  const second = await propose(shop, 'anew')
  const both = await Promise.all(['manager', 'owner'].map((role) => shop.as(role as 'manager').api.post('/api/schedule/take', { proposal: second.id })))
  t.same(both.map(({ statusCode }) => statusCode).sort(), [201, 409])
  t.equal(await shop.database.reads.shopPlan.count(), 1)
  t.match((await manager.api.post('/api/schedule/take', { proposal: second.id })).body, /gone/)
  t.match((await manager.get(`/schedule/proposals/${second.id}`)).body, /is gone.*>To the schedule</s)

  const third = await propose(shop, 'least change')
  const key = { 'idempotency-key': 'once' }
  const [once, again] = [await manager.api.post('/api/schedule/take', { proposal: third.id }, key), await manager.api.post('/api/schedule/take', { proposal: third.id }, key)]
  t.same([once.statusCode, again.statusCode, again.json()], [201, 201, once.json()], 'the same press twice takes once')
  t.equal(await shop.database.reads.shopPlan.count(), 2)
})

t.test('nobody’s today changes without being asked', async (t) => {
  const { shop, on, manager, setNow } = await aShop(t)
  const technician = shop.people.technician
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h' })
  const sand = await manager.api.create('/api/operations', { ...on, number: 20, kind: 'sand', run: '3 h' })
  await planAndTake(shop, 'anew')
  await manager.api.patch(`/api/operations/${cut.id}`, { run: '6 h' }, { 'if-match': String(cut.version) })
  setNow('2031-03-03T09:30:00Z')
  const proposal = await propose(shop, 'least change')
  t.same(proposal.toAsk, [technician])
  const page = words(await manager.page(`/schedule/proposals/${proposal.id}`))
  t.match(page, /Whose today changes Test technician .*Corner box.*at 11:00 → .*What moves, and why/)
  const refused = await manager.post('/schedule/take', { proposal: proposal.id, reason: 'The cut takes longer' })
  t.equal(refused.statusCode, 422)
  t.match(words(refused.body), /The plan changes the day of Test technician. Ask first/)
  t.match(refused.body, /value="The cut takes longer"/)
  const { difference } = (await manager.api.get(`/api/schedule/proposals/${proposal.id}`)).json() as { difference: { work: readonly { operationId: string, is: string, why: string }[], today: readonly { operationId: string }[] } }
  t.match(difference.work.find(({ operationId }) => operationId === sand.id)!.why, /waits for B-\d+ P-\d+ Corner box/)
  t.same(difference.today.map(({ operationId }) => operationId), [sand.id])
  t.equal((await manager.post('/schedule/take', { 'proposal': proposal.id, [`asked-${technician}`]: 'true' })).statusCode, 303)
})

t.test('a late operation tells what it makes late, to the date promised, and whom to call; the number only to those who may see it', async (t) => {
  const { shop, build, on, manager } = await aShop(t)
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h' })
  const sand = await manager.api.create('/api/operations', { ...on, number: 20, kind: 'sand', run: '3 h' })
  await shop.database.write((write) => write.build.update({ where: { id: String(build.id) }, data: { promisedOn: '2031-03-03' } }))
  t.match(words(await manager.page(`/schedule/late?operation=${cut.id}`)), /does not know this operation/)
  await planAndTake(shop, 'anew')
  const late = async (by: number, unit: string) => (await manager.api.get(`/api/schedule/operations/${cut.id}/late?by=${by}&unit=${unit}`)).json() as { work: readonly { operationId: string, startsAt: string }[], builds: readonly { wouldEndAt: string }[], calls: readonly { phone: string }[] }
  const hours = await late(2, 'hours')
  t.match(hours, { work: [{ operationId: cut.id }, { operationId: sand.id, startsAt: '2031-03-03T13:00:00.000Z' }], builds: [{ wouldEndAt: '2031-03-03T16:00:00.000Z' }], calls: [] }, 'still on the day')
  t.match(await late(2, 'days'), { work: [{ startsAt: '2031-03-05T09:00:00.000Z' }, {}], calls: [{ customer: 'Harrow Lane Bakery', phone: '555-0142' }] })
  const page = `/schedule/late?operation=${cut.id}&by=2&unit=days`
  t.match(words(await manager.page(page)), /Harrow Lane Bakery , 555-0142: B-\d+ .* would be 2 days late/)
  const seen = await shop.as('technician').page(page)
  t.match(seen, /Harrow Lane Bakery/)
  t.notMatch(seen, /555-0142/)
  t.match(words(await manager.page(`/schedule/late?operation=${cut.id}&by=many`)), /Say by how many/)
  t.match(words((await manager.get('/schedule/late')).body), /Say which operation/)
})

t.test('an operation is moved by hand: what it breaks is said before, then it is held and a plan proposed', async (t) => {
  const { shop, on, manager } = await aShop(t)
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h' })
  const sand = await manager.api.create('/api/operations', { ...on, number: 20, kind: 'sand', run: '3 h' })
  await planAndTake(shop, 'anew')
  const href = `/schedule/operations/${sand.id}`
  const page = await manager.page(href)
  t.match(words(page), /An hour later.*Next working day.*Hold here/)
  const looks = async (form: Record<string, string>): Promise<string> => words((await manager.post(`${href}/looks`, form)).body)
  t.match(await looks({ date: '2031-03-03', time: '9:30' }), /Corner box, .*cut is not finished by then: it is planned until 2031-03-03 11:00/)
  t.match(await looks({ date: '2031-03-03', time: '19:00', personId: shop.people.technician }), /Test technician is not there then/)
  t.match(await looks({ date: '2031-03-04', time: '9:00' }), /ends on Tue 4 Mar 2031, not Mon 3 Mar 2031/)
  t.match(await looks({ date: 'soon', time: '9' }), /Say the day.*Say the time of day/)
  const version = String(sand.version)
  t.equal((await manager.post(href, { date: '2031-03-03', time: '8:00', _version: version })).statusCode, 422, 'what is past')
  const moved = await manager.post(href, { date: '2031-03-04', time: '9:00', personId: shop.people.technician, _version: version })
  t.equal(moved.statusCode, 303)
  const stored = await shop.database.reads.operation.findUniqueOrThrow({ where: { id: sand.id } })
  t.match(stored, { pinnedAt: new Date('2031-03-04T09:00:00Z'), personId: shop.people.technician })
  const { proposals } = await searched(shop)
  t.equal(proposals[0]!.content.work.find(({ operationId }) => operationId === sand.id)!.startsAt, '2031-03-04T09:00:00.000Z')
  t.equal(proposals[0]!.content.work.find(({ operationId }) => operationId === cut.id)!.startsAt, '2031-03-03T09:00:00.000Z', 'all else stays')
  t.match(words(await manager.page(`/schedule/proposals/${proposals[0]!.id}`)), /held to Tue 4 Mar 2031, 0?9:00, by hand/)
  t.equal((await manager.post(href, { letGo: 'yes', _version: String(stored.version) })).statusCode, 303)
  t.equal((await shop.database.reads.operation.findUniqueOrThrow({ where: { id: sand.id } })).pinnedAt, null)
})

t.test('a proposal stands while work goes on as it has it, and falls with the words why once it does not', async (t) => {
  const { shop, on, manager, build } = await aShop(t)
  const technician = shop.as('technician')
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h' })
  await manager.api.create('/api/operations', { ...on, number: 20, kind: 'sand', run: '3 h' })
  await planAndTake(shop, 'anew')
  await shop.database.write((write) => write.build.update({ where: { id: String(build.id) }, data: { promisedOn: '2031-03-20' } }))
  const proposal = await propose(shop, 'least change')
  t.equal((await technician.api.post('/api/timer', { operationId: cut.id })).statusCode, 200)
  t.equal((await technician.api.post('/api/time-entries', { operationId: cut.id, date: '2031-03-03', time: 1800 })).statusCode, 201)
  t.match((await planned(shop)).proposals, [{ isStale: false }], 'begun by whom and on the day it has')
  await shop.database.write((write) => write.operation.update({ where: { id: cut.id }, data: { remaining: 5 * 3600 } }))
  t.match(words(await manager.page('/schedule')), /no longer holds, plan again: hours left of B-\d+ P-\d+ Corner box, .*cut/)
  const refused = await manager.post('/schedule/take', { proposal: proposal.id })
  t.match([refused.statusCode, words(refused.body)], [409, /Since it was made these have changed: hours left of B-\d+ .*nothing was changed\. Plan again/])
  await shop.database.write((write) => write.operation.update({ where: { id: cut.id }, data: { remaining: 3600 } }))
  t.equal((await manager.post('/schedule/take', { proposal: proposal.id })).statusCode, 303, 'with fewer left it holds')
})

t.test('what somebody has been at for an hour has an hour less to come, so that the day stands as it was told', async (t) => {
  const { shop, on, manager, setNow } = await aShop(t)
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h' })
  const sand = await manager.api.create('/api/operations', { ...on, number: 20, kind: 'sand', run: '3 h' })
  await planAndTake(shop, 'anew')
  await shop.as('technician').api.post('/api/timer', { operationId: cut.id })
  setNow('2031-03-03T10:00:00Z')
  const { content, moved, toAsk } = await propose(shop, 'least change')
  t.match([moved, toAsk, content.work.find(({ operationId }) => operationId === cut.id)!.endsAt, content.work.find(({ operationId }) => operationId === sand.id)!.startsAt], [0, [], '2031-03-03T11:00:00.000Z', '2031-03-03T11:00:00.000Z'])
  setNow('2031-03-03T11:50:00Z')
  t.match((await propose(shop, 'least change')).content.work.find(({ operationId }) => operationId === cut.id), { endsAt: '2031-03-03T12:15:00.000Z' }, 'who is still on it is not done yet')
})

t.test('work begun on a day on which a proposal does not have it, or by somebody else, spoils it; so does another bay', async (t) => {
  const { shop, on, manager, build } = await aShop(t)
  const bay = await manager.api.create('/api/bays', { name: 'Bay 7' })
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h', earliestOn: '2031-03-06' })
  const { id } = await propose(shop, 'anew')
  await shop.as('technician').api.post('/api/timer', { operationId: cut.id })
  t.match((await manager.api.post('/api/schedule/take', { proposal: id })).body, /begun by somebody or on a day that the proposal has otherwise/)
  await shop.as('technician').api.post('/api/timer-stops', {})
  t.match((await planned(shop)).proposals, [{ isStale: false }])
  await shop.database.write((write) => write.build.update({ where: { id: String(build.id) }, data: { bayId: bay.id } }))
  t.match(words((await manager.api.post('/api/schedule/take', { proposal: id })).body), /the bay in which B-\d+ stands/)
})

t.test('the same press again plans, stops and takes no second time', async (t) => {
  const { shop, on, manager } = await aShop(t)
  await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h' })
  const plan = async (key: string): Promise<string> => ((await manager.api.post('/api/schedule', { way: 'anew' }, { 'idempotency-key': key })).json() as Answer).proposals[0]!.id
  const first = await plan('plan')
  t.equal(await plan('plan'), first, 'it goes on looking beside the same proposal')
  const form = { way: 'anew', _key: 'by form' }
  await manager.post('/schedule/plan', form)
  const second = (await planned(shop)).proposals[0]!.id
  t.not(second, first)
  await manager.post('/schedule/plan', form)
  t.equal((await planned(shop)).proposals[0]!.id, second)
  await searched(shop)
  const take = { proposal: second, _key: 'take' }
  t.equal((await manager.post('/schedule/take', take)).statusCode, 303)
  const next = await propose(shop, 'anew')
  t.equal((await manager.post('/schedule/take', take)).statusCode, 303)
  t.match((await planned(shop)).proposals, [{ id: next.id }], 'what was proposed since is still there')
  t.equal(await shop.database.reads.shopPlan.count(), 1)
})

t.test('who is away is not asked; whom to call, and the chance of each promise before and after, stand with the proposal', async (t) => {
  const { shop, on, manager, build } = await aShop(t)
  await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '4 h', runBest: '3 h', runWorst: '9 h' })
  await shop.database.write((write) => write.build.update({ where: { id: String(build.id) }, data: { promisedOn: '2031-03-03' } }))
  await planAndTake(shop, 'anew')
  const person = (await planned(shop)).inForce!.content.work[0]!.personIds[0]!
  for (const [name, id] of Object.entries(shop.people)) await manager.api.create('/api/absences', { personId: id, fromOn: '2031-03-03', ...(id === person ? { toOn: '2031-03-04' } : name === 'technician' ? { toOn: '2031-03-05' } : { toOn: '2031-03-06' }) })
  const proposal = await propose(shop, 'least change')
  t.same(proposal.toAsk, [])
  const page = words(await manager.page(`/schedule/proposals/${proposal.id}`))
  t.match(page, /Whose today changes .*, away .*at 09:00 → not today/)
  t.match(page, /Whom to call Harrow Lane Bakery , 555-0142: B-\d+ .* would be 2 days late, on Wed 5 Mar 2031/)
  t.match(page, /less than 1 in 100, was (?:9\d|more than 99) in 100/)
  t.equal((await manager.post('/schedule/take', { proposal: proposal.id })).statusCode, 303)
})

t.test('what was typed stays where somebody else saved the operation first', async (t) => {
  const { shop, on, manager } = await aShop(t)
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h' })
  await planAndTake(shop, 'anew')
  await manager.api.patch(`/api/operations/${cut.id}`, { note: 'Grain along the length' }, { 'if-match': String(cut.version) })
  const clash = await manager.post(`/schedule/operations/${cut.id}`, { date: '2031-03-05', time: '13:45', _version: String(cut.version) })
  t.equal(clash.statusCode, 412)
  t.match(words(clash.body), /Somebody else saved this operation first, and nothing of yours was saved/)
  t.match(clash.body, /value="2031-03-05"[^]*value="13:45"/)
  const version = /name="_version" value="(\d+)"/.exec(clash.body)![1]!
  t.equal((await manager.post(`/schedule/operations/${cut.id}`, { date: '2031-03-05', time: '13:45', _version: version })).statusCode, 303)
})

t.test('work nobody can do is named, and so is what waits for it; the build has no end then', async (t) => {
  const { shop, on, manager, department } = await aShop(t)
  const skill = await manager.api.create('/api/skills', { name: 'aluminum welding', departmentId: department.id })
  await manager.api.create('/api/operations', { ...on, number: 10, kind: 'weld', run: '2 h', skillId: skill.id })
  await manager.api.create('/api/operations', { ...on, number: 20, kind: 'paint', run: '1 h' })
  await manager.api.post('/api/schedule', { way: 'anew' })
  const { content } = (await searched(shop)).proposals[0]!
  t.same(content.leftOut.length, 2)
  t.match(content.leftOut[0]!.why, /no people with the skill aluminum welding/)
  t.match(content.leftOut[1]!.why, /waits for/)
  t.equal(content.builds[0]!.endsAt, null)
  await planAndTake(shop, 'anew')
  t.match(words(await manager.page('/schedule')), /part of it cannot be planned/)
})

t.test('what fits nowhere is left out and named with its day and what waits for it; the rest is planned, and nobody says that nothing is late', async (t) => {
  const { shop, on, manager, department, build } = await aShop(t)
  const skill = await manager.api.create('/api/skills', { name: 'aluminum welding', departmentId: department.id })
  const welder = await shop.as('owner').api.create('/api/people', { name: 'Ivo Marsh', signInName: 'i.marsh', role: 'technician', skills: [skill.id] })
  await manager.api.create('/api/absences', { personId: welder.id, fromOn: '2031-03-05', toOn: '2032-03-05' })
  await shop.database.write((write) => write.build.update({ where: { id: String(build.id) }, data: { promisedOn: '2031-03-20' } }))
  const cut = await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '2 h', earliestOn: '2031-03-06' })
  const weld = await manager.api.create('/api/operations', { ...on, number: 20, kind: 'weld', run: '2 h', skillId: skill.id })
  const paint = await manager.api.create('/api/operations', { ...on, number: 30, kind: 'paint', run: '1 h' })
  const { id, content } = await propose(shop, 'anew')
  t.same(content.work.map(({ operationId }) => operationId), [cut.id])
  t.same(content.leftOut.map(({ operationId }) => operationId), [weld.id, paint.id])
  t.match(content.leftOut[0]!.why, /nobody with the skill aluminum welding is there after Tue 4 Mar 2031/)
  const page = words(await manager.page(`/schedule/proposals/${id}`))
  t.match(page, /Late builds 0; 1 without an end.*Not planned B-\d+ .*after Tue 4 Mar 2031.*waits for/)
  t.match(page, /Whom to call Harrow Lane Bakery , 555-0142: B-\d+ .* cannot be planned to its end, and is promised for Thu 20 Mar 2031/)
  t.match(words(await manager.page('/schedule')), /Nothing that has a date and can be planned to its end is late/)
  await planAndTake(shop, 'anew')
  t.match(words(await manager.page('/schedule')), /1 build cannot be planned to the end: see Not planned/)
  t.match((await manager.api.get(`/api/schedule/operations/${cut.id}/late?by=2&unit=hours`)).json(), { work: [{ operationId: cut.id }] }, 'lateness is told beside what is left out')
  t.equal((await propose(shop, 'least change')).moved, 0)
  const { version } = (await manager.api.get(`/api/operations/${cut.id}`)).json<{ version: number }>()
  await manager.api.patch(`/api/operations/${cut.id}`, { skillId: skill.id }, { 'if-match': String(version) })
  const gone = await propose(shop, 'least change')
  t.match(words(await manager.page(`/schedule/proposals/${gone.id}`)), /What moves, and why .*not planned P-\d+ Corner box, Op 10, cut: nobody with the skill aluminum welding is there after/)
})

t.test('by when a build ends with which chance, by any day asked for, and what it hangs on: each opens, and asked twice it is the same', async (t) => {
  const { shop, build, on, manager } = await aShop(t)
  await manager.api.create('/api/operations', { ...on, number: 10, kind: 'sew', runBest: '2 h', run: '4 h', runWorst: '30 h' })
  await shop.database.write((write) => write.build.update({ where: { id: String(build.id) }, data: { promisedOn: '2031-03-04' } }))
  const chancesOf = ({ content: { builds } }: Answer['proposals'][number]): unknown => (builds as readonly { readonly chances?: unknown }[])[0]!.chances
  const once = chancesOf(await propose(shop, 'anew'))
  t.match(once, { even: String, in80: String, in90: String, kept: Number })
  t.same(chancesOf(await propose(shop, 'anew')), once)
  await planAndTake(shop, 'anew')
  const byDay = async (day: string): Promise<string> => words(await manager.page(`/schedule/chances?on=${day}`))
  t.match(await byDay('2031-03-02'), /less than 5 in 100/)
  t.match(await byDay('2031-05-02'), /95 in 100 or more/)
  t.match(await byDay('soon'), /Say the day, as 2031-03-04/)
  const how = async (key: string): Promise<string> => words(await manager.page(`/schedule/chances?how=${key}`))
  t.match(await how('f0'), /ended in 80 in 100 of all cases by .*Cases drawn, always the same 400 .*Ended in 80 of 100 cases by/)
  t.match(await how('k0'), new RegExp(`ended by Tue 4 Mar 2031 .*${(once as { kept: number }).kept} %`))
  // Its end varies with the hours of its only operation, but for the nights between.
  t.match(await how('d0-0'), /hangs on P-\d+ Corner box, .*sew 9\d\.\d %.*Nights and days off/)
  t.match(await byDay(''), /Corner box, .*sew 9\d %/)
  t.equal((await manager.get('/schedule/chances?how=k9')).statusCode, 404)
  t.match(await manager.page('/schedule'), /href="\/schedule\/chances\?how=k0"/)
})

t.test('what fits alone but not with the rest is left out, and what was said to fit nowhere is not said once it has changed', async (t) => {
  const { shop, on, manager } = await aShop(t)
  const personId = shop.people.technician
  const [one, other] = [await manager.api.create('/api/operations', { ...on, number: 10, kind: 'cut', run: '6 h', personId }), await manager.api.create('/api/operations', { ...on, number: 20, kind: 'sand', run: '6 h', personId })]
  const away = await manager.api.create('/api/absences', { personId, fromOn: '2031-03-04', toOn: '2032-12-31' })
  const { content } = await propose(shop, 'anew')
  t.same([content.work.map(({ operationId }) => operationId), content.leftOut.length], [[one.id], 1])
  t.match(content.leftOut[0]!.why, /Corner box.*sand.*: it is not done before the end/, 'after the first there is no time for the second')
  t.equal((await manager.api.post(`/api/absences/${away.id}/removal`, {}, { 'if-match': '1' })).statusCode, 200)
  const pin = (pinnedAt: Date | null) => shop.database.write((write) => write.operation.update({ where: { id: other.id }, data: { pinnedAt } }))
  await pin(new Date('2031-03-09T10:00:00Z'))
  await manager.post('/schedule/plan', { way: 'anew' })
  t.match(words(await manager.page('/schedule')), /No plan can be made as things are/)
  await pin(null)
  t.notMatch(words(await manager.page('/schedule')), /No plan can be made/)
})

t.test('of two that fit alone but not both, one is planned, and of the other is said that no place was found', async (t) => {
  const { shop, build, zone, on, manager } = await aShop(t)
  const personId = shop.people.technician
  const lid = await manager.api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Lid', quantity: 1 })
  for (const partId of [on.partId, lid.id]) await manager.api.create('/api/operations', { ...on, partId, number: 10, kind: 'cut', run: '6 h', personId })
  await manager.api.create('/api/absences', { personId, fromOn: '2031-03-04', toOn: '2032-12-31' })
  const { content } = await propose(shop, 'anew')
  t.same([content.work.length, content.leftOut.length], [1, 1])
  t.match(content.leftOut[0]!.why, /: beside all the rest no place was found for it before the end of what is looked at\./)
})

t.test('running work that no half year holds makes no plan, and the page says so', async (t) => {
  const { shop, build, on, manager } = await aShop(t)
  const { id } = await manager.api.create('/api/operations', { ...on, kind: 'weld', run: '2000 h' })
  await shop.database.write((write) => write.timer.create({ data: { personId: shop.people.technician, buildId: build.id, operationId: id, kind: 'work', startedAt: shop.clock() } }))
  t.equal((await manager.post('/schedule/plan', { way: 'anew' })).statusCode, 303)
  t.match(words(await manager.page('/schedule')), /cannot be worked as it stands/)
})

t.test('an empty shop says that there is nothing to plan, and stopping without a search changes nothing', async (t) => {
  const shop = await openShop(t, { clock: () => new Date('2031-03-03T09:00:00Z') })
  const manager = shop.as('manager')
  await manager.post('/schedule/plan', { way: 'anew' })
  t.equal((await manager.post('/schedule/stop', {})).statusCode, 303)
  const empty = await manager.page('/schedule')
  t.match(words(empty), /There is nothing to plan: no open operation is recorded/)
  t.notMatch(empty, /Plan the shop/, 'no button that would do nothing')
})
