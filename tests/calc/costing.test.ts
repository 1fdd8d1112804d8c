import assert from 'node:assert/strict'
import fc from 'fast-check'
import t from 'tap'
import type { AgreedPapers } from '../../server/calc/costing/agreedForecast.ts'
import { consentAlarm } from '../../server/calc/costing/consentAlarm.ts'
import { costBuild } from '../../server/calc/costing/costing.ts'
import type { CostingInput } from '../../server/calc/costing/costing.ts'
import type { CostFigures } from '../../server/calc/costing/costSums.ts'
import { listBought } from '../../server/calc/parts/bought.ts'
import { earnedOf, earnedValue } from '../../server/calc/costing/earnedValue.ts'
import type { LearningModel } from '../../server/calc/estimate/learning.ts'
import type { Operation, OperationState } from '../../server/calc/estimate/operations.ts'
import type { Part, PartUse } from '../../server/calc/parts/partTree.ts'
import { Refusal } from '../../server/calc/refusal.ts'
import { chainEntries } from '../../server/calc/hours/timeEntries.ts'
import type { TimeEntry, TimeKind } from '../../server/calc/hours/timeEntries.ts'

const RUNS = { numRuns: 100, seed: 20_240_613 }
const HOUR = 3_600

const part = (id: string, quantity = 1, zoneId: string | null = 'door'): Part => ({ id, number: `P-${id}`, name: `Part ${id}`, zoneId, quantity })
const use = (parentId: string, partId: string, quantity: number): PartUse => ({ parentId, partId, quantity })
/** Ten hours of one person at 45.00 cost and 95.00 price an hour. */
const operation = (fields: Partial<Operation> = {}): Operation => ({
  id: 'op', partId: 'pod', equipmentLineId: null, factoryPartId: null, number: 10, kind: 'laminate', departmentId: 'glass',
  setUpS: HOUR, runS: 9 * HOUR, spread: null, learning: null, reworkThousandths: null, ratio: null, crew: 1, waitS: 0, state: 'running', remainingS: null, ...fields,
})
const entry = (id: string, hours: number, fields: Partial<TimeEntry> = {}): TimeEntry => ({
  id, operationId: 'op', partId: null, departmentId: null, personId: 'ana', kind: 'work', seconds: hours * HOUR, correctsId: null, ...fields,
})
const input = (fields: Partial<CostingInput> = {}): CostingInput => ({
  parts: [part('pod')], partUses: [], equipment: [], factoryParts: [], zones: [{ id: 'door', name: 'Door' }, { id: 'floor', name: 'Load floor' }],
  operations: [operation()], entries: [], bought: [{ partId: null, equipmentLineId: null, factoryPartId: null, label: 'Material', costMinor: 20_000, sellMinor: 30_000 }], earningRule: 'nothing until done', plannedMinor: null,
  consent: null,
  departments: [
    { id: 'glass', name: 'Laminating', costRateMinor: 4_500, sellRateMinor: 9_500, reworkThousandths: 0 },
    { id: 'trim', name: 'Trim', costRateMinor: 4_000, sellRateMinor: 8_000, reworkThousandths: 0 },
  ], ...fields,
})
const figuresOf = (fields: Partial<CostingInput>): CostFigures => costBuild(input(fields)).operations[0]!.figures
const hours = ({ estimatedS, loggedS, reworkS, waitingS, remainingS, forecastS }: CostFigures) =>
  [estimatedS, loggedS, reworkS, waitingS, remainingS, forecastS].map(seconds => seconds / HOUR)

t.test('earned value answers as the published fence does', async t => {
  // A published project-management teaching case: a fence of four sides at $1000, end of day 3.
  // It prints 4479 at completion from the rounded index; 4000 × 2800 ÷ 2500 is 4480.
  t.match(earnedValue({ plannedMinor: 3_000, earnedMinor: 2_500, actualMinor: 2_800, budgetMinor: 4_000 }), {
    costVarianceMinor: -300, costIndexThousandths: 893, scheduleVarianceMinor: -500, scheduleIndexThousandths: 833,
    atCompletionMinor: 4_480, toCompleteMinor: 1_680, varianceAtCompletionMinor: -480,
  })
})

