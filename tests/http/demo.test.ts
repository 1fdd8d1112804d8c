import t from 'tap'
import { findHolds } from '../../server/calc/finishHold.ts'
import { checkVin } from '../../server/calc/vin.ts'
import { whereaboutsOf } from '../../server/calc/removal/custody.ts'
import { planRestoration } from '../../server/calc/restoration/restoration.ts'
import { loadVehicleState } from '../../server/restoration/store.ts'
import { estimateLabor } from '../../server/calc/estimate/estimate.ts'
import { figuresOf } from '../../server/builds/figures.ts'
import { toGoingBack } from '../../server/builds/goingBack.ts'
import { toInputs } from '../../server/builds/inputs.ts'
import { goesBack } from '../../server/builds/ledgerBack.ts'
import { loadBuild } from '../../server/builds/store.ts'
import { toRestoration } from '../../server/restoration/result.ts'
import { delegate } from '../../server/shared/database/delegate.ts'
import { kindsReferredTo, listKinds } from '../../server/shared/records/kind.ts'
import { enteredOf } from '../../server/shared/records/table.ts'
import { fillDemo } from '../../seed/fill.ts'
import { openShop, type TestShop } from '../support/shop.ts'

const WEDNESDAY = new Date('2027-05-12T18:30:00Z')
const SUNDAY_NIGHT = new Date('2028-03-05T06:10:00Z')
const PICKUP = 231
const HATCHBACK = 240
const WAGON = 58
const VAN = 243
const COUNTER_JOB = 244

const openDemo = async (test: Parameters<typeof openShop>[0], now: Date): Promise<TestShop> => {
  const shop = await openShop(test, { clock: () => now })
  await fillDemo(shop.database, now)
  return shop
}

const demo = await openDemo(t, WEDNESDAY)
const { reads } = demo.database
const builds = await reads.build.findMany({ include: { vehicle: { include: { customer: true } } } })
const idOf = (number: number): string => builds.find((build) => build.number === number)!.id
const whereOf = (number: number) => ({ where: { buildId: idOf(number) } })

// Hours and sizes by common practice, no source: job sizes of the trade.
const hoursOf = async (number: number): Promise<number> => {
  const stored = await loadBuild(reads, idOf(number))
  return estimateLabor(toInputs(stored).labor).total.sums.laborS / 3600
}

/** Takes away what nothing stands before until nothing is left, or a ring is. */
function hasRing(edges: readonly (readonly [string, string])[]): boolean {
  let left = [...edges]
  for (;;) {
    const later = new Set(left.map(([, after]) => after))
    const next = left.filter(([before]) => later.has(before))
    if (next.length === left.length) return left.length > 0
    left = next
  }
}

t.test('the show build is as large as show builds are', async (t) => {
  const [parts, operations, factoryParts, fasteners, lines, entries, points] = await Promise.all([
    reads.fabricatedPart.count(whereOf(PICKUP)), reads.operation.count(whereOf(PICKUP)), reads.factoryPart.count(whereOf(PICKUP)),
    reads.fastener.count(whereOf(PICKUP)), reads.equipmentLine.count(whereOf(PICKUP)), reads.timeEntry.count(whereOf(PICKUP)),
    reads.openPoint.count(whereOf(PICKUP)),
  ])
  t.ok(parts >= 60, `${parts} made parts`)
  t.ok(operations >= 250, `${operations} operations`)
  t.ok(factoryParts >= 100, `${factoryParts} factory parts`)
  t.ok(fasteners >= 200, `${fasteners} fasteners`)
  t.ok(lines >= 35, `${lines} equipment lines`)
  t.ok(entries >= 200, `${entries} time entries`)
  t.ok(points >= 5, `${points} open points`)
  const hours = await hoursOf(PICKUP)
  t.ok(hours >= 300 && hours <= 900, `${hours} hours`)
  for (const graph of ['as found', 'as built', 'going back']) {
    const edges = await reads.orderEdge.count({ where: { buildId: idOf(PICKUP), graph } })
    t.ok(edges >= 12, `${edges} rules of order ${graph}`)
  }
})

