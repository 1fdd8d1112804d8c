import { spawnSync } from 'node:child_process'
import fc from 'fast-check'
import t from 'tap'
import { LARGEST_INTEGER } from '../../server/calc/amounts.ts'
import { figureIn, formatAmount, formatBothTorques, formatIn, formatQuantity } from '../../server/calc/figures.ts'
import { parseQuantity } from '../../server/calc/quantities.ts'
import { roundToStep } from '../../server/calc/rounding.ts'
import { UNITS, defaultUnit, findUnit } from '../../server/calc/units.ts'
import type { MeasuringSystem, QuantityKind } from '../../server/calc/units.ts'

const SEEDED = { seed: 20270212, numRuns: 100 }
const KINDS = Object.keys(UNITS) as QuantityKind[]
const hasUnits = spawnSync('units', ['--version']).status === 0

/** The value, or the refusal's words where one was not expected, so that a failure shows them. */
function valueOf(text: string, kind: QuantityKind, unit = defaultUnit(kind, 'metric')): number | string {
  const read = parseQuantity(text, kind, unit)
  return read.ok ? read.value : read.message
}

function messageOf(text: string, kind: QuantityKind, unit = defaultUnit(kind, 'metric')): string {
  const read = parseQuantity(text, kind, unit)
  return read.ok ? `taken as ${read.value}` : read.message
}

t.test('one of each unit is what the published factors say', async t => {
  // GNU units 2.22, exact factors; canonical integers round half away from zero.
  const rows: [QuantityKind, string, number][] = [
    ['length', '1 in', 25_400],
    ['length', '1 ft', 304_800],
    ['volume', '1000 ft³', 28_316_847], // 28.316846592 L each
    ['volume', '1000 in³', 16_387], // 16.387064 mL each
    ['volume', '1000 gal', 3_785_412], // 3.785411784 L each
    ['volume', '1000 fl oz', 29_574], // 29.5735295625 mL each
    ['mass', '1000 lb', 453_592], // 0.45359237 kg each
    ['mass', '1000 oz', 28_350], // 28.349523125 g each
    ['area', '1000 ft²', 92_903_040], // 0.09290304 m² each
    ['area', '1000 yd²', 836_127_360], // 0.83612736 m² each
    ['distance', '1000 mi', 1_609_344], // 1.609344 km each
    ['torque', '1000 lbf·ft', 1_355_818], // 1.35581794833 N·m each
  ]
  for (const [kind, text, value] of rows) t.equal(valueOf(text, kind), value, text)
})

t.test('factors agree with 16 CFR 500.19 to the figures printed there', async t => {
  // 16 CFR 500.19: in 2.54 cm, ft 30.48 cm, ft² 929.0304 cm², ft³ 0.0283168 m³, gal 3.78541 L, lb 0.453592 kg, oz 28.3495 g, yd² 0.836127 m².
  const rows: [QuantityKind, string, number][] = [
    ['length', 'in', 25_400], ['length', 'ft', 304_800], ['area', 'ft²', 92_903.04], ['volume', 'ft³', 28_316.8],
    ['volume', 'gal', 3_785.41], ['mass', 'lb', 453.592], ['mass', 'oz', 28.3495], ['area', 'yd²', 836_127],
  ]
  for (const [kind, symbol, published] of rows) {
    const unit = findUnit(kind, symbol)!
    const factor = Number(unit.numerator) / Number(unit.denominator)
    t.ok(Math.abs(factor / published - 1) < 2e-6, `${symbol}: ${factor} against ${published}`)
  }
})

t.test('every unit agrees with GNU units', { skip: hasUnits ? false : 'skipped: the program "units" is not installed' }, async t => {
  const canonical: Record<string, string> = {
    length: 'micron', area: 'mm^2', volume: 'mL', mass: 'g', time: 's', torque: 'mN m', current: 'mA', voltage: 'mV', resistance: 'mohm', power: 'mW', delay: 'us', distance: 'm',
  }
  const names: Record<string, string> = {
    'µm': 'micron', 'fl oz': 'usfloz', gal: 'usgallon', d: 'day', h: 'hour', 'lbf·ft': 'lbf ft', 'lbf·in': 'lbf in', 'Ω': 'ohm', 'mΩ': 'mohm', mi: 'mile', 'µs': 'us',
  }
  for (const kind of KINDS.filter(each => canonical[each] !== undefined)) {
    for (const { symbol, numerator, denominator } of UNITS[kind]) {
      const name = names[symbol] ?? symbol.replace('²', '^2').replace('³', '^3').replace('·', ' ')
      const { stdout } = spawnSync('units', ['-t', '-d', '15', `1 ${name}`, canonical[kind]!], { encoding: 'utf8' })
      const factor = Number(numerator) / Number(denominator)
      t.ok(Math.abs(factor / Number(stdout) - 1) < 1e-13, `${kind} ${symbol}: ${factor} against ${stdout.trim()}`)
    }
  }
})