t.test('earned value answers as published examples print it', async t => {
  // Help pages of the package PRA (cpi, spi, eac): BAC 100000, PV 40000, EV 35000, AC 36000; CPI 0.9722222, SPI 0.875.
  t.match(earnedValue({ plannedMinor: 40_000, earnedMinor: 35_000, actualMinor: 36_000, budgetMinor: 100_000 }), { costIndexThousandths: 972, scheduleIndexThousandths: 875 })
  // The same pages: BAC 100000 at a CPI of 0.83 comes to 120481.9.
  t.equal(earnedValue({ plannedMinor: null, earnedMinor: 8_300_000, actualMinor: 10_000_000, budgetMinor: 10_000_000 }).atCompletionMinor, 12_048_193)
  // Intuit QuickBooks, “Using earned value management”: budget 100,000, PV 55,000, AC 45,000, EV 50,000.
  t.match(earnedValue({ plannedMinor: 55_000, earnedMinor: 50_000, actualMinor: 45_000, budgetMinor: 100_000 }), {
    scheduleVarianceMinor: -5_000, scheduleIndexThousandths: 909, costVarianceMinor: 5_000, costIndexThousandths: 1_111, atCompletionMinor: 90_000,
    toCompleteMinor: 45_000, varianceAtCompletionMinor: 10_000,
  })
  // A tutor’s answer on the 50/50 rule (wyzant.com): of 10 staff-weeks 5 are earned at the start, 10 when it is done.
  t.strictSame((['not started', 'running', 'done'] as const).map(state => earnedOf(state, 10, 'half at the start')), [0, 5, 10])
})

t.test('an index over nothing is not defined, never infinite', async t => {
  const none = earnedValue({ plannedMinor: 0, earnedMinor: 0, actualMinor: 0, budgetMinor: 4_000 })
  t.match(none, { costIndexThousandths: null, scheduleIndexThousandths: null, atCompletionMinor: null, toCompleteMinor: null, working: null })
  t.match(none, { costVarianceMinor: 0, scheduleVarianceMinor: 0 }, 'a difference is always defined')
  const spent = earnedValue({ plannedMinor: null, earnedMinor: 0, actualMinor: 500, budgetMinor: 4_000 })
  t.match(spent, { costIndexThousandths: 0, atCompletionMinor: null, scheduleVarianceMinor: null, scheduleIndexThousandths: null })
})

t.test('nothing is earned until done; half at the start is the named alternative', async t => {
  const states: OperationState[] = ['not started', 'running', 'waiting', 'done']
  t.strictSame(states.map(state => earnedOf(state, 101, 'nothing until done')), [0, 0, 0, 101])
  t.strictSame(states.map(state => earnedOf(state, 101, 'half at the start')), [0, 51, 51, 101])
  t.equal(costBuild(input({ earningRule: 'half at the start' })).earned.earnedMinor, 22_500)
})

// Remaining and forecast: common practice, no source; figures by hand. Columns: estimated, logged, rework, waiting, remaining, forecast.
t.test('what remains is the estimate less what is logged, and never below nothing', async t => {
  t.strictSame(hours(figuresOf({})), [10, 0, 0, 0, 10, 10])
  t.strictSame(hours(figuresOf({ entries: [entry('1', 4)] })), [10, 4, 0, 0, 6, 10])
  t.strictSame(hours(figuresOf({ entries: [entry('1', 12)] })), [10, 12, 0, 0, 0, 12])
})

t.test('the technician’s own figure wins, also against a used-up estimate', async t => {
  t.strictSame(hours(figuresOf({ operations: [operation({ remainingS: 9 * HOUR })], entries: [entry('1', 4)] })), [10, 4, 0, 0, 9, 13])
  t.strictSame(hours(figuresOf({ operations: [operation({ remainingS: 0 })], entries: [entry('1', 4)] })), [10, 4, 0, 0, 0, 4])
})

t.test('what is done has nothing remaining, whatever was said before', async t => {
  const done = operation({ state: 'done', remainingS: 9 * HOUR })
  t.strictSame(hours(figuresOf({ operations: [done], entries: [entry('1', 4)] })), [10, 4, 0, 0, 0, 4])
})

