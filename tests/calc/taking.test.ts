import t from 'tap'
import { randomFrom } from '../../server/calc/random.ts'
import { checkSchedule } from '../../server/calc/schedule/checkSchedule.ts'
import { endWithin } from '../../server/calc/schedule/chances.ts'
import { keepToPlan, type Kept } from '../../server/calc/schedule/kept.ts'
import { toShopProblem, type ShopBuild, type ShopFacts, type ShopWork } from '../../server/calc/schedule/shopProblem.ts'
import { takesTime } from '../../server/calc/schedule/takesTime.ts'
import { drawTakingEnds, takeBuild } from '../../server/calc/schedule/taking.ts'

const TICK_S = 900
const HORIZON = 120
const WOOD = { id: 'wood', name: 'joinery' }
const SEW = { id: 'sew', name: 'sewing' }

const work = (id: string, ticks: number, more: Partial<ShopWork> = {}): ShopWork => ({
  id, name: id, shortName: id, remainingS: ticks * TICK_S, remainingCasesS: [], crew: 1, skill: null, personId: null, after: [], waitS: 0, isInVehicle: false, keepsIn: false, isInOnePiece: true,
  machineId: null, finisherId: null, backMs: null, pinnedMs: null, earliestMs: null, runningBy: [], ...more,
})
const aBuild = (id: string, list: readonly ShopWork[], more: Partial<ShopBuild> = {}): ShopBuild => ({ id, name: `B-${id}`, bayId: null, dueMs: null, weight: 1, refusal: '', mayRollOutNow: true, work: list, ...more })
const aPerson = (id: string, ...skillIds: string[]): ShopFacts['people'][number] => ({ id, name: id, skillIds, hoursRule: '', hours: [{ fromMs: 0, toMs: HORIZON * TICK_S * 1000 }] })
const aShop = (people: ShopFacts['people'], builds: readonly ShopBuild[], more: Partial<ShopFacts> = {}): ShopFacts =>
  ({ fromMs: 0, tickMs: TICK_S * 1000, horizonTicks: HORIZON, people, bays: [], machines: [], finishers: [], rollMs: 0, rule: '', builds, togetherThousandths: 0, ...more })
const keptAt = (plan: Readonly<Record<string, readonly [tick: number, personId: string, bayId?: string]>>): Kept =>
  new Map(Object.entries(plan).map(([id, [tick, personId, bayId = null]]) => [id, { startMs: tick * TICK_S * 1000, personIds: [personId], bayId }]))

t.test('a build takes the room between what is planned; with the shop to itself, and going first, it is done earlier and others give way', async (t) => {
  const facts = aShop([aPerson('Ann')], [aBuild('old', [work('planned', 4)], { dueMs: 8 * TICK_S * 1000 })])
  const build = aBuild('new', [work('cut', 3), work('sand', 2, { after: ['cut'] })])
  const taking = takeBuild({ facts, build, kept: keptAt({ planned: [4, 'Ann'] }), earliestMs: null })
  // Ann: cut 0 to 3, planned 4 to 8, then sand, for which one tick was left: 8 to 10.
  t.equal(taking.startTick, 0)
  t.equal(taking.endTick, 10)
  t.equal(taking.aloneTick, 5)
  t.same(checkSchedule(taking.shop.problem, taking.plan!), [])
  // First cut and sand, 0 to 5; what was planned for 4 to 8 then ends at 9, one tick late.
  t.same(taking.first, { endTick: 5, later: [{ buildId: 'old', keptTick: 8, thenTick: 9, dueTick: 8 }] })
  t.equal(takeBuild({ facts, build, kept: keptAt({ planned: [4, 'Ann'] }), earliestMs: 2 * TICK_S * 1000 }).startTick, 8, 'from the second tick on, three are nowhere left before')
})

