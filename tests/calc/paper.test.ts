import fc from 'fast-check'
import t from 'tap'
import { boundsOf, findClash } from '../../server/calc/quotes/paperOptions.ts'
import { linesWith, totalsOf, type PricedLine } from '../../server/calc/quotes/paperTotals.ts'
import { compareLines } from '../../server/calc/quotes/paperDifference.ts'
import { explodeParts } from '../../server/calc/parts/partTree.ts'
import { placePrices, type PlacedPrice, type PricedRow } from '../../server/calc/quotes/placedPrices.ts'
import { depositsOf, suppliesOf, toLines, type LineGroup } from '../../server/calc/quotes/quoteLines.ts'
import { freezePaper, hashOfPaper, inGroups, paperNumber, readPaper } from '../../server/quotes/content.ts'
import { aPaper } from '../support/aPaper.ts'
import { part, trees, use } from '../support/partTrees.ts'

const SEEDED = { seed: 20310303, numRuns: 100 }
const STANDARD = { code: 'S', name: 'standard', rateThousandthsOfPercent: 25_000 }
const EXEMPT = { code: 'E', name: 'exempt', rateThousandthsOfPercent: 0 }
const line = (amountMinor: number, taxCode: PricedLine['taxCode'], option: number | null = null): PricedLine => ({ amountMinor, taxCode, option })

t.test('a paper adds up as a published invoice does: charge, discount and two tax codes', (t) => {
  // OpenPEPPOL, peppol-bis-invoice-3, rules/examples/Allowance-example.xml (EN 16931): lines 4000, 1000 (exempt) and 900 EUR,
  // a charge of 200 and a discount of 200; taxable 4900 at 25 % gives 1225, 1000 exempt gives 0; 5900 without, 7125 with tax.
  const totals = totalsOf([line(400_000, STANDARD), line(100_000, EXEMPT), line(90_000, STANDARD), line(20_000, STANDARD), line(-20_000, STANDARD)])
  t.same(totals, {
    netMinor: 590_000, taxMinor: 122_500, totalMinor: 712_500,
    taxes: [{ ...EXEMPT, netMinor: 100_000, taxMinor: 0 }, { ...STANDARD, netMinor: 490_000, taxMinor: 122_500 }],
  })
  t.end()
})

t.test('a code whose rate was changed in between is two codes on the paper', (t) => {
  const { taxes, taxMinor } = totalsOf([line(10_000, STANDARD), line(10_000, { ...STANDARD, rateThousandthsOfPercent: 20_000 }), line(500, null)])
  t.same(taxes.map(({ rateThousandthsOfPercent, taxMinor: own }) => [rateThousandthsOfPercent, own]), [[20_000, 2_000], [25_000, 2_500]])
  t.equal(taxMinor, 4_500, 'and what has no code bears none')
  t.end()
})

t.test('with options said yes to, tax is taken on the sum over the lines that count then', async () => {
  const priced = fc.record({ amountMinor: fc.integer({ min: -50_000, max: 900_000 }), taxCode: fc.constantFrom(STANDARD, EXEMPT, null, { code: 'G', name: 'goods', rateThousandthsOfPercent: 8_875 }), option: fc.constantFrom(null, 1, 2, 3) })
  fc.assert(fc.property(fc.array(priced, { maxLength: 12 }), fc.subarray([1, 2, 3]), (lines, chosen) => {
    const totals = totalsOf(linesWith(lines, chosen))
    // The plain way: add up what counts, code by code, and round once.
    const counted = lines.filter(({ option }) => option === null || chosen.includes(option))
    const net = counted.reduce((sum, { amountMinor }) => sum + amountMinor, 0)
    const goods = counted.filter(({ taxCode }) => taxCode?.code === 'G').reduce((sum, { amountMinor }) => sum + amountMinor, 0)
    const own = totals.taxes.find(({ code }) => code === 'G')
    const isTax = Math.abs((own?.taxMinor ?? 0) - goods * 0.08875) <= 0.5 + 1e-6
    return totals.netMinor === net && isTax && totals.totalMinor === net + totals.taxMinor && totals.taxMinor === totals.taxes.reduce((sum, { taxMinor }) => sum + taxMinor, 0)
  }), SEEDED)
})