t.test('lengths are taken the way people write them', async t => {
  const mm = (text: string) => valueOf(text, 'length', 'mm')
  const inch = (text: string) => valueOf(text, 'length', 'in')
  t.equal(mm('595 mm'), 595_000)
  t.equal(mm('595'), 595_000)
  t.equal(mm('59.5cm'), 595_000)
  t.equal(inch('595 mm'), 595_000, 'a written unit beats the default')
  // 23 7/16 × 25.4 = 595.3125 mm (25.4 mm exact, 16 CFR 500.19), kept to the µm
  for (const text of ['23 7/16 in', '23-7/16"', '23 7/16', '23 7 / 16 inches', '23 7⁄16″', '23.4375', '1\' 11 7/16"', '23 7/16 IN']) t.equal(inch(text), 595_313, text)
  for (const text of ['4 ft 3 in', '4\' 3"', "4'3\"", '4ft3in', '4 feet 3 inches', '51', '4’3”', '4\'-3"', '4.25 ft', "4' 3''"]) t.equal(inch(text), 1_295_400, text)
  t.equal(inch('4\'3 1/2"'), 1_308_100)
  t.equal(inch('4\'-3 1/2"'), 1_308_100)
  t.equal(inch('4 ft .5 in'), 1_231_900, 'a decimal may begin with the point')
  for (const text of ['23½', '23 ½', '23-½ in', '23 1/2"']) t.equal(inch(text), 596_900, text)
  for (const [mark, um] of [['½', 12_700], ['¼', 6_350], ['¾', 19_050], ['⅛', 3_175], ['⅞', 22_225]] as const) t.equal(inch(mark), um, mark)
  t.equal(inch('1/64'), 397, '0.396875 mm, kept to the µm')
  t.equal(inch('0'), 0)
})

t.test('hours, masses, torques and loads are taken the way people write them', async t => {
  for (const text of ['2.5 h', '2.5', '2:30', '2 h 30 min', '150 min', '2½', '2 hrs 30 mins', '2h30min', '9000 s']) t.equal(valueOf(text, 'time'), 9_000, text)
  t.equal(valueOf('1 h 45 min', 'time'), 6_300)
  t.equal(valueOf('45 min', 'time'), 2_700)
  t.equal(valueOf('1 d', 'time'), 86_400, 'a day of curing is 24 hours')
  t.equal(valueOf('1,250.5 kg', 'mass'), 1_250_500)
  t.equal(valueOf('5 lb 8 oz', 'mass'), 2_495, '5.5 × 453.59237 g')
  for (const text of ['9 N·m', '9 Nm', '9 N m', '9 N-m', '9 nm', '9', '900 N·cm']) t.equal(valueOf(text, 'torque'), 9_000, text)
  for (const text of ['80 ft·lb', '80 ft-lb', '80 lb-ft', '80 ft lb', '80 lbf·ft', '80 ft-lbs', '80 lbf ft', '80 ftlb']) t.equal(valueOf(text, 'torque'), 108_465, text)
  t.equal(valueOf('100 in-lb', 'torque'), 11_298, '100 × 0.1129848 N·m')
  for (const text of ['4 Ω', '4 ohm', '4 Ohms', '4000 mΩ', '4 \u2126']) t.equal(valueOf(text, 'resistance'), 4_000, text)
  t.equal(valueOf('350 mA', 'current'), 350)
  t.equal(valueOf('14.4', 'voltage'), 14_400)
  t.equal(valueOf('0.25 sq ft', 'area'), 23_226)
  for (const text of ['12 mm2', '12 mm²', '12mm²']) t.equal(valueOf(text, 'area'), 12, text)
  t.equal(valueOf('1.5 cu ft', 'volume'), 42_475)
  t.equal(valueOf('45,120', 'distance'), 45_120_000)
  t.equal(valueOf('12', 'count'), 12)
  t.equal(valueOf('12.5 %', 'share'), 125)
})

