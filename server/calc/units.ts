import type { AmountKind } from './amounts.ts'

/** Every kind of amount but money, which has currencies instead of units. */
export type QuantityKind = Exclude<AmountKind, 'money'>

export type MeasuringSystem = 'metric' | 'inch'

/** One of this unit is exactly numerator/denominator of the kind's canonical integer. */
export interface Unit {
  readonly symbol: string
  readonly numerator: bigint
  readonly denominator: bigint
  /** How many decimals a figure in this unit shows at most. */
  readonly decimals: number
  readonly spellings: readonly string[]
}

/**
 * The units people may write, by kind. Factors are exact by definition (16 CFR 500.19;
 * pound-force from the pound and standard gravity 9.80665 m/s²). A day is 24 elapsed hours.
 */
export const UNITS: Readonly<Record<QuantityKind, readonly Unit[]>> = {
  length: [
    unit('µm', 1n, 1n, 0, 'um', 'micron', 'microns'),
    unit('mm', 1_000n, 1n, 2, 'millimeter', 'millimeters'),
    unit('cm', 10_000n, 1n, 2, 'centimeter', 'centimeters'),
    unit('m', 1_000_000n, 1n, 3, 'meter', 'meters'),
    unit('in', 25_400n, 1n, 3, '"', 'inch', 'inches'),
    unit('ft', 304_800n, 1n, 2, "'", 'foot', 'feet'),
    unit('yd', 914_400n, 1n, 2, 'yard', 'yards'),
  ],
  area: [
    unit('mm²', 1n, 1n, 0, 'sqmm'),
    unit('cm²', 100n, 1n, 1, 'sqcm'),
    unit('m²', 1_000_000n, 1n, 3, 'sqm'),
    unit('in²', 64_516n, 100n, 2, 'sqin'),
    unit('ft²', 9_290_304n, 100n, 2, 'sqft'),
    unit('yd²', 83_612_736n, 100n, 2, 'sqyd'),
  ],
  volume: [
    unit('mL', 1n, 1n, 0, 'cc', 'cm³', 'milliliter', 'milliliters'),
    unit('L', 1_000n, 1n, 2, 'liter', 'liters'),
    unit('in³', 16_387_064n, 1_000_000n, 1, 'cuin'),
    unit('ft³', 28_316_846_592n, 1_000_000n, 3, 'cuft'),
    unit('fl oz', 295_735_295_625n, 10_000_000_000n, 1),
    unit('gal', 3_785_411_784n, 1_000_000n, 2, 'gallon', 'gallons'),
  ],
  mass: [
    unit('g', 1n, 1n, 0, 'gram', 'grams'),
    unit('kg', 1_000n, 1n, 2, 'kilo', 'kilos', 'kilogram', 'kilograms'),
    unit('oz', 28_349_523_125n, 1_000_000_000n, 1, 'ounce', 'ounces'),
    unit('lb', 45_359_237n, 100_000n, 2, 'lbs', 'pound', 'pounds'),
  ],
  time: [
    unit('s', 1n, 1n, 0, 'sec', 'secs', 'second', 'seconds'),
    unit('min', 60n, 1n, 1, 'mins', 'minute', 'minutes'),
    unit('h', 3_600n, 1n, 2, 'hr', 'hrs', 'hour', 'hours'),
    unit('d', 86_400n, 1n, 1, 'day', 'days'),
  ],
  torque: [
    unit('mN·m', 1n, 1n, 0),
    unit('N·cm', 10n, 1n, 0),
    unit('N·m', 1_000n, 1n, 1, 'newtonmeter', 'newtonmeters'),
    unit('lbf·in', 1_129_848_290_276_167n, 10_000_000_000_000n, 1, 'inlb', 'inlbs', 'inlbf', 'lbin', 'lbsin', 'inchpounds'),
    unit('lbf·ft', 13_558_179_483_314_004n, 10_000_000_000_000n, 1, 'ftlb', 'ftlbs', 'ftlbf', 'lbft', 'lbsft', 'footpounds'),
  ],
  current: [unit('mA', 1n, 1n, 0), unit('A', 1_000n, 1n, 3, 'amp', 'amps', 'ampere', 'amperes')],
  voltage: [unit('mV', 1n, 1n, 0), unit('V', 1_000n, 1n, 3, 'volt', 'volts')],
  resistance: [unit('mΩ', 1n, 1n, 0, 'mohm', 'milliohm', 'milliohms'), unit('Ω', 1_000n, 1n, 3, 'ohm', 'ohms')],
  power: [unit('mW', 1n, 1n, 0), unit('W', 1_000n, 1n, 2, 'watt', 'watts'), unit('kW', 1_000_000n, 1n, 3)],
  delay: [unit('µs', 1n, 1n, 0, 'us'), unit('ms', 1_000n, 1n, 2)],
  distance: [
    unit('m', 1n, 1n, 0, 'meter', 'meters'),
    unit('km', 1_000n, 1n, 1, 'kilometer', 'kilometers'),
    unit('mi', 1_609_344n, 1_000n, 1, 'mile', 'miles'),
  ],
  count: [unit('pcs', 1n, 1n, 0, 'pc', 'piece', 'pieces', 'ea', 'each')],
  times: [unit('×', 1_000n, 1n, 3, 'x', 'times')],
  share: [unit('%', 10n, 1n, 1, 'percent')],
  rate: [unit('%', 1_000n, 1n, 3, 'percent')],
}