t.test('of options with the same word at most one is chosen', (t) => {
  const options = [{ number: 1, name: 'fabric', insteadOf: 'cover' }, { number: 2, name: 'leather', insteadOf: ' Cover' }, { number: 3, name: 'lamps', insteadOf: '' }, { number: 4, name: 'tray', insteadOf: '' }]
  t.equal(findClash(options, [1, 3, 4]), null)
  t.same(findClash(options, [2, 3, 1])?.map(({ name }) => name), ['fabric', 'leather'])
  t.end()
})

t.test('what a paper comes to at least and at most is what the worst and the best choice give', async () => {
  const option = fc.record({ insteadOf: fc.constantFrom('', 'a', 'b'), by: fc.integer({ min: -1_000, max: 1_000 }) })
  fc.assert(fc.property(fc.integer({ min: -5_000, max: 5_000 }), fc.array(option, { maxLength: 7 }), (base, options) => {
    // Every choice there is, one after the other.
    const sums = Array.from({ length: 2 ** options.length }, (_, choice) => options.filter((__, index) => (choice >> index) % 2 === 1))
      .filter((chosen) => chosen.every((one, index) => one.insteadOf === '' || !chosen.slice(index + 1).some((other) => other.insteadOf === one.insteadOf)))
      .map((chosen) => chosen.reduce((sum, { by }) => sum + by, base))
    const { least, most } = boundsOf(base, options)
    return least === Math.min(...sums) && most === Math.max(...sums)
  }), SEEDED)
})

t.test('what is frozen is read back whole, and a changed letter shows in its hash', (t) => {
  const paper = aPaper()
  const { text, hash } = freezePaper(paper)
  t.same(readPaper(text), paper)
  t.equal(freezePaper(readPaper(text)).hash, hash, 'the same paper has the same hash')
  t.not(hashOfPaper(text.replace('Rear wall', 'Rear hall')), hash)
  // SHA-256 of the empty text, as FIPS 180-4 examples and RFC 6234 implementations give it.
  t.equal(inGroups(hashOfPaper('')), 'e3b0 c442 98fc 1c14 9afb f4c8 996f b924 27ae 41e4 649b 934c a495 991b 7852 b855')
  t.throws(() => freezePaper({ ...paper, totals: { ...paper.totals, netMinor: 3_000_000_000 } }))
  t.same([paperNumber('quote', 243, 2), paperNumber('change order', 243, 1, 3)], ['Q-0243-2', 'C-0243-3.1'])
  t.end()
})

const row = (partId: string | null, sellMinor: number, taxCodeId: string | null = null, what: PricedRow['what'] = 'labor'): PricedRow =>
  ({ partId, equipmentLineId: partId === null ? 'amplifier' : null, factoryPartId: null, what, taxCodeId, sellMinor })
const GROUPINGS: Readonly<Record<string, (price: PlacedPrice) => LineGroup>> = {
  'zone': ({ partId }) => ({ key: `zone ${partId === null ? 'wall' : Number(partId) % 3}`, heading: 'Zone', detail: '' }),
  'part': ({ partId }) => ({ key: partId ?? 'amplifier', heading: 'Part', detail: '' }),
  'lump sum': () => ({ key: 'all', heading: 'All', detail: '' }),
}

t.test('pieces are priced with what they go into, and an option takes all that its part is made of', async (t) => {
  const parts = explodeParts([part('pod', 1), part('ring', 1), part('skin')], [use('pod', 'ring', 2), use('pod', 'skin', 1)])
  const placed = placePrices([row('ring', 900), row('skin', 500), row('pod', 4_000)], parts, { parts: new Map([['pod', 1]]), equipment: new Map() })
  t.same(placed.map(({ partId, option, sellMinor }) => [partId, option, sellMinor]).sort(), [['pod', 1, 5_100], ['ring', null, 300]], 'two of three rings stand in the pod')
  const own = placePrices([row('skin', 500), row('pod', 4_000)], parts, { parts: new Map([['pod', 1], ['skin', 2]]), equipment: new Map() })
  t.same(own.map(({ option, sellMinor }) => [option, sellMinor]).sort(), [[1, 4_000], [2, 500]], 'unless it is in an option of its own')
})

