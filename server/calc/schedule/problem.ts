/**
 * What is to be planned, in ticks counted from one moment. A tick is as long as the caller says; a shop takes a quarter
 * hour, a published problem a day.
 *
 * Taken for granted: an activity is worked by one and the same team from start to end; its hours are known; people and
 * machines are there or not by the tick; what waits (cure, transport) waits on calendar time and needs nobody. A bay holds
 * one vehicle and is closed at a tick at which there is none of it; a vehicle that stands in a closed bay may still be worked
 * on where that has begun, and be rolled out. Whoever is near rolls a vehicle in and out: it takes
 * up the bay and nobody's hours, at any hour; outside there is room for all. A vehicle stays in its bay until another
 * needs it, and leaves after the last of its work.
 *
 * Source: project scheduling with limited resources (Pritsker, Watters and Wolfe 1969, from memory); bays, pauses and
 * waiting are common practice, no source.
 */
export interface ScheduleProblem {
  readonly resources: readonly Resource[]
  readonly activities: readonly Activity[]
  /** Vehicles, each in one bay at a time. */
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
  /** Afterwards, until what waits on it is over and the next activity in the vehicle begins, the vehicle cannot be moved. */
  readonly keepsIn: boolean
  /**
   * Begun: where it started, and with which resources, whatever the calendars say. Without resources: pinned to its start,
   * with whom of those it needs is free then.
   */
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
  /** Taken through pauses as well, as a machine with the work on it; while the machine itself is closed the work stays on it. */
  readonly isHeld: boolean
}

/** One vehicle with all that is done in it: a bay is its own, nights and waiting included, until it is rolled out. */
export interface Stay {
  readonly name: string
  /** The bays it can have, one at a time. */
  readonly anyOf: readonly number[]
  /** The vehicle stands in the first of these bays already. */
  readonly isInAlready: boolean
  /** Nothing done in it so far keeps it in: it may be rolled out before the next activity in it. */
  readonly mayRollOutNow: boolean
  /** Ticks in which a bay is taken up by rolling the vehicle in, and as many by rolling it out. */
  readonly rollTicks: number
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

/** When a vehicle has which bay: from the beginning of its rolling in to the end of its rolling out. */
export interface Visit {
  readonly stay: number
  readonly bay: number
  readonly fromTick: number
  readonly toTick: number
}

export interface Schedule {
  /** In the order of the problem's activities. */
  readonly placed: readonly PlacedActivity[]
  /** In the order of the problem's stays, each vehicle's in the order of time. */
  readonly visits: readonly Visit[]
  /** Weighted ticks of delay, over all that somebody waits for. */
  readonly delay: number
  /** The tick after the last work of all. */
  readonly endTick: number
}
