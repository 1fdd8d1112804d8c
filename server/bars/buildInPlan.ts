import { groupBy } from '../calc/grouping.ts'
import { linksByTaking, type TakingLink } from '../calc/schedule/planLinks.ts'
import type { OpenTime } from '../calc/schedule/openTime.ts'
import { chainOf, slackOf, type PlannedStep, type Slack } from '../calc/schedule/slack.ts'
import type { PlanContent, PlannedWork } from '../schedule/planContent.ts'

/** One build within the plan of the whole shop. */
export interface BuildInPlan {
  /** In the order of their beginning. */
  readonly work: readonly PlannedWork[]
  /** When the last of it ends, waits afterwards included. */
  readonly endMs: number
  readonly dueMs: number | null
  readonly toEnd: ReadonlyMap<string, Slack>
  /** Empty where nothing is promised. */
  readonly toPromise: ReadonlyMap<string, Slack>
  readonly chain: ReadonlySet<string>
  /** What each operation of the build comes after because it takes the same. */
  readonly taking: ReadonlyMap<string, readonly TakingLink[]>
}

const ms = (instant: string): number => Date.parse(instant)

/** How long nobody is needed after an operation: until it has cured, or is back from outside. */
export function waitAfterMs({ endsAt, dueBackAt }: PlannedWork, waitS: number): number {
  return Math.max(waitS * 1000, dueBackAt === null ? 0 : ms(dueBackAt) - ms(endsAt))
}

export interface Live {
  /** Seconds of curing after each operation. */
  readonly waits: ReadonlyMap<string, number>
  /** Machines of which there is one. */
  readonly single: ReadonlySet<string>
  readonly open: OpenTime
}

/** Null where nothing of the build is planned. */
export function findInPlan(content: PlanContent, buildId: string, { waits, single, open }: Live): BuildInPlan | null {
  const work = content.work.filter((one) => one.buildId === buildId).toSorted((one, other) => ms(one.startsAt) - ms(other.startsAt) || ms(one.endsAt) - ms(other.endsAt))
  if (work.length === 0) return null
  const byId = new Map(content.work.map((one) => [one.operationId, one]))
  const links = linksByTaking(content.work.map(({ operationId, startsAt, endsAt, machineId, ...rest }) => ({ ...rest, id: operationId, machineId: machineId !== null && single.has(machineId) ? machineId : null, startMs: ms(startsAt), endMs: ms(endsAt) })), content.visits.map(({ fromAt, toAt, ...rest }) => ({ ...rest, fromMs: ms(fromAt), toMs: ms(toAt) })))
  const taking = groupBy(links, ({ after }) => after)
  const steps = content.work.map(({ operationId, startsAt, endsAt, after }): PlannedStep => ({
    id: operationId, startMs: ms(startsAt), endMs: ms(endsAt),
    after: [
      ...after.flatMap((link) => (byId.has(link.operationId) ? [{ id: link.operationId, waitMs: waitAfterMs(byId.get(link.operationId)!, link.waitS) }] : [])),
      ...(taking.get(operationId) ?? []).map(({ before }) => ({ id: before, waitMs: 0 })),
    ],
  }))
  const build = content.builds.find((one) => one.buildId === buildId)
  const tailOf = (one: PlannedWork): number => waitAfterMs(one, waits.get(one.operationId) ?? 0)
  const endMs = Math.max(...work.map((one) => ms(one.endsAt) + tailOf(one)))
  const dueMs = build?.dueAt ? ms(build.dueAt) : null
  const upTo = (limit: number): Map<string, Slack> => slackOf(steps, new Map(work.map((one) => [one.operationId, limit - tailOf(one)])), open)
  const toEnd = upTo(endMs)
  return { work, endMs, dueMs, toEnd, toPromise: dueMs === null ? new Map() : upTo(dueMs), chain: chainOf(toEnd), taking }
}