t.test('rework is labor and shown apart; waiting costs but brings nothing forward and is not charged', async t => {
  const figures = figuresOf({ entries: [entry('1', 3), entry('2', 2, { kind: 'rework' }), entry('3', 1, { kind: 'waiting' })] })
  t.strictSame(hours(figures), [10, 5, 2, 1, 5, 10])
  t.match(figures, {
    loggedCostMinor: 27_000, remainingCostMinor: 22_500, forecastCostMinor: 49_500, loggedSellMinor: 47_500, forecastSellMinor: 95_000,
    estimatedSellMinor: 95_000, marginMinor: 45_500, marginThousandths: 479,
  })
})

t.test('the last correction counts and every earlier one stays', async t => {
  const entries = [entry('a', 5), entry('other', 1), entry('b', 6, { correctsId: 'a' }), entry('c', 2, { correctsId: 'b', kind: 'rework' })]
  const chains = chainEntries(entries)
  t.strictSame(chains.map(({ effective, history }) => [effective.id, history.map(({ id }) => id)]), [['c', ['a', 'b', 'c']], ['other', ['other']]])
  t.strictSame(hours(figuresOf({ entries })), [10, 3, 2, 0, 7, 10])
  t.strictSame(hours(figuresOf({ entries: [entry('a', 5), entry('b', 0, { correctsId: 'a' })] })), [10, 0, 0, 0, 10, 10], 'zero takes hours back')
  const twice = [entry('a', 5), entry('b', 6, { correctsId: 'a' }), entry('c', 7, { correctsId: 'a' })]
  t.strictSame(chainEntries(twice).map(({ effective }) => effective.id), ['c'], 'of two corrections of one entry the last written counts')
  t.throws(() => chainEntries([entry('a', 1, { correctsId: 'b' }), entry('b', 1, { correctsId: 'a' })]), Refusal)
  t.throws(() => chainEntries([entry('a', 1, { correctsId: 'a' })]), Refusal)
})

t.test('hours that name no operation are kept, costed by their department, and said to be uncosted without one', async t => {
  const costing = costBuild(input({
    entries: [entry('1', 2, { operationId: null, partId: 'pod', departmentId: 'trim' }), entry('2', 1, { operationId: null }), entry('3', 1, { operationId: 'gone', partId: 'pod', departmentId: 'trim' })],
  }))
  t.strictSame(costing.otherHours.map(({ label, departmentId, figures }) => [label, departmentId, figures.loggedS / HOUR, figures.loggedCostMinor]), [
    ['P-pod Part pod: hours on no operation', 'trim', 3, 12_000], ['the build: hours on no operation', null, 1, 0],
  ])
  t.match(costing.labor.figures, { loggedS: 4 * HOUR, uncostedS: HOUR, remainingS: 10 * HOUR })
  t.match(costing.labor.workings.cost.assumed, /name no department/)
  t.strictSame(costing.byDepartment.map(({ label }) => label), ['Laminating', 'Trim', 'no department'])
})

t.test('a part is costed by itself and with its share of the pieces that go into it', async t => {
  const { byPart, byZone } = costBuild(input({
    parts: [part('left', 1, 'door'), part('right', 1, 'floor'), part('ring', 0, null)], partUses: [use('left', 'ring', 1), use('right', 'ring', 3)],
    operations: [operation({ partId: 'ring', setUpS: 0, runS: HOUR })], entries: [entry('1', 2)], bought: [],
  }))
  t.strictSame(byPart.map(({ partId, own, withPieces }) => [partId, own.figures.loggedS, withPieces.figures.loggedS, withPieces.figures.remainingS]), [
    ['left', 0, 1_800, 1_800], ['right', 0, 5_400, 5_400], ['ring', 7_200, 7_200, 7_200],
  ])
  t.strictSame(byZone.map(({ id, figures }) => [id, figures.loggedS]), [['door', 1_800], ['floor', 5_400]])
})

t.test('the allowance for rework is part of the estimate, and rework that is logged uses it up', async t => {
  const allowed = { operations: [operation({ reworkThousandths: 200 })] }
  t.strictSame(hours(figuresOf(allowed)), [12, 0, 0, 0, 12, 12])
  t.strictSame(hours(figuresOf({ ...allowed, entries: [entry('1', 10), entry('2', 1, { kind: 'rework' })] })), [12, 11, 1, 0, 1, 12], 'still inside it')
  t.strictSame(hours(figuresOf({ ...allowed, entries: [entry('1', 10), entry('2', 3, { kind: 'rework' })] })), [12, 13, 3, 0, 0, 13])
  const done = figuresOf({ operations: [operation({ reworkThousandths: 200, state: 'done' })], entries: [entry('1', 10)] })
  t.strictSame(hours(done), [12, 10, 0, 0, 0, 10], 'what was not needed is not forecast once it is done')
  t.equal(done.allowanceS, 2 * HOUR)
})

