import type { Depth } from './access.ts'
import { scaleHalfAway } from '../rounding.ts'

/**
 * What loosening takes of the time of taking out, and making fast again of the time of putting back:
 * half. An assumption of ours, no source; it stands in every working that uses it.
 */
export const LOOSENING_SHARE_THOUSANDTHS = 500

/** Seconds at a depth. @example secondsAt(601, 'loosened') // 301 */
export function secondsAt(wholeS: number, depth: Depth): number {
  return depth === 'out' ? wholeS : scaleHalfAway(wholeS, LOOSENING_SHARE_THOUSANDTHS, 1000)
}