t.test('by zone, by part or as a lump sum the lines come to the same, option by option and tax code by tax code', async () => {
  const prices = fc.array(fc.record({ at: fc.nat(9), sellMinor: fc.integer({ min: 0, max: 400_000 }), taxCodeId: fc.constantFrom(null, 'a', 'b'), what: fc.constantFrom('labor', 'bought') }), { maxLength: 20 })
  fc.assert(fc.property(trees, prices, fc.dictionary(fc.constantFrom('0', '1', '2', '3'), fc.integer({ min: 1, max: 2 })), ({ parts, uses }, drawn, options) => {
    const rows = drawn.map(({ at, sellMinor, taxCodeId, what }) => row(at < parts.length ? `${at}` : null, sellMinor, taxCodeId, what as 'labor'))
    const placed = placePrices(rows, explodeParts(parts, uses), { parts: new Map(Object.entries(options)), equipment: new Map([['amplifier', 2]]) })
    const told = (lines: readonly { option: number | null, taxCodeId: string | null, amountMinor: number }[]): string => {
      const sums = new Map<string, number>()
      for (const { option, taxCodeId, amountMinor } of lines) sums.set(`${option} ${taxCodeId}`, (sums.get(`${option} ${taxCodeId}`) ?? 0) + amountMinor)
      return JSON.stringify([...sums].filter(([, sum]) => sum !== 0).sort())
    }
    const drawnBy = Object.values(GROUPINGS).map((groupOf) => toLines(placed, groupOf, (id) => id))
    const whole = rows.reduce((sum, { sellMinor }) => sum + sellMinor, 0)
    return drawnBy.every((lines) => lines.reduce((sum, { amountMinor }) => sum + amountMinor, 0) === whole && new Set(lines.map(({ key }) => key)).size === lines.length)
      && new Set(drawnBy.map(told)).size === 1
  }), SEEDED)
})

t.test('supplies have a most, and deposit steps of a whole come to the whole', async (t) => {
  t.same([suppliesOf(250_000, { shareThousandths: 30, mostMinor: null }), suppliesOf(250_000, { shareThousandths: 30, mostMinor: 5_000 })], [7_500, 5_000])
  // 997.39 in thirds: 332.46⅓ each; the steps sum to it, none is a cent off.
  t.equal(depositsOf(99_739, [333, 333, 334]).reduce((sum, each) => sum + each, 0), 99_739)
  fc.assert(fc.property(fc.nat(900_000_000), fc.array(fc.integer({ min: 1, max: 250 }), { maxLength: 4 }), (total, shares) => {
    const steps = depositsOf(total, shares)
    return steps.every((step, index) => Math.abs(step - total * shares[index]! / 1000) < 1) && steps.reduce((sum, each) => sum + each, 0) <= total
  }), SEEDED)
})

t.test('the difference of two papers leads from one to the other', async () => {
  const lines = fc.uniqueArray(fc.record({ key: fc.constantFrom('a', 'b', 'c', 'd', 'e'), text: fc.constantFrom('Roof', 'Wall'), amountMinor: fc.integer({ min: -9, max: 9 }), option: fc.constantFrom(null, 1) }), { selector: ({ key }) => key })
  fc.assert(fc.property(lines, lines, (before, after) => {
    const differences = compareLines(before, after)
    const sum = (all: readonly { amountMinor: number }[]): number => all.reduce((total, { amountMinor }) => total + amountMinor, 0)
    return sum(before) + differences.reduce((total, { beforeMinor, afterMinor }) => total + (afterMinor ?? 0) - (beforeMinor ?? 0), 0) === sum(after) && compareLines(after, after).length === 0
  }), SEEDED)
})