t.test('what was typed is kept, with the unit it was meant in', async t => {
  t.match(parseQuantity('  23  7/16 ', 'length', 'in'), { value: 595_313, entered: '23 7/16 in' })
  t.match(parseQuantity('595 mm', 'length', 'in'), { entered: '595 mm' })
  t.match(parseQuantity('2:30', 'time', 'h'), { entered: '2:30' })
  t.match(parseQuantity('½', 'volume', 'gal'), { entered: '½ gal' })
  t.match(parseQuantity('12', 'count', 'pcs'), { entered: '12' })
})

t.test('a unit of the wrong kind is refused with what is wanted', async t => {
  t.equal(messageOf('9 mm', 'torque'), '"9 mm" is a length; this takes a torque, as 9 N·m or 6.6 lbf·ft.')
  t.equal(messageOf('12 kg', 'length'), '"12 kg" is a mass; this takes a length, as 595 mm or 23 7/16 in.')
  t.match(messageOf('12 ft-lb', 'length'), 'is a torque; this takes a length')
  t.match(messageOf('12 ft3', 'length'), 'is a volume; this takes a length')
  t.match(messageOf('12 ft³', 'area'), 'is a volume; this takes an area')
  t.match(messageOf('45 m', 'time'), 'is a length; this takes a time')
  t.match(messageOf('2 h', 'count'), 'is a time; this takes a number of pieces')
  t.match(messageOf('2:30', 'length'), 'is no unit for a length')
})

t.test('an entry that could be read two ways is refused with how to write it', async t => {
  for (const text of ['2,5', '1.250,5', '1,2345', '1.2.3', '2, 5', '12,50']) t.match(messageOf(text, 'length'), 'decimal with a point, as 2.5', text)
  for (const text of ['1 250', '12 5 mm', '1/2/3', '23.5 7/16']) t.match(messageOf(text, 'length'), 'is not one number', text)
  for (const text of ['4 ft 3', '3 in 4 ft', '5 mm 3 mm', '4 3 in']) t.notMatch(messageOf(text, 'length'), /taken/, text)
  t.match(messageOf('4 ft 3', 'length'), 'give every number its unit')
  t.notMatch(messageOf('5 m-3 mm', 'length'), /taken/, 'a subtraction is not an entry')
  for (const text of ['23 9/8', '3 8/8']) t.match(messageOf(text, 'length', 'in'), 'must be less than one', text)
  t.match(messageOf('3/0', 'length', 'in'), 'divides by zero')
  for (const text of ['2:75', '2:5', '1:02:03', ':30']) t.match(messageOf(text, 'time'), 'the minutes from 00 to 59', text)
})

t.test('negative, endless, tiny, huge and meaningless entries are refused with a reason', async t => {
  for (const text of ['-5', '−5 mm', '– 5', '-½']) t.match(messageOf(text, 'length'), 'is negative', text)
  for (const text of ['NaN', 'Infinity', 'abc', '<b>5</b>', 'mm', '.', '½½x']) t.notMatch(messageOf(text, 'length'), /taken/, text)
  for (const text of ['1e3', '0x10', '5 furlongs', '5 mm wide', '5 mmm']) t.match(messageOf(text, 'length'), 'is no unit for a length', text)
  t.match(messageOf('', 'length'), 'Enter a length, as 595 mm')
  t.match(messageOf('  ', 'time'), 'Enter a time')
  t.match(messageOf('9'.repeat(10_000), 'length'), 'too long')
  t.match(messageOf('0.0001 mm', 'length'), 'too small to keep')
  t.match(messageOf('2.5', 'count'), 'pieces are counted as 12')
  t.equal(valueOf('2147483647', 'count'), LARGEST_INTEGER)
  t.match(messageOf('2147483648', 'count'), 'at most 2,147,483,647')
  t.match(messageOf('9'.repeat(50), 'length'), 'more than can be kept: a length is at most')
  t.match(messageOf('5 MΩ', 'resistance'), 'no unit', 'megohms are not taken for milliohms')
  t.throws(() => parseQuantity('5', 'length', 'kg'), RangeError)
})

