import type { CheckLimits, Limit } from '../calc/checks/checkLimits.ts'
import type { CheckPoint, Measure } from '../calc/checks/checkPoints.ts'
import { formatQuantity } from '../calc/figures.ts'
import { gainTarget } from '../calc/gainTarget.ts'
import { parseQuantity } from '../calc/quantities.ts'
import { Refusal } from '../calc/refusal.ts'
import { roundHalfAway } from '../calc/rounding.ts'
import { defaultUnit, type MeasuringSystem, type QuantityKind } from '../calc/units.ts'
import { invalid } from '../shared/problems.ts'

export const kindOf = (measures: Measure): QuantityKind => (measures === 'gain' ? 'voltage' : measures)

/** What a bare number is taken to be in: a key-off current is never told in amperes. */
export const unitOf = (measures: Measure, system: MeasuringSystem): string => (measures === 'current' ? 'mA' : defaultUnit(kindOf(measures), system))

export interface Typed {
  readonly value: number | null
  /** As it was typed; empty where nothing was. */
  readonly text: string
}

const LONGEST = 60

/** A measured value as it was typed, or the canonical whole number of the API. Throws beside its field. */
export function readMeasured(field: string, label: string, raw: string | number, kind: QuantityKind, unit: string): Typed {
  if (typeof raw === 'number') {
    if (!Number.isSafeInteger(raw) || raw < 0 || raw > 2_147_483_647) throw invalid(field, `${label}: a number is a whole one in the canonical unit. Or send a text with its unit.`)
    return { value: raw, text: formatQuantity(raw, kind, 'metric') }
  }
  if (raw.trim() === '') return { value: null, text: '' }
  if (raw.length > LONGEST) throw invalid(field, `${label} is too long to be a measured value.`)
  const read = parseQuantity(raw, kind, unit)
  if (!read.ok) throw invalid(field, `${label}: ${read.message}`)
  if (read.value < 0) throw invalid(field, `${label} is not below nothing.`)
  return { value: read.value, text: read.entered }
}

/** As "at most 50 mA"; empty where the point has no limit. */
export function limitInWords({ measures, limit }: Pick<CheckPoint, 'measures' | 'limit'>, system: MeasuringSystem): string {
  if (measures === null || limit === null) return ''
  const write = (value: number): string => formatQuantity(value, kindOf(measures), system)
  if (limit.least === null) return limit.most === null ? '' : `at most ${write(limit.most)}`
  return limit.most === null ? `at least ${write(limit.least)}` : `from ${write(limit.least)} to ${write(limit.most)}`
}

/** The voltages around the target of a gain, or null while power and load are not both known. Throws where no amplifier has them. */
export function gainLimit(powerMw: number | null, loadMohm: number | null, { gainTolerance }: CheckLimits): Limit | null {
  if (powerMw === null || loadMohm === null) return null
  try {
    const target = gainTarget(powerMw, loadMohm)
    const either = roundHalfAway(target * gainTolerance / 1000)
    return { least: target - either, most: target + either, source: 'target √(power × load), tolerance by common practice, no source' }
  } catch (error) {
    if (error instanceof Refusal) throw invalid('power', error.message)
    throw error
  }
}
