import fc from 'fast-check'
import t from 'tap'
import { LARGEST_INTEGER } from '../../server/calc/amounts.ts'
import { markupOf, markupOfMargin, marginOf, marginOfMarkup, priceAtMargin, priceAtMarkup } from '../../server/calc/quotes/margin.ts'
import { costOfTime, formatMoney, formatMoneyFigure, isCurrency, minorDigits, parseMoney, priceTimes } from '../../server/calc/money.ts'
import { addExactly, divideHalfAway, divideHalfEven, roundHalfAway, roundHalfEven, scaleHalfAway } from '../../server/calc/rounding.ts'
import { parseTaxRate, taxByCode } from '../../server/calc/quotes/tax.ts'
import type { TaxedLine } from '../../server/calc/quotes/tax.ts'

const SEEDED = { seed: 20270212, numRuns: 100 }

/** The minor units, or the refusal's words. */
function minorOf(text: string, currency = 'USD', negative: 'allowed' | 'refused' = 'refused'): number | string {
  const read = parseMoney(text, currency, negative)
  return read.ok ? read.minor : read.message
}

t.test('halves round away from zero on paper', async t => {
  // Both conventions of the same halves: −2.5 → −3 or −2, 2.5 → 3 or 2, 1.25 → 1.3 or 1.2 (a college rounding sheet).
  t.equal(roundHalfAway(2.5), 3)
  t.equal(roundHalfAway(-2.5), -3)
  t.equal(divideHalfAway(125n, 10n), 13n)
  t.equal(divideHalfAway(-125n, 10n), -13n)
  t.equal(divideHalfAway(5n, -2n), -3n)
  t.equal(divideHalfAway(2145n, 100n), 21n)
  t.equal(divideHalfAway(2145n, 10n), 215n, '21.45 → 21.5 half away')
  t.equal(roundHalfAway(0.49999999999999994), 0, 'just under a half stays down')
  t.ok(Object.is(roundHalfAway(-0.4), 0), 'there is no negative zero')
})

t.test('half to even is known, and gives the published figures', async t => {
  // A college rounding sheet: 56.748 → 56.7, 2.146 → 2.15, 21.4501 → 21.5, 21.350 → 21.4, 21.45 → 21.4.
  t.equal(divideHalfEven(56_748n, 100n), 567n)
  t.equal(divideHalfEven(2_146n, 10n), 215n)
  t.equal(divideHalfEven(214_501n, 1_000n), 215n)
  t.equal(divideHalfEven(21_350n, 100n), 214n)
  t.equal(divideHalfEven(2_145n, 10n), 214n)
  t.equal(roundHalfEven(2.5), 2)
  t.equal(roundHalfEven(-2.5), -2)
  t.equal(roundHalfEven(3.5), 4)
  t.equal(roundHalfEven(-1.4), -1)
})

t.test('both rules agree with the number formatting of the runtime', async () => {
  // Oracle: ICU through Intl, on decimal strings.
  const rounders = [
    [divideHalfAway, new Intl.NumberFormat('en-US', { maximumFractionDigits: 0, useGrouping: false, roundingMode: 'halfExpand' })],
    [divideHalfEven, new Intl.NumberFormat('en-US', { maximumFractionDigits: 0, useGrouping: false, roundingMode: 'halfEven' })],
  ] as const
  const cents = fc.tuple(fc.integer({ min: -9_999, max: 9_999 }), fc.constantFrom(0, 49, 50, 51)).map(([whole, rest]) => whole * 100 + rest)
  fc.assert(fc.property(cents, scaled => {
    const digits = String(Math.abs(scaled)).padStart(3, '0')
    const decimal = `${scaled < 0 ? '-' : ''}${digits.slice(0, -2)}.${digits.slice(-2)}` as `${number}`
    return rounders.every(([divide, format]) => String(divide(BigInt(scaled), 100n)) === format.format(decimal).replace(/^-0$/, '0'))
  }), SEEDED)
})

t.test('what is no number is never rounded into one', async t => {
  for (const wrong of [NaN, Infinity]) {
    t.throws(() => roundHalfAway(wrong), RangeError)
    t.throws(() => roundHalfEven(wrong), RangeError)
  }
  t.throws(() => divideHalfAway(1n, 0n), RangeError)
  t.throws(() => scaleHalfAway(1.5, 1, 1), RangeError)
  t.throws(() => scaleHalfAway(2 ** 52, 4, 1), { message: /more than can be counted/ })
  t.throws(() => addExactly([Number.MAX_SAFE_INTEGER, 1]), { message: /more than can be counted/ })
})

