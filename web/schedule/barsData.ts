/** One build's plan as its page shows it. */
export interface BarsData {
  readonly build: string
  readonly buildHref: string
  readonly title: string
  /** Null where no plan is in force, or none of it is of this build; then `empty` says why. */
  readonly plan: BuildPlan | null
  readonly empty: string
}

export interface BuildPlan {
  /** When the plan was taken, and whether things have changed since. */
  readonly takenAt: string
  readonly isStale: boolean
  /** Days; empty where there is none. */
  readonly endsOn: string
  readonly promisedOn: string
  readonly against: string
  readonly isLate: boolean
  /** Even chance, 80 and 90 in 100, where somebody is unsure of something. */
  readonly chances: readonly { readonly name: string, readonly day: string }[]
  readonly chain: string
  readonly leftOut: readonly string[]
  readonly drawn: readonly BarsDrawing[]
  /** Said below the drawing: marks that lie outside of it. */
  readonly beyond: string
  readonly groups: readonly { readonly zone: string, readonly rows: readonly BarRow[] }[]
  readonly views: readonly { readonly name: string, readonly href: string, readonly isShown: boolean }[]
  /** The rest of the page's address, for its figures. */
  readonly address: string
}

/** One operation. */
export interface BarRow {
  readonly number: number
  readonly name: string
  readonly href: string
  readonly when: string
  readonly who: string
  /** What it comes after by this plan. */
  readonly after: string
  readonly isOnChain: boolean
  /** Written out, each with what it opens by; null where nothing depends on it. */
  readonly slack: { readonly text: string, readonly how: string } | null
  readonly toPromise: { readonly text: string, readonly how: string } | null
  readonly logged: string
}

/** As many rows as stay together on a sheet of paper, under an axis of their own. */
export interface BarsDrawing {
  readonly name: string
  readonly width: number
  readonly height: number
  readonly left: number
  readonly days: readonly { readonly x: number, readonly width: number, readonly isOpen: boolean }[]
  readonly labels: readonly { readonly x: number, readonly text: string }[]
  readonly heads: readonly { readonly y: number, readonly text: string }[]
  readonly rows: readonly DrawnRow[]
  readonly marks: readonly { readonly x: number, readonly kind: 'promise' | 'chance', readonly text: string, readonly line: number, readonly isLeft: boolean }[]
  readonly now: { readonly x: number, readonly text: string } | null
}

/** From and width, in the drawing's unit. */
export type Span = readonly [x: number, width: number]

export interface DrawnRow {
  readonly number: number
  readonly y: number
  readonly label: string
  readonly bar: Span
  readonly isOnChain: boolean
  readonly logged: readonly Span[]
  readonly rework: readonly Span[]
  readonly wait: Span | null
  readonly outside: Span | null
}
