/** What a thing of a build was estimated at and will come to, minor units without tax. */
export interface Overrunning {
  readonly label: string
  /** How a line over it is taxed; labor unless it says otherwise. */
  readonly taxedAs?: 'labor' | 'material'
  readonly estimatedMinor: number
  readonly forecastMinor: number
}

export interface OverrunLine {
  readonly label: string
  readonly amountMinor: number
  /** What no single thing explains, as an estimate that was changed since. */
  readonly isRest: boolean
  readonly taxedAs?: 'labor' | 'material'
}

/**
 * The lines of a change order over what is missing from the accepted total: each thing whose forecast is over its
 * estimate with the difference, the largest first, cut off where the missing amount is reached; what remains stands as
 * one line. They sum to what is missing; none when nothing is. Minor units.
 *
 * Source: common practice, no source.
 * @example overrunLines([{ label: 'pod', estimatedMinor: 100, forecastMinor: 180 }], 50) // [{ label: 'pod', amountMinor: 50, isRest: false }]
 */
export function overrunLines(things: readonly Overrunning[], missingMinor: number): OverrunLine[] {
  const causes = things.map(({ estimatedMinor, forecastMinor, ...named }) => ({ named, over: forecastMinor - estimatedMinor }))
    .filter(({ over }) => over > 0).sort((one, other) => other.over - one.over)
  let left = Math.max(missingMinor, 0)
  const lines = causes.flatMap(({ named, over }): OverrunLine[] => {
    const amountMinor = Math.min(over, left)
    left -= amountMinor
    return amountMinor === 0 ? [] : [{ ...named, amountMinor, isRest: false }]
  })
  return left === 0 ? lines : [...lines, { label: 'Further than what was accepted', amountMinor: left, isRest: true }]
}