t.test('a part’s margin counts what is bought for it, packs shared by what each takes', async t => {
  // A sheet of 58.00, sold at 92.00: two square meters for the pod, one for the ring that goes into it.
  const peg = (id: string, quantity: number) => ({ source: 'part', id, label: `P-${id}`, quantity }) as never
  const bought = listBought({
    materials: [{ material: { number: 'M-1', name: 'Plywood' }, pegs: [peg('pod', 2_000_000), peg('ring', 1_000_000)], costMinor: 5_800, sellMinor: 9_200 } as never],
    equipment: [], singleUse: [],
  })
  t.strictSame(bought.map(({ partId, costMinor, sellMinor }) => [partId, costMinor, sellMinor]), [['pod', 3_867, 6_133], ['ring', 1_933, 3_067]])
  const { byPart, byZone, build } = costBuild(input({
    parts: [part('pod'), part('ring', 0, null)], partUses: [use('pod', 'ring', 2)], operations: [operation({ partId: 'pod' })], entries: [entry('1', 12)], bought,
  }))
  t.strictSame(byPart.map(({ own, withPieces }) => [own.figures.whole.priceMinor, own.figures.whole.marginMinor, withPieces.figures.whole.marginMinor]), [
    [101_133, 101_133 - 54_000 - 3_867, 104_200 - 59_800], [3_067, 1_134, 1_134],
  ])
  t.match(byPart[0]?.withPieces.workings.wholeMargin, { result: { value: 44_400 }, inputs: [{ amount: { value: 104_200 } }, { amount: { value: 59_800 } }] })
  t.match(build, { priceMinor: 104_200, costMinor: 59_800, marginMinor: 44_400, marginThousandths: 426 })
  t.strictSame(byZone.map(({ figures }) => figures.whole.marginMinor), [44_400])
})

t.test('the margin of a build is its prices less its costs', async t => {
  const { build } = costBuild(input({ entries: [entry('1', 12)] }))
  t.match(build, { priceMinor: 125_000, costMinor: 74_000, marginMinor: 51_000, marginThousandths: 408 })
  t.equal(costBuild(input({ operations: [], bought: [] })).build.marginThousandths, null, 'no price, no margin')
})

t.test('the customer’s limit warns before it is reached, not after', async t => {
  const stateOf = (reachedMinor: number, forecastMinor: number) => consentAlarm({ limitMinor: 1_000, reachedMinor, forecastMinor }).state
  t.equal(stateOf(0, 899), 'inside')
  t.equal(stateOf(0, 900), 'near')
  const onPaper = (reachedMinor: number, forecastMinor: number) => consentAlarm({ limitMinor: 1_000, allowedThousandths: 50, reachedMinor, forecastMinor, isOnPaper: true }).state
  t.same([onPaper(0, 1_000), onPaper(0, 1_001), onPaper(945, 1_000), onPaper(0, 1_051)], ['inside', 'near', 'near', 'forecast over'], 'what was accepted is no warning until it grows, or is nearly charged')
  t.equal(stateOf(1_000, 1_000), 'near', 'exactly at the limit is not over it')
  t.equal(stateOf(0, 1_001), 'forecast over')
  t.equal(stateOf(1_001, 1_001), 'over')
  t.equal(consentAlarm({ limitMinor: 1_000, reachedMinor: 0, forecastMinor: 900, nearThousandths: 950 }).state, 'inside')
  t.match(consentAlarm({ limitMinor: 1_000, reachedMinor: 200, forecastMinor: 1_300 }), { leftMinor: -300, words: /consent in writing before going on/ })
})

