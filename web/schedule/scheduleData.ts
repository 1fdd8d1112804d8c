import type { PostProps } from '../shared/post.tsx'

/** One shop's plan as its page shows it. */
export interface ScheduleData {
  readonly standing: StandingData
  /** Public holidays in the next half year, and whose: a country or region, empty where none is set. */
  readonly holidays: { readonly region: string, readonly days: readonly string[] }
  readonly builds: readonly PlannedBuild[]
  readonly leftOut: readonly { readonly build: string, readonly why: string }[]
}

/** How the plan in force stands, and what is proposed beside it. */
export interface StandingData {
  /** Null where no plan was taken yet. */
  readonly inForce: {
    readonly at: string
    readonly by: string
    readonly reason: string
    readonly late: string
    /** What the plan was made from and is no longer so; empty where it still holds. */
    readonly changed: readonly string[]
    readonly goneOn: readonly string[]
    /** Work with more hours left than the plan has for it. */
    readonly overrun: readonly string[]
  } | null
  readonly proposals: readonly ProposalData[]
  readonly failure: string
  /** No operation is open in any build that takes time. */
  readonly isNothingToPlan: boolean
  /** Why no plan could be made. */
  readonly noPlan: readonly string[]
  /** Where there is more to do before a date than hours there are. */
  readonly overloaded: readonly string[]
  readonly change: PostProps | null
  /** Null where there is nothing to plan. */
  readonly anew: PostProps | null
  readonly stop: PostProps | null
}

/** One proposal in a row: what it gives. */
export interface ProposalData {
  readonly name: string
  readonly href: string
  readonly late: string
  readonly daysLate: string
  readonly moved: string
  readonly today: string
  readonly tries: string
  readonly proof: string
  readonly isSearching: boolean
  /** What has changed so that it no longer holds; empty where it does. */
  readonly spoiled: readonly string[]
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
  /** Its place in the plan, by which its chances open. */
  readonly place: number
}
