import t from 'tap'
import { aBuild } from '../support/aBuild.ts'
import { openShop, type TestShop } from '../support/shop.ts'
import { takePlan } from '../support/takePlan.ts'

const words = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
/** A Monday before the shop opens. */
const MONDAY = new Date('2031-03-03T06:00:00Z')

/** A corner box that is cut, glued and sanded, and a shelf that takes an hour. */
async function aPlannedBuild(shop: TestShop) {
  const { build, zone, department } = await aBuild(shop)
  const { create } = shop.as('manager').api
  const part = async (name: string) => (await create('/api/parts', { buildId: build.id, zoneId: zone.id, name, quantity: 1 })).id
  const box = { buildId: build.id, partId: await part('Corner box'), departmentId: department.id, reworkAllowance: '0 %' }
  const shelf = { ...box, partId: await part('Shelf') }
  const cut = await create('/api/operations', { ...box, number: 10, kind: 'cut', run: '2 h' })
  const glue = await create('/api/operations', { ...box, number: 20, kind: 'assemble', run: '3 h', wait: '24 h' })
  const sand = await create('/api/operations', { ...box, number: 30, kind: 'sand', run: '4 h' })
  const shelved = await create('/api/operations', { ...shelf, number: 10, kind: 'cut', run: '1 h' })
  return { build, zone, department, cut, glue, sand, shelved }
}

t.test('a build without a plan says so, and what to do', async (t) => {
  const shop = await openShop(t, { clock: () => MONDAY })
  const { build } = await aBuild(shop)
  t.match(words(await shop.as('technician').page(`/builds/${build.id}/schedule`)), /No plan is in force yet/)
  t.equal((await shop.as('manager').get(`/builds/${build.id}/schedule?how=s1`)).statusCode, 404)
})

