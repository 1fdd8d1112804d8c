/**
 * What is to be planned, in ticks counted from one moment. A tick is as long as the caller says; a shop takes a quarter
 * hour, a published problem a day.
 *
 * Taken for granted: an activity is worked by one and the same team from start to end; its hours are known; people and
 * machines are there or not by the tick; what waits (cure, transport) waits on calendar time and needs nobody.
 *
 * Source: project scheduling with limited resources (Pritsker, Watters and Wolfe 1969, from memory); bays, pauses and
 * waiting are common practice, no source.
 */
export interface ScheduleProblem {
  readonly resources: readonly Resource[]
  readonly activities: readonly Activity[]
  /** What a vehicle holds from the first activity in it to the last. */
  readonly stays: readonly Stay[]
  readonly ends: readonly End[]
  /** Nothing is planned from this tick on. */
  readonly horizonTicks: number
}

/** People one by one, bays, machines, or several of a kind. */
export interface Resource {
  readonly name: string
  /** How many there are: always, or by tick. */
  readonly capacity: number | Int16Array
}

export interface Activity {
  readonly name: string
  /** Ticks of work. */
  readonly work: number
  readonly after: readonly Earlier[]
  readonly needs: readonly Need[]
  readonly earliestTick: number
  /** Whether it may stop while its people are away, and go on with them. */
  readonly mayPause: boolean
  /** A place among `stays`, where it is done in a vehicle that holds its bay. */
  readonly stay: number | null
  /** Begun, or held in its place by the manager: where it starts, and with which resources. */
  readonly fixed: { readonly startTick: number, readonly resources: readonly number[] } | null
}

/** An activity that must be finished first, and the calendar ticks to wait after it. */
export interface Earlier {
  readonly activity: number
  readonly lagTicks: number
}

export interface Need {
  /** Which resources serve. Of one, `units` are taken; of several, one unit of each of `units` different ones. */
  readonly anyOf: readonly number[]
  readonly units: number
  /** Taken through pauses as well, as a machine with the work on it. */
  readonly isHeld: boolean
}

/** One vehicle in a bay, without being rolled out between: nights and waiting included. */
export interface Stay {
  readonly name: string
  readonly anyOf: readonly number[]
  /** The vehicle stands in the first of these bays already. */
  readonly isInAlready: boolean
}

/** What somebody waits for: an activity, by when it should be finished, and how much a tick of delay weighs. */
export interface End {
  readonly activity: number
  readonly dueTick: number
  readonly weight: number
}

export interface PlacedActivity {
  readonly startTick: number
  /** The tick after the last of its work. */
  readonly endTick: number
  /** What it takes, by place among the resources; the bay of its stay included. */
  readonly resources: readonly number[]
}

export interface Schedule {
  /** In the order of the problem's activities. */
  readonly placed: readonly PlacedActivity[]
  /** Weighted ticks of delay, over all that somebody waits for. */
  readonly delay: number
  /** The tick after the last work of all. */
  readonly endTick: number
}