t.test('the parts of the show build go three deep into each other', async (t) => {
  const uses = await reads.partUse.findMany(whereOf(PICKUP))
  const depth = (id: string): number => 1 + Math.max(0, ...uses.filter((use) => use.parentId === id).map((use) => depth(use.partId)))
  t.ok(Math.max(...uses.map((use) => depth(use.parentId))) >= 3)
  t.ok(uses.some((use) => use.quantity > 1))
})

t.test('the other builds are of their kinds', async (t) => {
  const lines = await reads.equipmentLine.count(whereOf(HATCHBACK))
  const parts = await reads.fabricatedPart.count(whereOf(HATCHBACK))
  t.ok(lines >= 3 && lines <= 8 && parts >= 1 && parts <= 4)
  const hours = await hoursOf(HATCHBACK)
  t.ok(hours >= 12 && hours <= 40, `${hours} hours`)
  const atCounter = await hoursOf(COUNTER_JOB)
  t.ok(atCounter >= 1 && atCounter <= 4, `${atCounter} hours`)
  t.equal(await reads.fabricatedPart.count(whereOf(COUNTER_JOB)), 0)
  t.equal(await reads.timeEntry.count(whereOf(VAN)), 0)
  t.match(builds.find((build) => build.number === VAN), { stage: 'quote', vehicle: { body: 'van', energy: 'electric' } })
  t.match(builds.find((build) => build.number === WAGON), { stage: 'delivered', holding: 'leased', deliveredOn: /^2024-05/, vehicle: { body: 'wagon' } })
  t.equal(await reads.operation.count({ where: { buildId: idOf(WAGON), state: { not: 'done' } } }), 0)
  const states = new Set((await reads.factoryPart.findMany(whereOf(WAGON))).map((part) => part.state))
  for (const state of ['fitted', 'out and stored', 'out with the customer', 'damaged', 'missing', 'altered']) t.ok(states.has(state), state)
})

t.test('every record passes the fields of its own form', async (t) => {
  const context = { units: 'metric', currency: 'USD' } as const
  for (const kind of listKinds()) {
    const rows = await delegate(reads, kind.model).findMany({})
    t.ok(rows.length > 0, `there is a ${kind.name}`)
    const refused = rows.flatMap((row) => Object.entries(kind.fields).flatMap(([name, field]) => {
      if (field.entry.as === 'references') return []
      const typed = field.entry.as === 'measured' ? row[name] : (enteredOf(row)[name] ?? row[name])
      const read = field.input(context).safeParse(typed)
      return read.success && read.data.value === row[name] ? [] : [`${kind.name} ${row.id} ${name}: ${String(typed)}`]
    }))
    t.same(refused, [], kind.plural)
  }
})

t.test('every record points to one that is there, of the same build', async (t) => {
  for (const kind of listKinds()) {
    for (const [name, field] of Object.entries(kind.fields).filter(([, one]) => one.entry.as === 'reference')) {
      const rows = (await delegate(reads, kind.model).findMany({})).filter((row) => row[name] !== null)
      const others = (await Promise.all(kindsReferredTo(field.entry).map((other) => delegate(reads, other.model).findMany({})))).flat()
      const byId = new Map(others.map((row) => [row.id, row]))
      const lost = rows.filter((row) => {
        const other = byId.get(String(row[name]))
        return !other || (kind.isOfBuild && 'buildId' in other && other.buildId !== row.buildId)
      })
      t.same(lost, [], `${kind.name}, ${name}`)
    }
  }
})

t.test('no part, operation or order of removal runs in a ring', async (t) => {
  for (const { id, title } of builds) {
    const where = { where: { buildId: id } }
    const uses = await reads.partUse.findMany(where)
    t.notOk(hasRing(uses.map((use) => [use.parentId, use.partId])), `${title}: parts`)
    const steps = await reads.operationPredecessor.findMany(where)
    t.notOk(hasRing(steps.map((one) => [one.earlierId, one.laterId])), `${title}: operations`)
    for (const graph of ['as found', 'as built', 'going back']) {
      const edges = await reads.orderEdge.findMany({ where: { buildId: id, graph } })
      t.notOk(hasRing(edges.map((edge) => [edge.beforeId, edge.afterId])), `${title}: ${graph}`)
    }
    const { input } = await loadVehicleState(reads, id)
    t.equal(planRestoration({ ...input, choice: 'all' }).kind, 'plan', `${title} can be planned back`)
  }
})

