/** Where a frozen paper stands: open papers alone can be consented to. */
export type PaperStanding = 'open' | 'accepted' | 'declined' | 'withdrawn' | 'superseded' | 'expired'

export interface StandingPaper {
  readonly decision: 'accepted' | 'declined' | null
  readonly isWithdrawn: boolean
  /** A newer revision of the same paper was frozen. */
  readonly isReplaced: boolean
  /** Last day it is good for, as 2031-03-30. */
  readonly validUntil: string
}

/**
 * The standing of a frozen paper on a calendar date of the shop; the last day still counts. What was answered stays
 * answered. Source: common practice, no source; local law decides how long a shop is bound.
 *
 * @example standingOf({ decision: null, isWithdrawn: false, isReplaced: false, validUntil: '2031-03-30' }, '2031-03-31') // 'expired'
 */
export function standingOf({ decision, isWithdrawn, isReplaced, validUntil }: StandingPaper, today: string): PaperStanding {
  if (decision) return decision
  if (isWithdrawn) return 'withdrawn'
  if (isReplaced) return 'superseded'
  return today > validUntil ? 'expired' : 'open'
}