t.test('minor digits are those of ISO 4217', async t => {
  // OPC UA Part 3: AUD EUR INR USD GBP 2, JPY 0. The npm package currency-codes 2.2.0 (ISO 4217 list): KWD BHD IQD 3, HUF IDR COP 2, ISK 0.
  const digits = { AUD: 2, EUR: 2, INR: 2, USD: 2, GBP: 2, JPY: 0, KWD: 3, BHD: 3, IQD: 3, HUF: 2, IDR: 2, COP: 2, ISK: 0 }
  for (const [currency, expected] of Object.entries(digits)) t.equal(minorDigits(currency), expected, currency)
  t.equal(isCurrency('USD'), true)
  for (const code of ['usd', 'US', 'DOLLAR', '', 'ZZZ']) t.throws(() => minorDigits(code), RangeError, code)
})

t.test('an amount is taken the way people write it', async t => {
  for (const text of ['1234.50', '1,234.5', '1,234.50 USD', 'USD 1,234.50', 'usd1234.50', '$1,234.50', ' 1234.50 ', '1234.50$']) t.equal(minorOf(text), 123_450, text)
  t.equal(minorOf('0'), 0)
  t.equal(minorOf('.05'), 5)
  t.equal(minorOf('1,200', 'JPY'), 1_200)
  t.equal(minorOf('1.234', 'KWD'), 1_234)
  t.equal(minorOf('21474836.47'), LARGEST_INTEGER)
  for (const text of ['-5', '−5.00', '-$5', '- 5 USD']) t.equal(minorOf(text, 'USD', 'allowed'), -500, text)
})

t.test('an amount that is not clear is refused with a reason', async t => {
  t.equal(minorOf('12.345'), '"12.345" has too many decimals: USD has 2, as 1,234.00.')
  t.match(minorOf('10.5', 'JPY'), 'JPY has none')
  for (const text of ['2,5', '1.234,50', '1,23']) t.match(minorOf(text), 'decimal with a point', text)
  t.match(minorOf('-5'), 'is negative')
  t.match(minorOf('12 EUR'), 'is not an amount in USD')
  t.match(minorOf('1/2'), 'is not an amount in USD')
  for (const text of ['NaN', 'abc', '<b>']) t.match(minorOf(text), 'is not a number', text)
  t.match(minorOf('--5', 'USD', 'allowed'), 'is not a number')
  t.match(minorOf('1e9'), 'is not an amount in USD')
  for (const text of ['', ' ', '$', 'USD']) t.match(minorOf(text), 'Enter an amount in USD', text)
  t.match(minorOf('1'.repeat(10_000)), 'too long')
  t.match(minorOf('21474836.48'), 'at most 21,474,836.47 USD')
})

t.test('an amount on paper shows every minor digit, thousands apart', async t => {
  t.equal(formatMoney(123_450, 'USD'), '1,234.50 USD')
  t.equal(formatMoney(5, 'USD'), '0.05 USD')
  t.equal(formatMoney(-123_450, 'USD'), '−1,234.50 USD')
  t.equal(formatMoney(1_234_567, 'JPY'), '1,234,567 JPY')
  t.equal(formatMoney(1_234_567, 'KWD'), '1,234.567 KWD')
  t.equal(formatMoneyFigure(0, 'USD'), '0.00')
  t.throws(() => formatMoney(0.5, 'USD'), RangeError)
})

t.test('an amount printed reads back as itself', async () => {
  const amount = fc.integer({ min: -LARGEST_INTEGER, max: LARGEST_INTEGER })
  fc.assert(fc.property(amount, fc.constantFrom('USD', 'EUR', 'JPY', 'KWD'), (minor, currency) =>
    minorOf(formatMoney(minor, currency), currency, 'allowed') === minor), SEEDED)
})

t.test('a line is priced once and rounded once', async t => {
  t.equal(priceTimes(1_999, 1_500), 2_999, '1.5 × 19.99 = 29.985')
  t.equal(priceTimes(333, 3_000), 999)
  t.equal(costOfTime(5_400, 9_500), 14_250, '1.5 h at 95.00')
  t.equal(costOfTime(1_200, 9_500), 3_167, '20 min at 95.00 = 31.666…')
  t.equal(costOfTime(18, 100), 1, '18 s at 1.00 = 0.005, half goes up')
  t.equal(costOfTime(0, 9_500), 0)
})

