/**
 * An amount as every calculation passes it on: a canonical integer and what it measures.
 *
 * Units by kind: length µm, area mm², volume mL, mass g, time s, torque mN·m, current mA,
 * voltage mV, resistance mΩ, power mW, delay µs, distance m (odometer), money minor units of the shop's currency,
 * count pieces, times thousandths of one (1500 = 1.5), share thousandths (250 = 25 %), rate thousandths of a percent (7250 = 7.25 %).
 */
export interface Amount {
  readonly kind: AmountKind
  readonly value: number
}

export type AmountKind =
  | 'length' | 'area' | 'volume' | 'mass' | 'time' | 'torque' | 'current' | 'voltage'
  | 'resistance' | 'power' | 'delay' | 'distance' | 'money' | 'count' | 'times' | 'share' | 'rate'

/** Largest legal stored value of any quantity: what a signed 32-bit column holds. */
export const LARGEST_INTEGER = 2_147_483_647

/** One line of a working: what went in, where it comes from, how much. */
export interface WorkingInput {
  readonly label: string
  readonly source: string
  readonly amount: Amount
}

/** How a figure comes about, ready to be shown behind "=" on a page or as a note on paper. */
export interface Working {
  readonly title: string
  readonly inputs: readonly WorkingInput[]
  readonly result: Amount
  readonly formula: string
  /** What is taken for granted, in plain words; empty when nothing is. */
  readonly assumed: string
  /** A published source, or "common practice, no source". */
  readonly source: string
}
