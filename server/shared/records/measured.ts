import { LARGEST_INTEGER } from '../../calc/amounts.ts'
import { parseQuantity } from '../../calc/quantities.ts'
import { defaultUnit, type QuantityKind } from '../../calc/units.ts'
import { invalid } from '../problems.ts'

const KIND_OF_FORM: Readonly<Record<string, QuantityKind>> = {
  each: 'count', length: 'length', area: 'area', volume: 'volume', mass: 'mass',
}

/** What the quantity of a material in this form measures. */
export const measuredKind = (form: unknown): QuantityKind => KIND_OF_FORM[String(form)] ?? 'count'

const EXAMPLES: Readonly<Record<QuantityKind, string>> = {
  count: '12', length: '2.4 m or 8 ft', area: '2.98 m² or 32 ft²', volume: '750 mL or 1 gal', mass: '1.5 kg or 3 lb',
} as Record<QuantityKind, string>

/** The canonical integer of a quantity typed with its unit, once its dimension is known. Throws FieldProblems. */
export function toMeasured(name: string, label: string, typed: unknown, form: unknown, least = 1): number {
  const kind = measuredKind(form)
  const value = typeof typed === 'number' ? typed : readText(name, label, String(typed), kind)
  if (value < least) throw invalid(name, `${label} is more than nothing, as ${EXAMPLES[kind]}.`)
  if (value > LARGEST_INTEGER) throw invalid(name, `${label} is larger than can be stored. Check the unit.`)
  return value
}

function readText(name: string, label: string, text: string, kind: QuantityKind): number {
  if (kind !== 'count' && /^[\d.,\s/]*$/.test(text)) throw invalid(name, `${label} needs its unit, as ${EXAMPLES[kind]}.`)
  const read = parseQuantity(text, kind, defaultUnit(kind, 'metric'))
  if (!read.ok) throw invalid(name, `${label}: ${read.message}`)
  return read.value
}
