/** One shop's plan as its page shows it. */
export interface ScheduleData {
  /** When and from what it was made; null where there is none yet. */
  readonly made: { readonly at: string, readonly isStale: boolean, readonly tries: number, readonly proof: string } | null
  readonly isSearching: boolean
  readonly failure: string
  /** Why nothing could be planned. */
  readonly noPlan: readonly string[]
  readonly builds: readonly PlannedBuild[]
  readonly leftOut: readonly { readonly build: string, readonly why: string }[]
  readonly week: WeekData | null
  readonly planKey: string
  readonly stopKey: string
}

export interface PlannedBuild {
  readonly name: string
  readonly href: string
  /** A day; empty where it cannot be planned to its end. */
  readonly endsOn: string
  readonly dueOn: string
  readonly state: 'in time' | 'late' | 'no date promised' | 'no end'
  readonly words: string
  /** Days by which it ends in half, in 80 and in 90 of 100 cases; null until they are worked out. */
  readonly chances: readonly string[] | null
  /** How many of 100 cases keep the promise; empty without one. */
  readonly kept: string
}

export interface WeekData {
  readonly title: string
  readonly days: readonly { readonly name: string, readonly date: string }[]
  readonly people: readonly WeekRow[]
  readonly bays: readonly WeekRow[]
  readonly earlierHref: string
  readonly laterHref: string
}

/** A person or a bay, with what is planned day by day. */
export interface WeekRow {
  readonly name: string
  readonly days: readonly (readonly Planned[])[]
}

export interface Planned {
  readonly what: string
  readonly href: string
  /** From and to on that day, 08:00 to 11:30; empty for a whole day. */
  readonly times: string
}