t.test('what stands in the way comes out first, as anybody at the bench would do it', async (t) => {
  const takenOut = async (number: number): Promise<string[]> => {
    const { input } = await loadVehicleState(reads, idOf(number))
    const found = planRestoration({ ...input, choice: 'all' })
    const names = new Map([...input.factoryParts, ...input.installedItems].map(({ id, name }) => [id, name]))
    return found.kind === 'plan' ? found.takeOut.map(({ id }) => names.get(id) ?? '') : []
  }
  const wagon = await takenOut(WAGON)
  t.ok(wagon.indexOf('Drawer unit') >= 0 && wagon.indexOf('Drawer unit') < wagon.indexOf('Cargo area carpet'), 'the drawer stands on the carpet')
  const edges = await reads.orderEdge.findMany({ where: { graph: 'as found' } })
  const parts = new Map((await reads.factoryPart.findMany()).map(({ id, name }) => [id, name]))
  const found = edges.map(({ beforeId, afterId }) => `${parts.get(beforeId)} > ${parts.get(afterId)}`)
  for (const rule of ['Wiper arms > Cowl cover', 'Luggage cover > Load floor board']) t.ok(found.includes(rule), rule)
})

t.test('a built feed has its main fuse near the battery, damped doors their material, every speaker something that drives it', async (t) => {
  for (const number of [PICKUP, HATCHBACK, WAGON, VAN]) {
    const fuses = await reads.equipmentLine.findMany({ where: { buildId: idOf(number), item: { model: { startsWith: 'Main fuse' } } } })
    t.ok(fuses.length >= 1, `B-${number}`)
  }
  const damped = await reads.factoryPart.findMany({ where: { operations: { some: { kind: 'damp' } } }, include: { needs: { include: { material: true } } } })
  t.ok(damped.length > 0)
  t.same(damped.filter(({ needs }) => !needs.some(({ material }) => /damping/i.test(material.name))).map(({ name }) => name), [])
  const coaxials = await reads.equipmentLine.findFirstOrThrow({ where: { buildId: idOf(PICKUP), number: 11 } })
  t.match(coaxials.note, /factory amplifier/)
})

t.test('every operation and every need has one owner, and skills stand in their department', async (t) => {
  const operations = await reads.operation.findMany({ include: { skill: true } })
  const needs = await reads.materialNeed.findMany({ include: { material: true } })
  const owners = (row: { partId: string | null; lineId: string | null; factoryPartId: string | null }): number =>
    [row.partId, row.lineId, row.factoryPartId].filter((id) => id !== null).length
  t.ok([...operations, ...needs].every((row) => owners(row) === 1))
  t.ok(operations.every((row) => row.skill?.departmentId === row.departmentId))
  t.ok(needs.every((row) => row.form === row.material.form && row.quantity > 0))
})

t.test('nothing is begun before what has to be finished first', async (t) => {
  const steps = await reads.operationPredecessor.findMany({ include: { earlier: true, later: true } })
  t.ok(steps.length >= 100)
  t.same(steps.filter(({ earlier, later }) => later.state !== 'not started' && earlier.state !== 'done'), [])
})

t.test('no finish is laid on before its sample is approved, and one stops work', async (t) => {
  for (const build of builds) {
    const { operations, finishes } = await loadBuild(reads, build.id)
    const held = [...findHolds(operations, finishes).keys()].flatMap((id) => operations.find((operation) => operation.id === id) ?? [])
    t.same(held.filter(({ state }) => state === 'running').length, 0, `B-${build.number}`)
    if (build.number === PICKUP) t.ok(held.length >= 2 && finishes.length >= 25, `${held.length} operations held, ${finishes.length} finishes`)
  }
})

t.test('a torque says where it stands; belts, seats and airbags are marked', async (t) => {
  const fasteners = await reads.fastener.findMany()
  t.ok(fasteners.some((one) => one.torque !== null) && fasteners.some((one) => one.torque === null))
  t.same(fasteners.filter((one) => one.torque !== null && one.torqueSource === ''), [])
  t.ok(fasteners.filter((one) => one.isSafety).length >= 10)
})

