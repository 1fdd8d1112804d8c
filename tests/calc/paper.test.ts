import fc from 'fast-check'
import t from 'tap'
import { boundsOf, findClash } from '../../server/calc/paperOptions.ts'
import { linesWith, totalsOf, type PricedLine } from '../../server/calc/paperTotals.ts'
import { freezePaper, hashOfPaper, inGroups, paperNumber, readPaper } from '../../server/quotes/content.ts'
import { aPaper } from '../support/aPaper.ts'

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
