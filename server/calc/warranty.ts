import { addMonths, type CalendarDate } from './calendar.ts'

export interface WarrantyInput {
  /** Null before delivery: then no warranty runs. */
  readonly deliveredOn: CalendarDate | null
  /** The maker's, as the catalog states it; null where nobody noted it. */
  readonly months: number | null
  /** The date a replacement brought with it, which then holds instead. */
  readonly replacementUntil: CalendarDate | null
}

export interface Warranty {
  /** The last day on which it holds; null where none is known. */
  readonly until: CalendarDate | null
  /** How that date comes about, or why there is none, in words. */
  readonly how: string
}

/**
 * The last day of a maker's warranty: calendar months from delivery, the same day of the month or the
 * last there is (as java.time's LocalDate.plusMonths is documented), that day included. A replacement's
 * own date goes before it. When a warranty begins is for the maker's terms; from delivery is common practice.
 *
 * @example warrantyOf({ deliveredOn: '2027-03-31', months: 6, replacementUntil: null }).until // '2027-09-30'
 */
export function warrantyOf({ deliveredOn, months, replacementUntil }: WarrantyInput): Warranty {
  if (replacementUntil !== null) return { until: replacementUntil, how: 'the replacement’s own date' }
  if (months === null) return { until: null, how: 'not recorded in the catalog' }
  if (deliveredOn === null) return { until: null, how: `${inMonths(months)} from delivery` }
  return { until: addMonths(deliveredOn, months), how: `delivered ${deliveredOn} + ${inMonths(months)}` }
}

const inMonths = (months: number): string => `${months} ${months === 1 ? 'month' : 'months'}`

/**
 * Whether a claim of a day comes after the warranty; false where no end is known.
 *
 * @example isOutside({ until: '2027-09-30', how: '' }, '2027-09-30') // false
 */
export const isOutside = ({ until }: Warranty, claimedOn: CalendarDate): boolean => until !== null && claimedOn > until