t.test('the vehicles are nobody’s: numbers begin with 0 and carry a right check digit', async (t) => {
  for (const { vehicle } of builds) {
    t.ok(vehicle.vin.startsWith('0'))
    t.equal(checkVin(vehicle.vin).verdict, 'right', vehicle.vin)
    t.match(vehicle.customer.phone, /^555-01\d\d$/)
  }
})

t.test('every zone has something', async (t) => {
  const zones = await reads.zone.findMany({ include: { _count: { select: { lines: true, parts: true, factoryParts: true } } } })
  t.same(zones.filter(({ _count: { lines, parts, factoryParts } }) => lines + parts + factoryParts === 0), [])
})

t.test('eight people log hours, nobody two things at once, and none ahead of now', async (t) => {
  const entries = await reads.timeEntry.findMany({ orderBy: [{ personId: 'asc' }, { startedAt: 'asc' }] })
  t.equal(new Set(entries.map((entry) => entry.personId)).size, 8)
  t.same([...new Set(entries.map((entry) => entry.kind))].sort(), ['rework', 'waiting', 'work'])
  t.ok(entries.every((entry) => entry.kind === 'work' || entry.why !== ''), 'rework and waiting say why')
  t.equal(entries.filter((entry) => entry.correctsId !== null).length, 1)
  const counted = entries.filter((entry) => entry.correctsId === null)
  const overlaps = counted.filter((entry, index) => {
    const before = counted[index - 1]
    return before?.personId === entry.personId && before.startedAt.getTime() + before.seconds * 1000 > entry.startedAt.getTime()
  })
  t.same(overlaps, [])
  t.ok(entries.every((entry) => entry.startedAt.getTime() + entry.seconds * 1000 <= WEDNESDAY.getTime()))
  const timers = await reads.timer.findMany({ include: { operation: true } })
  t.ok(timers.length >= 1 && timers.every((timer) => timer.operation.state === 'running' && timer.startedAt < WEDNESDAY))
})

t.test('a written consent covers the price; one alteration waits for its own', async (t) => {
  const agreed = builds.filter((build) => build.consent !== null)
  t.same(builds.filter((build) => build.consent === null).map(({ number, copiedFromId }) => (copiedFromId === null ? number : 'taken over')).sort(), [VAN, 'taken over'], 'only the van, and what was taken over yesterday, wait for consent')
  for (const { id, title, consent } of agreed) {
    const { priceMinor } = figuresOf(await loadBuild(reads, id)).costing.build
    t.ok(consent! >= priceMinor && consent! <= priceMinor * 1.2, `${title}: ${priceMinor} of ${consent}`)
  }
  t.ok(await reads.alteration.count({ where: { buildId: idOf(PICKUP), consentBy: '' } }) >= 1)
})

t.test('bill, ledger and sheet count the same fasteners to renew', async (t) => {
  for (const { id, title, number } of builds) {
    const state = await loadVehicleState(reads, id)
    const stored = await loadBuild(reads, id)
    const found = toRestoration(state, { parts: 'all', basis: undefined })
    if ('sentence' in found) throw new Error(found.sentence)
    const onSheet = found.verdict.partsToBuy.filter(({ reason }) => reason === 'single-use' || reason === 'breaks').reduce((sum, { count }) => sum + count, 0)
    const figures = figuresOf(stored)
    const { singleUse, materials } = figures.bill
    const onBill = singleUse.reduce((sum, { quantity }) => sum + quantity, 0)
      + materials.flatMap(({ pegs }) => pegs).filter(({ source, label }) => source === 'factory part' && label.includes(': ')).reduce((sum, { quantity }) => sum + quantity, 0)
    t.equal(onBill, onSheet, `B-${number} ${title}: bill and sheet`)
    if (found.basis === 'planned') continue
    const back = toGoingBack(state)
    const inLedger = stored.zones.flatMap((zone) => goesBack(back, zone)).map(({ name }) => Number(/^(\d+) fasteners? to renew$/.exec(name)?.[1] ?? 0))
    t.equal(inLedger.reduce((sum, count) => sum + count, 0), onSheet, `B-${number} ${title}: ledger and sheet`)
    if (number === PICKUP) t.ok(onSheet > 100, `${onSheet} of the show build`)
  }
})

