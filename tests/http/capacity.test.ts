import t from 'tap'
import { toShopProblem } from '../../server/calc/schedule/shopProblem.ts'
import { loadShopFacts } from '../../server/schedule/facts.ts'
import { printOf } from '../../server/schedule/prints.ts'
import { aBuild } from '../support/aBuild.ts'
import { openShop } from '../support/shop.ts'

const HOUR_MS = 3_600_000
// Monday; the shop of the tests is open from eight to five, by UTC.
const MONDAY = new Date('2031-03-03T06:00:00Z')

t.test('an absence, a closing, a holiday and part time leave only the hours that somebody is there', async (t) => {
  const shop = await openShop(t)
  const owner = shop.as('owner').api
  const { id } = await owner.create('/api/people', { name: 'Ivo Marsh', signInName: 'i.marsh', role: 'technician' })
  const facts = () => loadShopFacts(shop.database.reads, MONDAY)
  const day = async (date: string): Promise<string> => (await facts()).people.find((person) => person.id === id)!.hours
    .filter(({ fromMs }) => new Date(fromMs).toISOString().startsWith(date)).map(({ fromMs, toMs }) => `${new Date(fromMs).toISOString().slice(11, 16)}-${new Date(toMs).toISOString().slice(11, 16)}`).join(' ')
  const changeShop = async (change: object): Promise<void> => {
    const { version } = (await owner.get('/api/shop/shop')).json<{ version: number }>()
    t.equal((await owner.patch('/api/shop/shop', { ...change }, { 'if-match': `"${version}"` })).statusCode, 200)
  }
  t.equal(await day('2031-03-04'), '08:00-17:00')
  const before = printOf(await facts())

  const away = await owner.create('/api/absences', { personId: id, fromOn: '2031-03-04', fromAt: '13:00', toAt: '15:00' })
  t.equal(await day('2031-03-04'), '08:00-13:00 15:00-17:00')
  t.not(printOf(await facts()), before, 'a plan made before is out of date')
  await owner.post(`/api/absences/${away.id}/removal`, {}, { 'if-match': '"1"' })
  t.equal(printOf(await facts()), before, 'taken back, it is as before')

  await owner.create('/api/closings', { name: 'Stocktaking', fromOn: '2031-03-05' })
  t.equal(await day('2031-03-05'), '')
  const { id: bayId } = await owner.create('/api/bays', { name: 'Bay 1' })
  await owner.create('/api/closings', { name: 'The floor is laid', fromOn: '2031-03-01', toOn: '2032-03-01', bayId })
  const { bays, fromMs, tickMs, horizonTicks } = await facts()
  t.ok(bays[0]!.closed.at(-1)!.toMs >= fromMs + horizonTicks * tickMs, 'closed to the last hour that is looked at')
  // Memorial Day is the last Monday in May (5 U.S.C. 6103(a)): the 26th in 2031.
  t.equal(await day('2031-05-26'), '08:00-17:00')
  await changeShop({ holidays: 'US', pauseFrom: '12:00', pauseTo: '12:30' })
  t.equal(await day('2031-05-26'), '')
  t.equal(await day('2031-05-27'), '08:00-12:00 12:30-17:00')
  t.equal((await owner.patch(`/api/people/${id}`, { workdays: '2', startsAt: '9:00', endsAt: '14:00' }, { 'if-match': '"1"' })).statusCode, 200)
  t.equal(await day('2031-03-04'), '09:00-12:00 12:30-14:00')
  t.equal(await day('2031-03-06'), '', 'Tuesdays only')
})

t.test('what cannot be is refused in words: half a break, a strange country, a last day before the first, a batch on their day off', async (t) => {
  const shop = await openShop(t)
  const { api } = shop.as('owner')
  const refused = async (url: string, json: object): Promise<string> => {
    const answer = await api.post(url, { ...json })
    t.equal(answer.statusCode, 422, JSON.stringify(json))
    return JSON.stringify(answer.json())
  }
  t.match(await refused('/api/closings', { name: 'Lift', fromOn: '2031-03-04', toOn: '2031-03-03' }), /last day is not before the first/)
  t.match(await refused('/api/outside-finishers', { name: 'Tarn', leadDays: 9, workdays: '1,2', sendsOn: '5' }), /Friday is no working day of theirs/)
  const pause = await api.patch('/api/shop/shop', { pauseFrom: '12:00' }, { 'if-match': '"1"' })
  t.match(pause.body, /Enter both hours, or leave both empty/)
  t.match((await api.patch('/api/shop/shop', { holidays: 'XX' }, { 'if-match': '"1"' })).body, /No public holidays are known for this/)
  t.match((await api.patch('/api/shop/shop', { workdays: '' }, { 'if-match': '"1"' })).body, /Working days is needed/)
  t.match((await api.patch('/api/shop/shop', { opensAt: '25:00' }, { 'if-match': '"1"' })).body, /is a time of day, written 8:00/)
})