/** Kinds of quantity with words and an example for messages. */
export const KIND_WORDS: Readonly<Record<QuantityKind, { readonly noun: string, readonly example: string }>> = {
  length: { noun: 'a length', example: '595 mm or 23 7/16 in' },
  area: { noun: 'an area', example: '1.5 m² or 16 ft²' },
  volume: { noun: 'a volume', example: '2.5 L or 1.25 ft³' },
  mass: { noun: 'a mass', example: '12.5 kg or 27.5 lb' },
  time: { noun: 'a time', example: '2.5 h, 2:30 or 2 h 30 min' },
  torque: { noun: 'a torque', example: '9 N·m or 6.6 lbf·ft' },
  current: { noun: 'a current', example: '40 A or 350 mA' },
  voltage: { noun: 'a voltage', example: '12.6 V or 350 mV' },
  resistance: { noun: 'a resistance', example: '4 Ω or 4 ohm' },
  power: { noun: 'a power', example: '100 W' },
  delay: { noun: 'a delay', example: '1.75 ms' },
  distance: { noun: 'a distance', example: '45,120 km or 28,036 mi' },
  count: { noun: 'a number of pieces', example: '12' },
  times: { noun: 'a quantity', example: '1.5' },
  share: { noun: 'a percentage', example: '25 %' },
  rate: { noun: 'a rate', example: '7.25 %' },
}

const DEFAULT_UNITS: Readonly<Record<QuantityKind, readonly [metric: string, inch: string]>> = {
  length: ['mm', 'in'], area: ['m²', 'ft²'], volume: ['L', 'gal'], mass: ['kg', 'lb'], time: ['h', 'h'],
  torque: ['N·m', 'lbf·ft'], current: ['A', 'A'], voltage: ['V', 'V'], resistance: ['Ω', 'Ω'],
  power: ['W', 'W'], delay: ['ms', 'ms'], distance: ['km', 'mi'], count: ['pcs', 'pcs'], times: ['×', '×'], share: ['%', '%'], rate: ['%', '%'],
}

/**
 * The unit a bare number is taken to be in, by its symbol.
 *
 * @example defaultUnit('torque', 'inch') // 'lbf·ft'
 */
export function defaultUnit(kind: QuantityKind, system: MeasuringSystem): string {
  const [metric, inch] = DEFAULT_UNITS[kind]
  return system === 'metric' ? metric : inch
}

/** The unit of a kind written this way in any accepted spelling, or null. */
export function findUnit(kind: QuantityKind, text: string): Unit | null {
  return BY_SPELLING[kind].get(compact(text)) ?? null
}

/** The unit of a kind. Throws a RangeError for one the kind does not have. */
export function getUnit(kind: QuantityKind, text: string): Unit {
  const found = findUnit(kind, text)
  if (found === null) throw new RangeError(`${text} is not a unit of ${kind}`)
  return found
}

/** The kind of quantity that a unit measures, or null when the unit is unknown. */
export function findKind(text: string): QuantityKind | null {
  return KINDS.find(kind => findUnit(kind, text) !== null) ?? null
}

const KINDS = Object.keys(UNITS) as QuantityKind[]

const BY_SPELLING = Object.fromEntries(KINDS.map(kind => [kind, spelled(UNITS[kind])])) as
  Record<QuantityKind, ReadonlyMap<string, Unit>>

function spelled(units: readonly Unit[]): ReadonlyMap<string, Unit> {
  return new Map(units.flatMap(each => [each.symbol, ...each.spellings].map(text => [compact(text), each] as const)))
}

/** One form for "ft-lb", "ft lb" and "Ft·Lb". A capital M of MΩ, MA, MV or MW stays: it says mega, which no unit here is. */
function compact(text: string): string {
  const plain = text
    .replace(/[\s·⋅∙•*.-]/g, '')
    .replace('²', '2')
    .replace('³', '3')
    .replace('\u2126', '\u03a9')
    .replace('\u03bc', '\u00b5')
  return /^M(?:[AVWΩ]|ohm)/.test(plain) ? plain : plain.toLowerCase()
}

function unit(symbol: string, numerator: bigint, denominator: bigint, decimals: number, ...spellings: string[]): Unit {
  return { symbol, numerator, denominator, decimals, spellings }
}