t.test('a build’s alarm looks at the forecast price of labor and the bill of materials', async t => {
  const stateAt = (limitMinor: number, remainingS: number | null) =>
    costBuild(input({ operations: [operation({ remainingS })], entries: [entry('1', 4)], consent: { limitMinor } })).alarm?.state
  t.equal(stateAt(140_000, null), 'inside', '1250.00 of 1400.00 is 89.3 in 100')
  t.equal(stateAt(138_888, null), 'near', '1250.00 of 1388.88 is just over 90 in 100')
  t.equal(stateAt(138_889, null), 'inside', 'and of 1388.89 just under')
  t.equal(stateAt(140_000, 8 * HOUR), 'forecast over', '12 h are 1140.00, with material 1440.00')
  t.equal(stateAt(67_000, null), 'over', '4 h and material are 680.00')
  t.equal(costBuild(input()).alarm, null, 'no limit agreed, no alarm')
})

t.test('what was accepted beside the estimate stands in the forecast, and what was said no to does not', async t => {
  const papers = { supplies: { shareThousandths: 30, mostMinor: null }, furtherMinor: 12_000, options: [], quotedMinor: 125_000, orders: [] }
  const agreed = (more: Partial<AgreedPapers>, entries: readonly TimeEntry[] = []) => costBuild(input({ entries, consent: { limitMinor: 139_850, papers: { ...papers, ...more } } })).agreed
  // By hand: 10 h at 95.00, 300.00 bought, 3 % of 950.00, a line of 120.00.
  t.equal(agreed({})?.forecastMinor, 95_000 + 30_000 + 2_850 + 12_000)
  t.equal(agreed({ supplies: { shareThousandths: 30, mostMinor: 2_000 } })?.forecastMinor, 139_000)
  t.equal(agreed({}, [entry('1', 12)])?.forecastMinor, 114_000 + 30_000 + 3_420 + 12_000, 'supplies grow with the labor')
  t.equal(agreed({ orders: [{ netMinor: 8_000, estimateMinor: 125_000, missingMinor: 0 }] })?.forecastMinor, 147_850, 'a change order that the estimate does not hold')
  const owners = costBuild(input()).byOwner.filter(({ owner }) => owner.kind === 'part').map(({ owner }) => owner.id!)
  const none = agreed({ options: [{ number: 1, name: 'All of it', isChosen: false, partIds: owners, equipmentIds: [] }] })
  t.equal(none?.leftOut[0]?.sellMinor, 95_000 + costBuild(input()).byOwner.filter(({ owner }) => owner.kind === 'part').reduce((sum, { figures }) => sum + figures.boughtSellMinor, 0))
  t.equal(none!.forecastMinor + none!.leftOut[0]!.sellMinor, 95_000 + 30_000 + 12_000, 'and no supplies on it')
})

const kinds = fc.constantFrom<TimeKind>('work', 'rework', 'waiting')
const builds = fc.record({
  parts: fc.tuple(...['0', '1', '2', '3'].map(id => fc.record({ quantity: fc.nat(2), zoneId: fc.constantFrom(null, 'door', 'floor') })
    .map(fields => ({ ...part(id), ...fields })))),
  partUses: fc.array(fc.tuple(fc.nat(3), fc.nat(3), fc.integer({ min: 1, max: 3 })), { maxLength: 6 })
    .map(all => all.filter(([a, b]) => a !== b).map(([a, b, n]) => use(`${Math.min(a, b)}`, `${Math.max(a, b)}`, n))),
  operations: fc.array(fc.record({
    partId: fc.constantFrom(null, '0', '1', '2', '3'), setUpS: fc.nat(9_000), runS: fc.nat(9_000), departmentId: fc.constantFrom('glass', 'trim'),
    state: fc.constantFrom<OperationState>('not started', 'running', 'waiting', 'done'), remainingS: fc.option(fc.nat(20_000)),
    reworkThousandths: fc.option(fc.nat(300)), crew: fc.integer({ min: 1, max: 3 }),
    learning: fc.option(fc.record({ model: fc.constantFrom<LearningModel>('unit', 'cumulative average'), rateThousandths: fc.integer({ min: 510, max: 1000 }) })),
  }), { maxLength: 8 }).map(all => all.map((fields, index) => operation({ ...fields, id: `${index}` }))),
  entries: fc.array(fc.record({
    operationId: fc.option(fc.nat(8).map(String)), partId: fc.constantFrom(null, '0', '3'), departmentId: fc.constantFrom(null, 'trim'),
    kind: kinds, seconds: fc.nat(20_000), correctsId: fc.nat(20),
  }), { maxLength: 20 }).map(all => all.map(({ correctsId, ...fields }, index) =>
    entry(`e${index}`, 0, { ...fields, correctsId: correctsId < index ? `e${correctsId}` : null }))),
  bought: fc.array(fc.record({ partId: fc.constantFrom(null, '0', '1', '2', '3'), costMinor: fc.nat(90_000), sellMinor: fc.nat(90_000) }), { maxLength: 6 })
    .map(all => all.map(fields => ({ ...fields, equipmentLineId: null, factoryPartId: null, label: 'Bought' }))),
}).map(fields => input(fields))

