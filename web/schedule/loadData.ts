export interface LoadData {
  /** Why there is nothing to show; empty where there is. */
  readonly empty: string
  readonly takenAt: string
  readonly isStale: boolean
  readonly weeks: readonly { readonly name: string, readonly href: string }[]
  /** The departments, the whole shop last. */
  readonly rows: readonly LoadRow[]
  /** As "Week of Mon 30 Nov: Wood room 46.0 h of 40.0 h". */
  readonly overloaded: readonly string[]
  readonly overdue: readonly { readonly build: string, readonly href: string, readonly words: string }[]
  readonly scaleS: number
}

export interface LoadRow {
  readonly name: string
  readonly isShop: boolean
  readonly weeks: readonly WeekCell[]
}

export interface WeekCell {
  readonly plannedS: number
  readonly thereS: number
  readonly isOver: boolean
  /** What the figures open by. */
  readonly how: string
}
