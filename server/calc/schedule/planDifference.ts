/** Work in a plan, as far as plans are compared. Instants as ISO text in UTC. */
export interface PlannedHere {
  readonly operationId: string
  readonly buildId: string
  readonly name: string
  readonly startsAt: string
  readonly endsAt: string
  readonly hours: readonly { readonly fromAt: string, readonly toAt: string }[]
  readonly personIds: readonly string[]
  readonly bayId: string | null
  /** Being worked on at the moment the plan was made. */
  readonly isRunning: boolean
}

export interface ComparedPlan {
  /** Nothing is planned before. */
  readonly fromAt: string
  readonly builds: readonly { readonly buildId: string, readonly name: string, readonly endsAt: string | null, readonly dueAt: string | null }[]
  readonly work: readonly PlannedHere[]
  readonly leftOut: readonly { readonly operationId: string }[]
}

/** What became of one operation: “longer” begins when it was to begin, by the same people, and ends later. */
export interface WorkDifference {
  readonly is: 'moved' | 'new' | 'longer' | 'shorter' | 'left out'
  readonly before: PlannedHere | null
  readonly after: PlannedHere | null
}

export interface BuildDifference {
  readonly buildId: string
  readonly name: string
  readonly before: string | null
  readonly after: string | null
  readonly dueAt: string | null
  /** When it was due by the plan before; left out where that is the same. */
  readonly wasDueAt?: string | null
}

/** Something of somebody's day that is no longer as that person was told. */
export interface DayDifference {
  readonly personId: string
  readonly operationId: string
  readonly buildId: string
  readonly name: string
  /** When it was and is to be begun or gone on with on that day; null: not on that day. */
  readonly before: string | null
  readonly after: string | null
}

export interface PlanDifference {
  /** In the order of the new plan. */
  readonly work: readonly WorkDifference[]
  readonly builds: readonly BuildDifference[]
  readonly today: readonly DayDifference[]
}

/**
 * What a new plan changes of the one in force, and of whose day, which ends at an instant. What is no longer in the new
 * plan is done, unless it was left out; work that was to begin before the new plan and goes on counts as moved only where
 * it goes to others or ends later.
 *
 * Source: ours, no source.
 */
export function comparePlans(before: ComparedPlan, after: ComparedPlan, dayEndsAt: string): PlanDifference {
  const was = new Map(before.work.map((one) => [one.operationId, one]))
  const out = new Set(after.leftOut.map(({ operationId }) => operationId))
  const endsBefore = new Map(before.builds.map((build) => [build.buildId, build]))
  const inOrder = [...after.work].sort((one, other) => (one.startsAt < other.startsAt ? -1 : Number(one.startsAt > other.startsAt)))
  return {
    work: [
      ...inOrder.flatMap((one): WorkDifference[] => {
        const is = whatOf(was.get(one.operationId) ?? null, one, after.fromAt)
        return is === null ? [] : [{ is, before: was.get(one.operationId) ?? null, after: one }]
      }),
      ...before.work.filter(({ operationId }) => out.has(operationId)).map((one): WorkDifference => ({ is: 'left out', before: one, after: null })),
    ],
    builds: after.builds.map(({ buildId, name, endsAt, dueAt }) => ({ buildId, name, dueAt, before: endsBefore.get(buildId)?.endsAt ?? null, after: endsAt })).filter(({ before: old, after: now }) => old !== now),
    today: compareDays(before, after, dayEndsAt),
  }
}

function whatOf(was: PlannedHere | null, now: PlannedHere, fromAt: string): WorkDifference['is'] | null {
  if (was === null) return 'new'
  // What nobody has to work on any more, as what is away, only waits.
  if (was.hours.length === 0 && now.hours.length === 0) return null
  const isSame = sameOf(was.personIds, now.personIds) && was.bayId === now.bayId
  const hadBegun = was.startsAt < fromAt
  if (!isSame || (hadBegun ? now.endsAt > was.endsAt : now.startsAt !== was.startsAt)) return 'moved'
  return now.endsAt > was.endsAt ? 'longer' : now.endsAt < was.endsAt ? 'shorter' : null
}

/** A plan is made of quarter hours: so much later is where the clock has gone on, and no other day. */
const GRAIN_MS = 900_000

/**
 * One person after the other: what is no longer on that day, comes to it, or is begun at another time. What runs already, or
 * is a quarter hour later, is no news to anybody.
 */
function compareDays(before: ComparedPlan, after: ComparedPlan, dayEndsAt: string): DayDifference[] {
  const now = new Map(after.work.map((one) => [one.operationId, one]))
  const out = new Set(after.leftOut.map(({ operationId }) => operationId))
  const were = startsOfDay(before.work, after.fromAt, dayEndsAt)
  const are = startsOfDay(after.work, after.fromAt, dayEndsAt)
  const keys = [...new Set([...were.keys(), ...are.keys()])]
  return keys.flatMap((key): DayDifference[] => {
    const [old, one] = [were.get(key), are.get(key)]
    const { operationId, buildId, name } = (one ?? old)!.work
    const current = now.get(operationId)
    const isDone = current === undefined && !out.has(operationId)
    if (isDone || current?.isRunning || (old && one && isSoonAfter(old.at, one.at))) return []
    return [{ personId: (one ?? old)!.personId, operationId, buildId, name, before: old?.at ?? null, after: one?.at ?? null }]
  }).sort((one, other) => compareText(one.personId, other.personId) || compareText(one.after ?? one.before ?? '', other.after ?? other.before ?? ''))
}

const isSoonAfter = (was: string, is: string): boolean => Date.parse(is) >= Date.parse(was) && Date.parse(is) - Date.parse(was) <= GRAIN_MS

interface DayStart {
  readonly personId: string
  readonly work: PlannedHere
  readonly at: string
}

/** When each person is to begin or go on with each operation from an instant to another, by person and operation. */
function startsOfDay(work: readonly PlannedHere[], fromAt: string, toAt: string): Map<string, DayStart> {
  return new Map(work.flatMap((one) => {
    const first = one.hours.find((stretch) => stretch.toAt > fromAt && stretch.fromAt < toAt)
    if (first === undefined) return []
    const at = first.fromAt < fromAt ? fromAt : first.fromAt
    return one.personIds.map((personId) => [`${personId} ${one.operationId}`, { personId, work: one, at }] as const)
  }))
}

const sameOf = (one: readonly string[], other: readonly string[]): boolean => one.length === other.length && one.every((id) => other.includes(id))
const compareText = (one: string, other: string): number => (one < other ? -1 : Number(one > other))
