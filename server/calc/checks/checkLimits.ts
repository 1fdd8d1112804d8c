/** Limits of the final check, each an assumption that the shop may change. */
export interface CheckLimits {
  readonly restVoltageLeast: number
  readonly chargeVoltageLeast: number
  readonly chargeVoltageMost: number
  readonly loadVoltageLeast: number
  readonly keyOffMost: number
  readonly voltageDropMost: number
  /** Thousandths of the target voltage, either way. */
  readonly gainTolerance: number
}

export type LimitName = keyof CheckLimits

const UNSOURCED = 'common practice, no source'

/** mV, mA and thousandths, for a 12 V system; what the shop's settings say goes before them. */
export const USUAL_LIMITS: CheckLimits = {
  restVoltageLeast: 12_400, chargeVoltageLeast: 13_200, chargeVoltageMost: 15_000, loadVoltageLeast: 12_800, keyOffMost: 50, voltageDropMost: 360, gainTolerance: 50,
}

export const LIMIT_SOURCE: Readonly<Record<LimitName, string>> = {
  restVoltageLeast: UNSOURCED, chargeVoltageLeast: UNSOURCED, chargeVoltageMost: UNSOURCED, loadVoltageLeast: UNSOURCED, keyOffMost: UNSOURCED, gainTolerance: UNSOURCED,
  voltageDropMost: '3 % of 12 V, as a public page quotes ABYC E-11 for main feeders of boats',
}

/** The shop's own limits, the usual ones where it says nothing. */
export function limitsOf(own: Readonly<Partial<Record<LimitName, number | null>>>): CheckLimits {
  return Object.fromEntries(Object.entries(USUAL_LIMITS).map(([name, usual]) => [name, own[name as LimitName] ?? usual])) as unknown as CheckLimits
}

/** Smallest and largest value that is right; null where that side is open. */
export interface Limit {
  readonly least: number | null
  readonly most: number | null
  readonly source: string
}

/**
 * Whether a value lies inside its limit, both ends included. Same unit for all.
 *
 * @example isInside(50, { least: null, most: 50, source: '' }) // true
 */
export const isInside = (value: number, { least, most }: Limit): boolean => (least === null || value >= least) && (most === null || value <= most)