t.test('an operation brings its machine, finisher, place and day into the plan; a machine in use is not removed', async (t) => {
  const shop = await openShop(t)
  const { api } = shop.as('owner')
  const { build, zone, department } = await aBuild(shop)
  const part = await api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Bracket', quantity: 1 })
  const mill = await api.create('/api/machines', { name: 'Mill', holdsWork: true })
  const tarn = await api.create('/api/outside-finishers', { name: 'Tarn Anodizing', leadDays: 9, shipDays: 1, sendsOn: '2' })
  await api.create('/api/closings', { name: 'Mill is serviced', fromOn: '2031-03-06', machineId: mill.id })
  const operation = await api.create('/api/operations', {
    buildId: build.id, partId: part.id, departmentId: department.id, kind: 'machine', run: '2 h', machineId: mill.id, finisherId: tarn.id,
    place: 'in the vehicle', isInOnePiece: true, earliestOn: '2031-03-10', rollOut: 'may roll out',
  })
  const facts = await loadShopFacts(shop.database.reads, MONDAY)
  const work = facts.builds.flatMap((one) => one.work).find(({ id }) => id === operation.id)!
  t.match(work, { machineId: mill.id, finisherId: tarn.id, isInVehicle: true, isInOnePiece: true, keepsIn: false, earliestMs: Date.parse('2031-03-10T08:00:00Z') })
  t.match(facts.machines, [{ id: mill.id, holdsWork: true, closed: [{ fromMs: Date.parse('2031-03-06T00:00:00Z'), toMs: Date.parse('2031-03-06T00:00:00Z') + 24 * HOUR_MS }] }])
  t.equal(facts.finishers[0]!.awayDays, 11, 'nine days, and one each way')
  t.equal(new Date(facts.finishers[0]!.sendMs[0]!).toISOString(), '2031-03-04T17:00:00.000Z', 'a Tuesday, when the shop closes')
  const removal = await api.post(`/api/machines/${mill.id}/removal`, {}, { 'if-match': '"1"' })
  t.equal(removal.statusCode, 422, removal.body)
  t.match(removal.body, /1 open operation needs it/)
})

t.test('a build whose figures cannot be made is named; the others are planned all the same', async (t) => {
  const shop = await openShop(t)
  const { api } = shop.as('owner')
  const { vehicle, build, zone, department } = await aBuild(shop)
  const absurd = await api.create('/api/builds', { title: 'A mistyped count', vehicleId: vehicle.id, stage: 'fabricate' })
  const rear = await api.create('/api/zones', { buildId: absurd.id, name: 'Rear', place: 'rear wall' })
  const operationOn = async (of: string, zoneId: string, quantity: number, run: string): Promise<string> => {
    const part = await api.create('/api/parts', { buildId: of, zoneId, name: 'Plate', quantity })
    return (await api.create('/api/operations', { buildId: of, partId: part.id, departmentId: department.id, kind: 'cut', run })).id
  }
  await operationOn(absurd.id, rear.id, 1_000, '2000 h')
  const sound = await operationOn(build.id, zone.id, 1, '2 h')
  const { builds } = await loadShopFacts(shop.database.reads, MONDAY)
  t.equal(builds.find(({ id }) => id === build.id)!.work.find(({ id }) => id === sound)!.remainingS, 7_200)
  const { leftOut, endOf } = toShopProblem(await loadShopFacts(shop.database.reads, MONDAY))
  t.match(leftOut, [{ buildId: absurd.id, why: /figures of this build cannot be made/ }])
  t.ok(endOf.has(build.id))
  t.notOk(endOf.has(absurd.id))
  await shop.as('manager').page('/schedule')
})