t.test('figures read as the trade writes them', async t => {
  t.equal(formatQuantity(595_000, 'length', 'metric'), '595 mm')
  t.equal(formatQuantity(595_313, 'length', 'inch'), '23 7/16 in')
  t.equal(formatQuantity(595_000, 'length', 'inch'), '23 27/64 in', '23.4252 in, nearest 64th')
  t.equal(formatQuantity(10_000, 'length', 'inch'), '0.394 in', 'a small length that is no 64th stays decimal')
  t.equal(formatQuantity(397, 'length', 'inch'), '1/64 in')
  t.equal(formatQuantity(25_399, 'length', 'inch'), '1 in')
  t.equal(formatQuantity(2_438_400, 'length', 'inch'), '96 in')
  t.equal(formatQuantity(5_000_000, 'length', 'inch'), '16 ft 4 27/32 in')
  t.equal(formatQuantity(6_096_000, 'length', 'inch'), '20 ft')
  t.equal(formatQuantity(12_500_000, 'length', 'metric'), '12.5 m')
  t.equal(formatQuantity(9_000, 'time', 'inch'), '2.5 h')
  t.equal(formatQuantity(120, 'time', 'metric'), '2 min')
  t.equal(formatQuantity(600, 'time', 'metric'), '10 min', 'a wait of ten minutes is no 0.17 h')
  t.equal(formatQuantity(3_600, 'time', 'inch'), '1 h')
  t.match(parseQuantity('7.25 %', 'rate', '%'), { value: 7_250 })
  t.equal(formatQuantity(7_250, 'rate', 'metric'), '7.25 %')
  t.equal(formatQuantity(0, 'time', 'metric'), '0 h')
  t.equal(formatQuantity(36_725, 'mass', 'metric'), '36.73 kg')
  t.equal(formatQuantity(850, 'mass', 'metric'), '850 g')
  t.equal(formatQuantity(1_000, 'mass', 'metric'), '1 kg')
  t.equal(formatQuantity(999, 'current', 'metric'), '999 mA')
  t.equal(formatQuantity(1_000, 'current', 'metric'), '1 A')
  t.equal(formatQuantity(9_000, 'torque', 'metric'), '9 N·m')
  t.equal(formatQuantity(9_000, 'torque', 'inch'), '6.6 lbf·ft')
  t.equal(formatQuantity(1_250_500, 'mass', 'metric'), '1250.5 kg')
  t.equal(formatQuantity(45_120_000, 'distance', 'metric'), '45,120 km')
  t.equal(formatQuantity(12, 'count', 'metric'), '12')
  t.equal(formatQuantity(250, 'share', 'metric'), '25 %')
  t.equal(formatQuantity(-3_200, 'mass', 'metric'), '−3.2 kg')
  t.equal(formatIn(42_475, 'volume', 'ft³'), '1.5 ft³')
  t.equal(formatAmount({ kind: 'money', value: 123_450 }, 'metric', 'USD'), '1,234.50 USD')
  t.equal(formatAmount({ kind: 'length', value: 595_000 }, 'metric', 'USD'), '595 mm')
  t.throws(() => formatQuantity(NaN, 'mass', 'metric'), RangeError)
  t.throws(() => formatIn(1, 'mass', 'mm'), RangeError)
})

t.test('a torque stands on paper for either wrench', async t => {
  // lbf·ft = 1.35581794833 N·m (GNU units 2.22): 9 → 6.638, 110 → 81.13, 2 → 1.475
  t.same(formatBothTorques(9_000), { nm: '9', ftlb: '6.6' })
  t.same(formatBothTorques(110_000), { nm: '110', ftlb: '81.1' })
  t.same(formatBothTorques(2_000), { nm: '2', ftlb: '1.5' })
  t.same(formatBothTorques(500), { nm: '0.5', ftlb: '0.37' })
})

t.test('minutes become decimal hours as time cards print them', async t => {
  // Published conversion table of a time-card guide: 5 → .08 … 40 → .67
  const table = { 5: '0.08', 10: '0.17', 15: '0.25', 20: '0.33', 25: '0.42', 30: '0.5', 35: '0.58', 40: '0.67' }
  for (const [minutes, hours] of Object.entries(table)) t.equal(figureIn(Number(minutes) * 60, 'time', 'h'), hours, `${minutes} min`)
})

