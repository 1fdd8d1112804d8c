import assert from 'node:assert/strict'
import fc from 'fast-check'
import t from 'tap'
import { toChecklist } from '../../server/calc/restoration/checklist.ts'
import { toVerdict } from '../../server/calc/restoration/verdict.ts'
import { alteration, arbitraryRestoration, getPlan, part, restorationOf } from '../support/restorationWorld.ts'
import { planRestoration } from '../../server/calc/restoration/restoration.ts'

const RUNS = { numRuns: 100, seed: 20_310_514 }
const HOLES = alteration('X-001', {
  what: 'four holes 6 mm', whereAt: 'load floor, left', reversal: '1. Rivet nuts out.\n2. Weld shut\n\n- Prime and seal', reverseS: 3600,
  partsToBuy: [{ name: 'body plug', count: 1, priceMinor: 740, leadDays: 2 }], outside: { what: 'Blend the paint', costMinor: 12_000, days: 5 },
})

t.test('each line of a reversal is a numbered step, the part stands at the first, what another firm does comes last', async t => {
  const input = restorationOf({ alterations: [HOLES] })
  const { steps } = toChecklist(input, getPlan(input), { energy: 'gasoline', batteryWaitS: null })
  const repairs = steps.filter(({ phase }) => phase === 'repair')
  t.same(repairs.map(({ text }) => text), [
    'Undo alteration X-001 (four holes 6 mm, load floor, left), 1 of 3: Rivet nuts out.', 'Undo X-001, 2 of 3: Weld shut.', 'Undo X-001, 3 of 3: Prime and seal.',
    'Have done outside, for alteration X-001: Blend the paint; away for 5 working days.',
  ])
  t.same(repairs.map(({ notes }) => notes), [['new: 1 × body plug'], [], [], []])
  t.same(repairs.map(({ itemNumber }) => itemNumber), ['X-001', 'X-001', 'X-001', 'X-001'])
})

t.test('outside work costs and takes its days after its part is here; alterations do not wait for each other', async t => {
  // By hand: 1 h at 80.00 + plug 7.40 + paint 120.00 = 207.40; 2 + 5 days, and beside it 6 days for the other.
  const input = restorationOf({ alterations: [HOLES, alteration('X-002', { leadDays: 6 }), alteration('X-003', { isReversed: true, outside: { what: 'done long ago', costMinor: 99_900, days: 90 } })] })
  const verdict = toVerdict(input, getPlan(input), 8_000)
  t.same(verdict.cost, { laborMinor: 8_000, partsMinor: 740, outsideMinor: 12_000, totalMinor: 20_740, unpricedCount: 0 })
  t.equal(verdict.leadDays, 7)
  t.match(verdict.leadWorking.assumed, /nothing waits for another; outside work begins when its own part is here/)
  t.same(verdict.reasons, ['Alteration X-001 (four holes 6 mm, load floor, left) has to be undone. Done outside: Blend the paint.', 'Alteration X-002 (hole) has to be undone.'])
  const unpriced = restorationOf({ alterations: [{ ...HOLES, outside: { what: 'Blend the paint', costMinor: null, days: 0 } }] })
  t.same(toVerdict(unpriced, getPlan(unpriced), 8_000).cost, { laborMinor: 8_000, partsMinor: 740, outsideMinor: 0, totalMinor: 8_740, unpricedCount: 1 })
})

t.test('what cannot be reversed stays a reason, wherever it is; one that a bought part replaces needs no step of its own for each line', async t => {
  const input = restorationOf({ alterations: [alteration('X-001', { what: 'pillar cut', whereAt: 'B pillar', isReversible: false })] })
  const verdict = toVerdict(input, getPlan(input), 0)
  t.equal(verdict.kind, 'not fully, because')
  t.same(verdict.reasons, ['Alteration X-001 (pillar cut, B pillar) cannot be undone.'])
})

const alterations = fc.array(fc.record({
  isReversible: fc.boolean(), isReversed: fc.boolean(), reverseS: fc.nat(9), leadDays: fc.nat(20), days: fc.nat(20), costMinor: fc.option(fc.nat(500)), isOutside: fc.boolean(), price: fc.option(fc.nat(500)), hasPart: fc.boolean(), onPart: fc.boolean(),
}), { maxLength: 5 })

t.test('cost is the sum of labor, parts and outside work, the wait the longest of its chains, and every reversal appears in the steps', async () => {
  fc.assert(fc.property(arbitraryRestoration, alterations, (base, rows) => {
    const input = {
      ...base, choice: 'all' as const,
      alterations: rows.map(({ days, costMinor, isOutside, price, hasPart, onPart, ...row }, index) => alteration(`X-${index}`, {
        ...row, factoryPartId: onPart ? base.factoryParts[0]!.id : null,
        partsToBuy: hasPart ? [{ name: `part ${index}`, count: 1, priceMinor: price, leadDays: row.leadDays }] : [],
        ...(isOutside ? { outside: { what: 'elsewhere', costMinor, days } } : {}),
      })),
    }
    const plan = planRestoration(input)
    if (plan.kind === 'refused') return
    const { cost, leadDays } = toVerdict(input, plan, 0)
    assert.equal(cost.totalMinor, cost.laborMinor + cost.partsMinor + cost.outsideMinor)
    const undone = plan.repairs.flatMap(repair => repair.kind === 'reverse' ? [repair.alterationId] : [])
    const own = input.alterations.filter(({ id }) => undone.includes(id))
    assert.equal(cost.outsideMinor, own.reduce((sum, { outside }) => sum + (outside?.costMinor ?? 0), 0))
    for (const { leadDays: wait, outside } of own) assert.ok(leadDays >= wait + (outside?.days ?? 0))
    assert.ok(leadDays <= 40 && cost.totalMinor >= 0)
    assert.ok(own.every(({ isReversed }) => !isReversed), 'what is reversed already is not undone again')
  }), RUNS)
})

t.test('a vehicle that needs outside work waits no less and costs no less than one that does not', async () => {
  fc.assert(fc.property(fc.nat(30), fc.nat(30), fc.nat(1000), (leadDays, days, costMinor) => {
    const without = restorationOf({ factoryParts: [part(1, 'trim')], alterations: [alteration('X-1', { leadDays })] })
    const with_ = { ...without, alterations: [alteration('X-1', { leadDays, outside: { what: 'weld', costMinor, days } })] }
    const [a, b] = [toVerdict(without, getPlan(without), 100), toVerdict(with_, getPlan(with_), 100)]
    assert.equal(b.leadDays - a.leadDays, days)
    assert.equal(b.cost.totalMinor - a.cost.totalMinor, costMinor)
  }), RUNS)
})