t.test('tax is taken per code on the sum of its lines', async t => {
  // Common practice, no source; rates and amounts worked by hand.
  const lines: TaxedLine[] = [
    { amountMinor: 333, taxCode: 'parts', rateThousandthsOfPercent: 8_875 },
    { amountMinor: 333, taxCode: 'parts', rateThousandthsOfPercent: 8_875 },
    { amountMinor: 333, taxCode: 'parts', rateThousandthsOfPercent: 8_875 },
    { amountMinor: 10_000, taxCode: 'labor', rateThousandthsOfPercent: 0 },
  ]
  t.same(taxByCode(lines), {
    codes: [
      { taxCode: 'labor', rateThousandthsOfPercent: 0, netMinor: 10_000, taxMinor: 0 },
      { taxCode: 'parts', rateThousandthsOfPercent: 8_875, netMinor: 999, taxMinor: 89 }, // 88.66; line by line it would be 3 × 30 = 90
    ],
    netMinor: 10_999, taxMinor: 89, totalMinor: 11_088,
  })
  t.equal(taxByCode([{ amountMinor: 50, taxCode: 'a', rateThousandthsOfPercent: 1_000 }]).taxMinor, 1, 'half a cent counts up')
  t.equal(taxByCode([{ amountMinor: -50, taxCode: 'a', rateThousandthsOfPercent: 1_000 }]).taxMinor, -1, 'and down on a credit')
  t.same(taxByCode([]), { codes: [], netMinor: 0, taxMinor: 0, totalMinor: 0 })
  t.throws(() => taxByCode([lines[0]!, { ...lines[1]!, rateThousandthsOfPercent: 1 }]), { message: 'tax code parts has two rates' })
})

t.test('totals add up on paper, in any order of lines', async t => {
  const rates = { a: 0, b: 7_250, c: 20_000 }
  const line = fc.record({ amountMinor: fc.integer({ min: -1_000_000, max: 9_000_000 }), taxCode: fc.constantFrom('a', 'b', 'c') })
    .map(({ amountMinor, taxCode }) => ({ amountMinor, taxCode, rateThousandthsOfPercent: rates[taxCode as keyof typeof rates] }))
  fc.assert(fc.property(fc.array(line), lines => {
    const { codes, netMinor, taxMinor, totalMinor } = taxByCode(lines)
    t.same(taxByCode([...lines].reverse()), { codes, netMinor, taxMinor, totalMinor })
    return totalMinor === netMinor + taxMinor
      && taxMinor === codes.reduce((sum, code) => sum + code.taxMinor, 0)
      && netMinor === lines.reduce((sum, each) => sum + each.amountMinor, 0)
      && codes.every(code => Math.abs(code.taxMinor - code.netMinor * code.rateThousandthsOfPercent / 100_000) <= 0.5 + 1e-6)
  }), SEEDED)
})

t.test('a tax rate is a percentage with at most three decimals', async t => {
  t.match(parseTaxRate('8.875 %'), { ok: true, thousandthsOfPercent: 8_875 })
  t.match(parseTaxRate('20'), { ok: true, thousandthsOfPercent: 20_000 })
  t.match(parseTaxRate('0%'), { ok: true, thousandthsOfPercent: 0 })
  t.match(parseTaxRate('100'), { ok: true, thousandthsOfPercent: 100_000 })
  t.match(parseTaxRate('100.001'), { ok: false, message: /more than 100 %/ })
  t.match(parseTaxRate('8.8755'), { ok: false, message: /at most three decimals/ })
  for (const text of ['', '-5', 'x', '8,5', '1/2', '5 kg', '9'.repeat(1000)]) t.equal(parseTaxRate(text).ok, false, text.slice(0, 9))
})

t.test('markup is not margin', async t => {
  // Identity g = m ÷ (1 + m), from the definitions: 50 % ↔ 33.33 %, 33.33 % ↔ 25 %, 100 % ↔ 50 %.
  t.equal(marginOfMarkup(500), 333)
  t.equal(marginOfMarkup(333), 250)
  t.equal(marginOfMarkup(1_000), 500)
  t.equal(markupOfMargin(500), 1_000)
  t.equal(markupOfMargin(250), 333)
  t.equal(priceAtMarkup(10_000, 500), 15_000)
  t.equal(priceAtMargin(10_000, 500), 20_000)
  t.equal(marginOf(10_000, 15_000), 333)
  t.equal(markupOf(10_000, 15_000), 500)
  t.equal(marginOf(15_000, 10_000), -500, 'sold below cost')
  t.equal(marginOf(10_000, 0), null, 'without a price there is no margin')
  t.equal(markupOf(0, 10_000), null)
  for (const margin of [1_000, 1_500]) {
    t.throws(() => markupOfMargin(margin), RangeError)
    t.throws(() => priceAtMargin(100, margin), RangeError)
  }
  fc.assert(fc.property(fc.integer({ min: 0, max: 2_000 }), markup => marginOfMarkup(markup) <= markup
    && Math.abs(priceAtMargin(1_000_000, marginOfMarkup(markup)) - priceAtMarkup(1_000_000, markup)) <= 4_600), SEEDED)
})