const SUMMED = [
  'estimatedS', 'withoutReworkS', 'allowanceS', 'loggedS', 'workS', 'reworkS', 'waitingS', 'uncostedS', 'remainingS', 'forecastS', 'estimatedCostMinor', 'estimatedSellMinor',
  'loggedCostMinor', 'loggedSellMinor', 'forecastCostMinor', 'forecastSellMinor', 'earnedMinor', 'marginMinor',
  'boughtCostMinor', 'boughtSellMinor',
] as const
const sumUp = (totals: readonly { readonly figures: CostFigures }[]) =>
  SUMMED.map(key => totals.reduce((sum, { figures }) => sum + figures[key], 0))

t.test('operations, owners, zones and departments agree to the second and the minor unit', async () => {
  fc.assert(fc.property(builds, once => {
    const { operations, otherHours, byOwner, byZone, byDepartment, byPart, labor } = costBuild(once)
    const whole = SUMMED.map(key => labor.figures[key])
    for (const view of [byOwner, byZone, byDepartment]) assert.deepEqual(sumUp(view), whole)
    const ofWork = (sums: number[]) => sums.slice(0, -2)
    assert.deepEqual(ofWork(sumUp([...operations, ...otherHours])), ofWork(whole))
    assert.equal(byOwner.reduce((sum, { figures }) => sum + figures.whole.marginMinor, 0), labor.figures.whole.marginMinor)
    assert.deepEqual(sumUp(byPart.map(({ own }) => own)), sumUp(byOwner.filter(({ owner }) => owner.kind === 'part')))
  }), RUNS)
})

t.test('every hour that stands is counted once, and nothing is negative or no number', async () => {
  fc.assert(fc.property(builds, once => {
    // Slow and obvious: an entry stands when nothing written later belongs to the same original.
    const original = (id: string): string => {
      const correctsId = once.entries.find(entry => entry.id === id)!.correctsId
      return correctsId === null ? id : original(correctsId)
    }
    const standing = once.entries.filter((entry, index) => !once.entries.slice(index + 1).some(later => original(later.id) === original(entry.id)))
    const { labor, chains, operations } = costBuild(once)
    assert.equal(labor.figures.loggedS + labor.figures.waitingS, standing.reduce((sum, { seconds }) => sum + seconds, 0))
    assert.equal(chains.flatMap(({ history }) => history).length, once.entries.length, 'nothing written is lost')
    for (const key of SUMMED) assert.ok(Number.isSafeInteger(labor.figures[key]) && (key === 'marginMinor' || labor.figures[key] >= 0))
    for (const { figures } of operations) assert.ok(figures.forecastS >= figures.loggedS && figures.earnedMinor <= figures.estimatedCostMinor)
  }), RUNS)
})

t.test('one more hour logged never lowers the forecast', async () => {
  fc.assert(fc.property(builds, kinds, (once, kind) => {
    const before = costBuild(once).labor.figures
    const after = costBuild({ ...once, entries: [...once.entries, entry('more', 1, { operationId: once.operations[0]?.id ?? null, kind })] }).labor.figures
    // A minor unit may move between logged and remaining, for each is rounded by itself.
    assert.ok(after.forecastS >= before.forecastS && after.forecastCostMinor >= before.forecastCostMinor - 1)
  }), RUNS)
})

t.test('the order of operations and of uncorrected entries changes no total', async () => {
  fc.assert(fc.property(builds, once => {
    const plain = { ...once, entries: once.entries.map(entry => ({ ...entry, correctsId: null })) }
    const turned = { ...plain, entries: plain.entries.toReversed(), operations: plain.operations.toReversed(), parts: plain.parts.toReversed() }
    assert.deepEqual(costBuild(turned).labor.figures, costBuild(plain).labor.figures)
  }), RUNS)
})