t.test('what is planned stays by its people at its time, though it could begin earlier; what is over its time comes as soon as it can', async (t) => {
  const facts = aShop([aPerson('Ann'), aPerson('Bo')], [aBuild('old', [work('late', 2), work('later', 2), work('unknown', 1)])], { fromMs: 0 })
  const shop = toShopProblem(facts)
  const plan = keepToPlan(shop, facts, keptAt({ late: [-5, 'Bo'], later: [9, 'Bo'] }))!
  t.same(plan.placed.slice(0, 3), [{ startTick: 0, endTick: 2, resources: [1] }, { startTick: 9, endTick: 11, resources: [1] }, { startTick: 0, endTick: 1, resources: [0] }])
  t.same(keepToPlan(shop, facts, keptAt({ late: [3, 'gone'] }))!.placed[0], { startTick: 3, endTick: 5, resources: [0] }, 'somebody else, where the one planned is not there any more')
})

t.test('of all ways to fit small builds in, none tried one by one is earlier than the room there is, and most are met exactly', async (t) => {
  let [met, all] = [0, 0]
  for (let seed = 1; seed <= 60; seed += 1) {
    const random = randomFrom(seed)
    const upTo = (most: number): number => Math.floor(random() * (most + 1))
    const names = ['Ann', 'Bo']
    const busy = names.flatMap((who, person) => Array.from({ length: 2 }, (_, place) => ({ id: `busy ${person} ${place}`, who, from: 2 + upTo(3) + place * 9, ticks: 1 + upTo(4) })))
    const facts = aShop(names.map((name) => aPerson(name)), [aBuild('old', busy.map(({ id, who, ticks }) => work(id, ticks, { personId: who })))])
    const count = 2 + upTo(2)
    const list = Array.from({ length: count }, (_, place) => work(`new ${place}`, 1 + upTo(3), { personId: random() < 0.4 ? names[upTo(1)]! : null, after: place > 0 && random() < 0.5 ? [`new ${upTo(place - 1)}`] : [] }))
    const taking = takeBuild({ facts, build: aBuild('new', list), kept: keptAt(Object.fromEntries(busy.map(({ id, who, from }) => [id, [from, who] as const]))), earliestMs: null })
    const best = earliestEnd(list, names, busy)
    t.ok(taking.endTick! >= best, `${seed}: ends at ${taking.endTick}, at best ${best}`)
    t.same(checkSchedule(taking.shop.problem, taking.plan!), [], `${seed}`)
    t.ok(taking.aloneTick! <= taking.endTick!)
    all += 1
    if (taking.endTick === best) met += 1
  }
  t.ok(met >= 0.9 * all, `${met} of ${all} end as early as any way`)
})

/** The earliest end of all orders and choices of people: each work tick by tick where its person has room for all of it. Shares nothing with the engine. */
function earliestEnd(list: readonly ShopWork[], names: readonly string[], busy: readonly { who: string, from: number, ticks: number }[]): number {
  const taken = new Map(names.map((name) => [name, new Set(busy.filter(({ who }) => who === name).flatMap(({ from, ticks }) => Array.from({ length: ticks }, (_, tick) => from + tick)))]))
  const ends = new Map<string, number>()
  let best = Infinity
  const place = (): void => {
    if (ends.size === list.length) {
      best = Math.min(best, Math.max(...ends.values()))
      return
    }
    for (const one of list) {
      if (ends.has(one.id) || one.after.some((id) => !ends.has(id))) continue
      const ticks = one.remainingS / TICK_S
      for (const name of one.personId === null ? names : [one.personId]) {
        const own = taken.get(name)!
        let from = Math.max(0, ...one.after.map((id) => ends.get(id)!))
        while (Array.from({ length: ticks }, (_, tick) => from + tick).some((tick) => own.has(tick))) from += 1
        for (let tick = 0; tick < ticks; tick += 1) own.add(from + tick)
        ends.set(one.id, from + ticks)
        place()
        ends.delete(one.id)
        for (let tick = 0; tick < ticks; tick += 1) own.delete(from + tick)
      }
    }
  }
  place()
  return best
}

