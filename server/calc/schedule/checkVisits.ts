import type { PlacedActivity, ScheduleProblem, Stay, Visit } from './problem.ts'

/** All that is wrong with the vehicles in the bays of a plan, in words. Part of `checkSchedule`. */
export function checkVisits(problem: ScheduleProblem, placed: readonly PlacedActivity[], visits: readonly Visit[]): string[] {
  return [
    ...problem.stays.flatMap((stay, place) => checkStay(problem, stay, place, { placed, visits: visits.filter((visit) => visit.stay === place) })),
    ...problem.resources.flatMap((_, bay) => checkBay(problem, bay, { placed, visits: visits.filter((visit) => visit.bay === bay) })),
  ]
}

interface Planned {
  readonly placed: readonly PlacedActivity[]
  readonly visits: readonly Visit[]
}

interface Done extends PlacedActivity {
  readonly name: string
  readonly hasBegun: boolean
  /** Ticks from its end in which the vehicle must not move, whatever begins; null where it may. */
  readonly keepsFor: number | null
}

function checkStay(problem: ScheduleProblem, { name, anyOf, isInAlready, mayRollOutNow, rollTicks }: Stay, place: number, { placed, visits }: Planned): string[] {
  const done = problem.activities.flatMap((activity, at): Done[] => (activity.stay !== place ? [] : [{
    ...placed[at]!, name: activity.name, hasBegun: (activity.fixed?.resources.length ?? 0) > 0,
    keepsFor: activity.keepsIn ? Math.max(0, ...problem.activities.flatMap(({ after }) => after.filter(({ activity: earlier }) => earlier === at).map(({ lagTicks }) => lagTicks))) : null,
  }]))
  const told: string[] = []
  if (done.length === 0) return visits.length === 0 ? [] : [`${name} is in a bay for nothing`]
  const [first] = [...visits].sort((one, other) => one.fromTick - other.fromTick)
  if (isInAlready && (first?.fromTick !== 0 || first.bay !== anyOf[0])) told.push(`${name} is not where it stands`)
  for (const one of visits) {
    if (!anyOf.includes(one.bay)) told.push(`${name} is in a bay it cannot have`)
    if (visits.some((other) => other !== one && one.fromTick < other.toTick && other.fromTick < one.toTick)) told.push(`${name} is in two bays at once`)
  }
  for (const one of done) {
    const around = visits.filter(({ fromTick, toTick, bay }) => fromTick <= one.startTick && one.endTick <= toTick && one.resources.includes(bay))
    // What takes no time, where one visit ends and the next begins, is done in either.
    const faults = around.map((visit) => faultsIn(visit, one))
    if (around.length === 0) told.push(`${one.name} is done while ${name} is not in the bay`)
    else if (faults.every((found) => found.length > 0)) told.push(...faults[0]!)
  }
  const firstStart = Math.min(...done.map(({ startTick }) => startTick))
  if (isInAlready && !mayRollOutNow && first !== undefined && first.toTick - rollTicks < firstStart) told.push(`${name} is moved from where it is kept in`)
  return told

  function faultsIn(visit: Visit, one: Done): string[] {
    const isThere = (isInAlready && visit === first) || (one.hasBegun && visit.fromTick === 0)
    const leavesAt = visit.toTick - rollTicks
    return [
      ...(!isThere && one.startTick < visit.fromTick + rollTicks ? [`${one.name} begins while ${name} is rolled in`] : []),
      ...(one.endTick > leavesAt ? [`${one.name} goes on while ${name} is rolled out`] : []),
      ...(one.keepsFor !== null && one.endTick <= leavesAt && leavesAt < movableFrom(one, done) ? [`${name} is moved at ${leavesAt} while ${one.name} keeps it in`] : []),
    ]
  }
}

function movableFrom(keeper: Done, done: readonly Done[]): number {
  const laterStarts = done.filter((one) => one !== keeper && one.startTick >= keeper.endTick).map(({ startTick }) => startTick)
  return Math.max(keeper.endTick + keeper.keepsFor!, laterStarts.length === 0 ? 0 : Math.min(...laterStarts))
}

function checkBay(problem: ScheduleProblem, bay: number, { placed, visits }: Planned): string[] {
  const { resources, stays, horizonTicks } = problem
  const { name, capacity } = resources[bay]!
  const nameOf = ({ stay }: Visit): string => stays[stay]?.name ?? 'nobody'
  return visits.flatMap((one, place) => {
    const others = visits.slice(place + 1).filter((other) => other.fromTick < one.toTick && one.fromTick < other.toTick)
    const ticks = Array.from({ length: Math.max(0, Math.min(one.toTick, horizonTicks) - one.fromTick) }, (_, at) => one.fromTick + at)
    const { isInAlready, mayRollOutNow, rollTicks } = stays[one.stay] ?? NOBODY
    const goesOnUntil = Math.max(begunUntil(problem, placed, one), isInAlready && mayRollOutNow && one.fromTick === 0 ? rollTicks : -1)
    const closedAt = ticks.find((tick) => tick >= goesOnUntil && (typeof capacity === 'number' ? capacity : capacity[tick] ?? 0) < 1)
    return [
      ...others.map((other) => `${nameOf(one)} and ${nameOf(other)} are in one bay at once`),
      ...(closedAt === undefined ? [] : [`${nameOf(one)} is in ${name} at ${closedAt}, and it is closed`]),
      ...(one.toTick < one.fromTick ? [`${nameOf(one)} leaves ${name} before it comes`] : []),
    ]
  })
}

const NOBODY = { isInAlready: false, mayRollOutNow: false, rollTicks: 0 }

/** What has begun goes on in its bay and is rolled out of it, closed or not: until when; −1 where nothing in a visit has begun. */
function begunUntil({ activities, stays }: ScheduleProblem, placed: readonly PlacedActivity[], { stay, bay, fromTick, toTick }: Visit): number {
  const begun = placed.filter(({ startTick, endTick, resources }, at) => activities[at]!.stay === stay && (activities[at]!.fixed?.resources.length ?? 0) > 0 && resources.includes(bay) && fromTick <= startTick && endTick <= toTick)
  return Math.max(-1, ...begun.map(({ endTick }) => endTick + stays[stay]!.rollTicks))
}