t.test('most records tell who entered them, and none a secret', async (t) => {
  const histories = await reads.auditEntry.groupBy({ by: ['recordKind'], _count: true })
  t.ok(histories.length >= 10)
  t.equal(await reads.auditEntry.count({ where: { changes: { contains: 'argon2' } } }), 0, 'no history tells a password’s hash')
})

t.test('the demo can be filled on any day, and is the same shop', async (t) => {
  const other = await openDemo(t, SUNDAY_NIGHT)
  for (const model of ['fabricatedPart', 'operation', 'fastener', 'removal', 'orderEdge'] as const) {
    t.equal(await delegate(other.database.reads, model).count({ where: {} }), await delegate(reads, model).count({ where: {} }), model)
  }
  const sum = async (shop: TestShop['database']['reads']) => (await shop.timeEntry.aggregate({ _sum: { seconds: true } }))._sum.seconds
  t.equal(await sum(other.database.reads), await sum(reads))
  t.equal(await other.database.reads.timeEntry.count({ where: { startedAt: { gt: SUNDAY_NIGHT } } }), 0)
})

t.test('where every factory part of the demo is, its newest move says too; what was handed over by those of the intake is signed', async (t) => {
  const parts = await reads.factoryPart.findMany({ include: { moves: { orderBy: { at: 'desc' } }, build: true } })
  const whereabouts: Readonly<Record<string, string>> = {
    'stored': 'stored', 'handed to the customer': 'with the customer', 'disposed with consent': 'disposed of', 'missing': 'missing', 'back in the vehicle': 'in the vehicle',
  }
  const strange = parts.filter(({ moves, ...part }) => whereaboutsOf(part) !== (moves[0] ? whereabouts[moves[0].kind] : 'in the vehicle') || (whereaboutsOf(part) === 'stored' && moves[0]?.binId !== part.binId))
  t.same(strange.map(({ build, number, name, state, moves }) => [build.number, number, name, state, moves.map(({ kind }) => kind)]), [])
  const handed = parts.filter(({ state, build }) => state === 'out with the customer' && [PICKUP, WAGON].includes(build.number))
  t.same(handed.map(({ moves }) => [moves[0]?.signedName, moves[0]?.signature !== '']).sort(), [['Gideon Farrow', true], ['Isolde Wick', true]])
  const take = await reads.stockTake.findFirstOrThrow({ include: { sightings: true, moves: true } })
  t.ok(take.closedOn !== null && take.closedOn < '2027-05-12')
  t.same([...new Set(take.sightings.map(({ finding }) => finding))].sort(), ['elsewhere', 'here', 'not found'])
  t.same(take.moves.map(({ kind }) => kind).sort(), ['missing', 'stored'])
})

t.test('an invoice of everything on the show build keeps what a poor network asks of it: drawn up, issued, to print and to credit', async (t) => {
  const manager = demo.as('manager')
  const address = `/builds/${idOf(PICKUP)}/invoices`
  const usual = await manager.page(`${address}/new`)
  const all = [...usual.matchAll(/type="checkbox" name="line" value="([^"]*)"/g)].map(([, offer]) => offer!)
  t.ok(all.length > 80, `${all.length} lines`)
  const draft = await manager.page(`${address}/new?basis=time+and+material&chosen=yes&${all.map((offer) => `line=${offer}`).join('&')}`)
  const opened = [...draft.matchAll(/href="(\?how=L1[^"]*)"/g)].map(([, href]) => href!.replaceAll('&amp;', '&'))
  t.equal(opened.length, all.length)
  t.match(await manager.page(`${address}/new${opened.at(-1)!}`), /quantity × price of one/)
  const fingerprint = /name="fingerprint" value="([^"]*)"/.exec(draft)![1]!
  const issued = await manager.post(address, { basis: 'time and material', fingerprint, line: all, note: '' })
  t.equal(issued.statusCode, 303, issued.body)
  const invoice = issued.headers.location!.replace(/\?.*/, '')
  const pages = { usual, draft, invoice: await manager.page(invoice), paper: await manager.page(`${invoice}/paper`), credit: await manager.page(`${invoice}/credit-notes/new`), account: await manager.page(`/builds/${idOf(PICKUP)}/account`) }
  for (const [name, html] of Object.entries(pages)) t.ok(Buffer.byteLength(html) <= 100_000, `${name}: ${Buffer.byteLength(html)} bytes`)
})