t.test('what holds it up is told by taking it away: a skill, a bay, what is expected, a late start', async (t) => {
  const bay = { id: 'bay', name: 'Bay 1', closed: [] }
  const facts = aShop([aPerson('Ann', 'wood'), aPerson('Bo', 'sew')], [aBuild('old', [work('planned', 10, { personId: 'Ann' }), work('in the bay', 20, { personId: 'Bo', isInVehicle: true })])], { bays: [bay] })
  const kept = keptAt({ 'planned': [0, 'Ann'], 'in the bay': [0, 'Bo', 'bay'] })
  const ask = (list: readonly ShopWork[], earliestMs: number | null = null) => {
    const { endTick, limits } = takeBuild({ facts, build: aBuild('new', list), kept, earliestMs })
    return { endTick, limits: limits.map((limit) => `${limit.what} ${limit.name}: ${limit.endTick}`) }
  }
  t.same(ask([work('cut', 3, { skill: WOOD })]), { endTick: 13, limits: ['skill joinery: 3'] })
  t.same(ask([work('stitch', 2, { skill: SEW })]), { endTick: 22, limits: ['skill sewing: 2'] })
  t.same(ask([work('fit', 2, { personId: 'Ann', isInVehicle: true })]), { endTick: 22, limits: ['bay : 12'] }, 'with one more bay it waits for Ann; with somebody for Ann still for the bay')
  t.same(ask([work('cut', 3, { skill: WOOD, earliestMs: 30 * TICK_S * 1000 })]), { endTick: 33, limits: ['expected : 13'] })
  t.same(ask([work('cut', 3, { skill: WOOD })], 40 * TICK_S * 1000), { endTick: 43, limits: ['start : 13'] })
})

t.test('where no bay is, or nobody can do it, there is no end and it says why', async (t) => {
  const facts = aShop([aPerson('Ann')], [])
  const noBay = takeBuild({ facts, build: aBuild('new', [work('fit', 2, { isInVehicle: true })]), kept: null, earliestMs: null })
  t.equal(noBay.endTick, null)
  const nobody = takeBuild({ facts, build: aBuild('new', [work('stitch', 2, { skill: SEW })]), kept: null, earliestMs: null })
  t.equal(nobody.endTick, null)
  t.match(nobody.leftOut[0]!.why, /no people with the skill sewing/)
  const closed = aShop([aPerson('Ann')], [], { bays: [{ id: 'bay', name: 'Bay 1', closed: [{ fromMs: 0, toMs: HORIZON * TICK_S * 1000 }] }] })
  const shut = takeBuild({ facts: closed, build: aBuild('new', [work('fit', 2, { isInVehicle: true })]), kept: null, earliestMs: null })
  t.equal(shut.endTick, null)
  t.same(shut.limits.map(({ what, endTick }) => [what, endTick]), [['bay', 2]], 'with one bay more it would fit')
})

t.test('the chances of one work after another build’s are those of the closed form: whichever ends later, plus its own', async (t) => {
  const STEPS = Array.from({ length: 40 }, (_, step) => (step + 1) * TICK_S)
  const facts = aShop([aPerson('Ann')], [aBuild('old', [work('sure', 5)])])
  const taking = takeBuild({ facts, build: aBuild('new', [work('unsure', 20, { remainingCasesS: STEPS })]), kept: keptAt({ sure: [0, 'Ann'] }), earliestMs: null })
  t.equal(taking.endTick, 25)
  const ends = drawTakingEnds(taking, { buildId: 'new', togetherThousandths: 0 }, 4000, randomFrom(3))
  // Evenly from 6 to 45 ticks: half by 25, 80 in 100 by 37, 90 in 100 by 41.
  for (const [share, tick] of [[0.5, 25], [0.8, 37], [0.9, 41]] as const) t.ok(Math.abs(endWithin(ends, share) - tick) <= 1, `${share}: ${endWithin(ends, share)}`)
})

t.test('a quote that is out takes nobody’s time until it is agreed, ordered or begun', async (t) => {
  const out = { stage: 'quote', isAgreed: false, isBegun: false, hasQuote: true }
  t.equal(takesTime(out), false)
  t.equal(takesTime({ ...out, stage: 'scope' }), false, 'its stage was not moved on yet')
  t.equal(takesTime({ ...out, hasQuote: false }), false, 'in the stage of a quote, before one is written')
  for (const more of [{ isAgreed: true }, { isBegun: true }, { stage: 'order' }, { stage: 'deliver' }]) t.equal(takesTime({ ...out, ...more }), true, JSON.stringify(more))
  t.equal(takesTime({ ...out, stage: 'intake', hasQuote: false }), true, 'agreed by word')
  t.equal(takesTime({ ...out, stage: 'delivered', isBegun: true, isAgreed: true }), false)
})