t.test('a build’s bars name its chain and the slack of what is not on it, and the slack opens', async (t) => {
  const shop = await openShop(t, { clock: () => MONDAY })
  const { build } = await aPlannedBuild(shop)
  await shop.database.write((write) => write.build.update({ where: { id: build.id }, data: { promisedOn: '2031-03-05' } }))
  const { builds: [planned] } = await takePlan(shop.database, MONDAY)
  t.equal(planned!.endsAt, '2031-03-04T17:00:00.000Z', 'cut until ten, glued until one, cured until one on Tuesday, sanded until five')
  const manager = shop.as('manager')
  const html = await manager.page(`/builds/${build.id}/schedule`)
  const page = words(html)
  t.match(page, /nothing has changed since/)
  t.match(page, /3 operations have no slack: 1 → 2 → 3, from Mon 3 Mar 08:00 to the end on Tue 4 Mar/)
  t.match(page, /Wed 5 Mar 2031 · 1 day to spare by the plan/)
  t.match(html, /<tr id="r2" class="chain">/)
  t.match(page, /Corner box, Op 20, assemble Mon 3 Mar 10:00 to 13:00/)
  // The one technician cuts the shelf while the box cures, and must have done so before sanding at one on Tuesday: three hours of Monday and five of Tuesday later.
  t.match(page, /Shelf, Op 10, cut Mon 3 Mar 13:00 to 14:00 .*? 8\.0 h 17\.0 h/, 'to the promise it is the nine hours of Wednesday more')
  const number = /<tr id="r(\d+)"[^>]*><td class="no">\d+<\/td><th scope="row"><a[^>]*>P-\d+ Shelf/.exec(html)![1]
  const working = words(await manager.page(`/builds/${build.id}/schedule?how=s${number}`))
  t.match(working, /Latest end, Tue 4 Mar 13:00/)
  t.match(working, /14\.0.* 6\.0.* 8\.0/)
  t.match(working, /call it float/)
  t.match(await manager.page(`/builds/${build.id}`), /\/schedule"[^>]*>By the plan/)
  t.notMatch(words(await manager.page(`/builds/${build.id}/schedule?show=chain`)), /Shelf/)
})

t.test('pencil stands on the bars for what is logged, hatched where it is done again, and the plan says that it is stale', async (t) => {
  const shop = await openShop(t, { clock: () => MONDAY })
  const { build, cut, glue } = await aPlannedBuild(shop)
  await takePlan(shop.database, MONDAY)
  const log = (operationId: string, kind: string, at: string) => shop.database.write((write) => write.timeEntry.create({ data: { buildId: build.id, operationId, personId: shop.people.technician, enteredById: shop.people.technician, kind, startedAt: new Date(at), seconds: 5400 } }))
  const page = () => shop.as('manager').page(`/builds/${build.id}/schedule`)
  t.match(await page(), /<path class="did" d=""/)
  await log(cut.id, 'work', '2031-03-03T08:00:00Z')
  await log(glue.id, 'rework', '2031-03-03T10:00:00Z')
  const html = await page()
  t.match(html, /<path class="did" d="M[\d.]+ /)
  t.match(html, /<path class="again" d="M[\d.]+ /)
  t.match(words(html), /cut Mon 3 Mar .*? 1\.5 h/)
  t.match(words(html), /things have changed since/)
})

t.test('a technician’s day lists what the plan has for them today and next, in order, and starts the timer', async (t) => {
  const shop = await openShop(t, { clock: () => new Date('2031-03-03T08:05:00Z') })
  const technician = shop.as('technician')
  t.match(words(await technician.page('/day')), /No plan is in force yet/)
  const { cut, glue } = await aPlannedBuild(shop)
  await takePlan(shop.database, MONDAY)
  const html = await technician.page('/day')
  const page = words(html)
  t.match(page, /Today, Mon 3 Mar 2031 .*08:00 to 10:00 P-\d+ Corner box Op 10, cut .*10:00 to 13:00 P-\d+ Corner box Op 20, assemble .*13:00 to 14:00 P-\d+ Shelf/)
  t.match(page, /Then, Tue 4 Mar 2031 13:00 to 17:00 P-\d+ Corner box Op 30, sand/)
  t.match(page, /Op 20, assemble B-\d+ [^.]*at the bench Waits for P-\d+ Corner box, Op 10, cut\./)
  t.notMatch(page, /\b(?:38|95)\.00|USD|\$/, 'no rates, no prices')
  t.equal((await technician.post('/timers', { operationId: cut.id, kind: 'work' })).statusCode, 303)
  const begun = words(await technician.page('/day'))
  t.match(begun, /Op 10, cut B-\d+ [^.]*running/)
  t.match(begun, /Switch/)
  t.notMatch(begun, / Start /, 'what is begun from here takes the place of what runs')
  const now = await technician.page('/now')
  t.match(now, /href="\/day"/)
  t.match(words(now), /Next for you P-\d+ Shelf Op 10, cut .*? By the plan at 13:00\./, 'and what is next by the plan stands on Now')
  t.match(words(await shop.as('manager').page('/now')), /Op 10, cut .*? Planned for Test technician at 13:00\./)
  t.equal(html.includes(`value="${glue.id}"`), true, 'what waits can be started by whoever knows better, as on Now')
  t.equal((await technician.get(`/day?person=${shop.people.manager}`)).statusCode, 404)
  const manager = shop.as('manager')
  const seen = await manager.page(`/day?person=${shop.people.technician}`)
  t.match(words(seen), /Day of .* 08:00 to 10:00/)
  t.notMatch(seen, /action="\/timers"/, 'nobody starts another’s timer')
})

t.test('a day off is said, and so is what was planned for a day before and not done', async (t) => {
  const shop = await openShop(t, { clock: () => new Date('2031-03-04T07:00:00Z') })
  await aPlannedBuild(shop)
  await takePlan(shop.database, MONDAY)
  await shop.as('manager').api.create('/api/absences', { personId: shop.people.technician, fromOn: '2031-03-05', toOn: '2031-03-05' })
  await shop.database.write((write) => write.absence.updateMany({ data: { fromOn: '2031-03-04', toOn: '2031-03-05' } }))
  const page = words(await shop.as('technician').page('/day'))
  t.match(page, /Things have changed since the plan was taken/)
  t.match(page, /Planned before, not done .*Op 10, cut .*Op 20, assemble .*Shelf/)
  t.match(page, /Today, Tue 4 Mar 2031 Not at work on this day, though the plan has this: 13:00 to 17:00/)
  t.match(words(await shop.as('manager').page('/schedule/week')), /Test technician is not there, and has something planned: Tue 4 Mar\..* Tue 4, today .* not there 13:00 B-\d+ P-\d+ sand/)
  t.match(page, /Then, Thu 6 Mar 2031 Nothing is planned for this day/)
})

t.test('the shop’s week shows who does what on which day, who is away, and the chosen build in thick ink', async (t) => {
  const shop = await openShop(t, { clock: () => new Date('2031-03-03T08:05:00Z') })
  const manager = shop.as('manager')
  t.match(words(await manager.page('/schedule/week')), /Week of Mon 3 Mar 2031 .*No plan is in force yet/)
  const { build } = await aPlannedBuild(shop)
  await manager.api.create('/api/absences', { personId: shop.people.technician, fromOn: '2031-03-06', toOn: '2031-03-06' })
  await takePlan(shop.database, MONDAY)
  const html = await manager.page(`/schedule/week?build=${build.id}`)
  t.match(words(html), /Mon 3 Mar 2031, today .*08:00 to 10:00 B-\d+ P-\d+ Corner box, cut .*10:00 to 13:00 .*Tue 4 Mar 2031 .*13:00 to 17:00 .*Wed 5 Mar 2031 Nothing is planned\. Thu 6 Mar 2031 .*08:00 to 17:00 not there/)
  t.match(html, /<path class="bar thick" d="M/)
  t.match(html, /now, Mon 3 Mar 08:05/)
  t.notMatch(await manager.page('/schedule/week'), /<path class="bar thick" d="M/)
  t.match(await manager.page('/schedule/week'), /href="\/schedule\/week\?week=2031-03-10"/)
})

t.test('a machine has its row in the week: what runs on it, in which build, over night where work stays on it, and when it is closed', async (t) => {
  const shop = await openShop(t, { clock: () => new Date('2031-03-03T08:05:00Z') })
  const { build, zone, department } = await aBuild(shop)
  const { create } = shop.as('manager').api
  const mill = await create('/api/machines', { name: 'Gantry mill', count: 1, holdsWork: true })
  const oven = await create('/api/machines', { name: 'Oven', count: 1 })
  await create('/api/closings', { name: 'Serviced', machineId: oven.id, fromOn: '2031-03-06', toOn: '2031-03-06' })
  const part = await create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Corner box with a long name that fits in no column', quantity: 1 })
  await create('/api/operations', { buildId: build.id, partId: part.id, departmentId: department.id, reworkAllowance: '0 %', number: 10, kind: 'machine', run: '12 h', machineId: mill.id })
  await takePlan(shop.database, MONDAY)
  const html = await shop.as('manager').page('/schedule/week')
  const page = words(html)
  t.match(page, /Gantry mill from 08:00 B-\d+ P-\d+ Corner box with .*, machine/, 'in the list of Monday')
  t.match(page, /Gantry mill until 11:00 B-\d+ P-\d+ Corner box/, 'and of Tuesday')
  t.match(page, /Gantry mill 08:00 B-\d+ P-\d+ machine still B-\d+ P-\d+ machine/, 'and drawn')
  t.match(page, /Thu 6 Mar 2031 .*Oven all day closed/)
  t.match(html, /<text class="line sub-label"[^>]*>closed<\/text>/)
  t.match(words(await shop.as('manager').page(`/builds/${build.id}/schedule`)), /P-\d+ Corner box with [^,]*…, machine/, 'a long name is cut, not what is done')
})

t.test('a week in which nothing stands says why: before the plan, after it, or closed', async (t) => {
  const shop = await openShop(t, { clock: () => new Date('2031-03-05T08:05:00Z') })
  await aPlannedBuild(shop)
  await takePlan(shop.database, new Date('2031-03-05T06:00:00Z'))
  const manager = shop.as('manager')
  const week = async (on: string): Promise<string> => words(await manager.page(`/schedule/week?week=${on}`))
  t.match(await week('2031-03-03'), /The plan begins Wed 5 Mar 06:00; before that only logged hours stand here\./)
  t.match(await week('2032-03-03'), /The plan ends Thu 6 Mar: nothing of it is in this week\. The shop is closed Sat 6 Mar, Sun 7 Mar\./)
  t.notMatch(await week('2032-03-03'), /The plan begins/)
  await shop.database.write((write) => write.shop.updateMany({ data: { holidays: 'US' } }))
  t.match(await week('2031-12-22'), /The shop is closed Thu 25 Dec \(Christmas Day\), Sat 27 Dec, Sun 28 Dec\./)
  await manager.api.create('/api/closings', { name: 'Holidays', fromOn: '2031-03-31', toOn: '2031-04-06' })
  t.match(await week('2031-03-31'), /The shop is closed all week\./)
  await manager.api.create('/api/absences', { personId: shop.people.technician, fromOn: '2031-03-10', toOn: '2031-03-14' })
  await shop.database.write((write) => write.shop.updateMany({ data: { pauseFrom: 43_200, pauseTo: 45_000 } }))
  const away = await week('2031-03-10')
  t.equal(away.match(/08:00 to 17:00 not there/g)?.length, 5, 'somebody who is away all week is so each day')
})

t.test('load is set against who is there, names what is overloaded since somebody fell ill, and what is due too early', async (t) => {
  const shop = await openShop(t, { clock: () => MONDAY })
  const manager = shop.as('manager')
  t.match(words(await manager.page('/schedule/load')), /No plan is in force yet/)
  const { build, department } = await aPlannedBuild(shop)
  const skill = await manager.api.create('/api/skills', { name: 'joinery', departmentId: department.id })
  await shop.database.write((write) => write.personSkill.create({ data: { personId: shop.people.technician, skillId: skill.id } }))
  await shop.database.write((write) => write.build.update({ where: { id: build.id }, data: { promisedOn: '2031-03-03' } }))
  await takePlan(shop.database, MONDAY)
  // Ten hours are planned, 2 + 3 + 1 on Monday and 4 on Tuesday; five days of nine hours somebody is there.
  t.match(words(await manager.page('/schedule/load')), /No department has more.* Wood room 10\.0 of 45\.0 h .*Whole shop 10\.0 of 45\.0 h/)
  t.match(words(await manager.page('/schedule/load')), /promised Mon 3 Mar 2031, and 4\.0 h of it are planned after that/)
  t.match(words(await manager.page('/schedule/load?how=p1w0')), /Two-way front and a false floor .*10\.0 h/)
  t.match(words(await manager.page('/schedule/load?how=t2w0')), /45\.0 h/)
  await manager.api.create('/api/absences', { personId: shop.people.technician, fromOn: '2031-03-04', toOn: '2031-03-07' })
  t.match(words(await manager.page('/schedule/load')), /Week of Mon 3 Mar: Wood room 10\.0 h of 9\.0 h/)
})

t.test('week, bars, load and day are answered as data from what their pages show, and to whom the page is shown', async (t) => {
  const shop = await openShop(t, { clock: () => new Date('2031-03-03T08:05:00Z') })
  const [manager, technician] = [shop.as('manager'), shop.as('technician')]
  const answer = async (who: typeof manager, url: string) => (await who.api.get(url)).json<Record<string, unknown>>()
  for (const url of ['/api/schedule/week', '/api/schedule/load']) {
    t.match(await answer(manager, url), { plan: null, rows: [] })
    t.equal((await technician.api.get(url)).statusCode, 403)
  }
  t.match(await answer(technician, '/api/day'), { personId: shop.people.technician, plan: null, days: [] })
  const { build, department, cut, glue, sand, shelved } = await aPlannedBuild(shop)
  t.match(await answer(technician, `/api/builds/${build.id}/schedule`), { plan: null, endsAt: null, operations: [] })
  await shop.database.write((write) => write.build.update({ where: { id: build.id }, data: { promisedOn: '2031-03-03' } }))
  await takePlan(shop.database, MONDAY)
  const plan = { isStale: false, takenAt: MONDAY.toISOString() }
  const on = (from: string, to: string): object => ({ fromAt: `2031-03-0${from}:00.000Z`, toAt: `2031-03-0${to}:00.000Z` })
  t.match(await answer(manager, '/api/schedule/week?week=2031-03-06'), { from: '2031-03-03', plan, rows: [{
    kind: 'person', id: shop.people.technician, off: [],
    work: [{ ...on('3T08:00', '3T10:00'), operationId: cut.id }, { ...on('3T10:00', '3T13:00'), operationId: glue.id }, { ...on('3T13:00', '3T14:00'), operationId: shelved.id }, { ...on('4T13:00', '4T17:00'), operationId: sand.id }],
  }] })
  t.equal((await manager.api.get('/api/schedule/week?week=soon')).statusCode, 422)
  t.match(await answer(technician, `/api/builds/${build.id}/schedule`), {
    plan, endsAt: '2031-03-04T17:00:00.000Z', dueAt: '2031-03-03T17:00:00.000Z',
    // Eight hours of slack for the shelf: three of Monday after two, five of Tuesday until one. To keep the promise the box would have to be
    // glued by Sunday at one, which is Friday evening, and cut by Friday at two: three hours of Friday and two of Monday too late.
    operations: [{ number: 1, operationId: cut.id, isOnChain: true, slackS: 0, slackToPromiseS: -18_000, after: [] }, { operationId: glue.id, after: [cut.id] }, { operationId: sand.id, after: [cut.id, glue.id], slackToPromiseS: -32_400 }, { operationId: shelved.id, isOnChain: false, slackS: 28_800 }],
  })
  const load = await answer(manager, '/api/schedule/load')
  // From five past eight on: ten hours less five minutes are planned, five days of nine hours less as much somebody is there, and has no skill of the department.
  t.match(load, { plan, weeks: [{ from: '2031-03-03', fromAt: '2031-03-03T08:05:00.000Z' }], rows: [{ departmentId: department.id, weeks: [{ plannedS: 35_700, thereS: 0, isOver: true }] }, { departmentId: null, weeks: [{ plannedS: 35_700, thereS: 161_700, isOver: false }] }] })
  t.match(load, { overdue: [{ buildId: build.id, lateS: 14_400, leftOut: [] }] })
  const day = await answer(technician, '/api/day')
  t.match(day, { personId: shop.people.technician, plan, left: [], days: [{ date: '2031-03-03', isThere: true }, { date: '2031-03-04', work: [{ operationId: sand.id }] }] })
  t.match((day as { days: { work: object[] }[] }).days[0]!.work, [{ operationId: cut.id, hours: [on('3T08:00', '3T10:00')], state: 'open', waitsFor: [] }, { operationId: glue.id, waitsFor: [{ operationId: cut.id }] }, { operationId: shelved.id }])
  t.match(await answer(manager, `/api/day?person=${shop.people.technician}`), { days: [{ work: [{ operationId: cut.id }] }] })
  t.equal((await technician.api.get(`/api/day?person=${shop.people.manager}`)).statusCode, 404)
})

t.test('what is next for somebody stands in the order of the plan, after what was given to them since and before what is in no plan', async (t) => {
  const shop = await openShop(t, { clock: () => new Date('2031-03-03T07:00:00Z') })
  const { create } = shop.as('manager').api
  const { build, zone, department } = await aBuild(shop)
  const part = async (name: string) => (await create('/api/parts', { buildId: build.id, zoneId: zone.id, name, quantity: 1 })).id
  const own = async (name: string, more: object = {}) => create('/api/operations', { buildId: build.id, partId: await part(name), departmentId: department.id, reworkAllowance: '0 %', number: 10, kind: 'cut', run: '2 h', ...more })
  await own('Late one', { earliestOn: '2031-03-05', personId: shop.people.technician })
  await own('Early one', { personId: shop.people.technician })
  await takePlan(shop.database, MONDAY)
  await own('Given since', { personId: shop.people.technician })
  await own('In no plan')
  const now = words(await shop.as('technician').page('/now'))
  t.match(now, /Next for you P-\d+ Given since .* P-\d+ Early one .* By the plan at 08:00\. .* P-\d+ Late one .* By the plan Wed 5 Mar 08:00\. .* P-\d+ In no plan/)
})