t.test('a clock time rounds to the nearest quarter hour, half up', async t => {
  // Quarter-hour rounding in the sense of 29 CFR 785.48(b): 5:07 → 5:00, 5:08 → 5:15, 7:53 to 8:07 → 8:00.
  const rounded = (hours: number, minutes: number) => roundToStep(hours * 3600 + minutes * 60, 900) / 3600
  t.equal(rounded(5, 7), 5)
  t.equal(rounded(5, 8), 5.25)
  t.equal(rounded(7, 53), 8)
  t.equal(rounded(8, 7), 8)
  t.equal(rounded(5, 7.5), 5.25, 'exactly 7.5 minutes is unsettled between sources; here it counts up')
})

t.test('any 64th of an inch comes back as it was entered', async () => {
  fc.assert(fc.property(fc.integer({ min: 1, max: 143 * 64 }), sixtyFourths => {
    const value = valueOf(`${sixtyFourths}/64 in`, 'length')
    const exact = sixtyFourths * 25_400 / 64
    const shown = formatQuantity(Number(value), 'length', 'inch')
    return Math.abs(Number(value) - exact) <= 0.5 && valueOf(shown, 'length') === value && inSixtyFourths(shown) === sixtyFourths
  }), SEEDED)
})

function inSixtyFourths(shown: string): number {
  return shown.replace(' in', '').split(' ').reduce((sum, part) => {
    const [top = '0', bottom = '1'] = part.split('/')
    return sum + 64 * Number(top) / Number(bottom)
  }, 0)
}

t.test('a figure read back is the value, but for the decimals it shows', async () => {
  // Half of the last place shown, in canonical units: [metric, inch].
  const steps: Record<QuantityKind, [number, number]> = {
    length: [500, 199], area: [500, 465], volume: [5, 19], mass: [5, 3], time: [18, 18], torque: [50, 68],
    current: [0, 0], voltage: [0, 0], resistance: [0, 0], power: [5, 5], delay: [5, 5], distance: [50, 81], count: [0, 0], times: [0, 0], share: [0, 0], rate: [0, 0],
  }
  const value = fc.oneof(fc.integer({ min: 0, max: 50_000 }), fc.integer({ min: 0, max: 2_000_000_000 }))
  for (const kind of KINDS) {
    fc.assert(fc.property(value, fc.constantFrom<MeasuringSystem>('metric', 'inch'), (amount, system) => {
      const back = valueOf(formatQuantity(amount, kind, system), kind)
      return Math.abs(Number(back) - amount) <= steps[kind][system === 'metric' ? 0 : 1]
    }), SEEDED)
  }
})

t.test('an entry kept reads the same whatever the default unit has become', async () => {
  const entry = fc.record({ kind: fc.constantFrom(...KINDS), whole: fc.integer({ min: 1, max: 900 }), top: fc.integer({ min: 0, max: 63 }), isBare: fc.boolean() })
  fc.assert(fc.property(entry, ({ kind, whole, top, isBare }) => {
    const number = kind === 'count' || top === 0 ? `${whole}` : `${whole} ${top}/64`
    const first = parseQuantity(isBare ? number : `${number} ${defaultUnit(kind, 'inch')}`, kind, defaultUnit(kind, 'metric'))
    const again = first.ok && parseQuantity(first.entered, kind, defaultUnit(kind, 'inch'))
    return first.ok && again !== false && again.ok && again.value === first.value && again.entered === first.entered
  }), SEEDED)
})

t.test('no text whatever makes it fail or store nonsense', async () => {
  const text = fc.oneof(fc.string({ unit: 'grapheme' }), fc.string({ unit: fc.constantFrom(...'0123456789 .,/-\'":½²³ftinmhkgN·mΩ') }))
  fc.assert(fc.property(text, fc.constantFrom(...KINDS), (typed, kind) => {
    const read = parseQuantity(typed, kind, defaultUnit(kind, 'inch'))
    return read.ok ? Number.isInteger(read.value) && read.value >= 0 && read.value <= LARGEST_INTEGER : read.message.length > 10
  }), SEEDED)
})
