import { groupBy } from '../calc/grouping.ts'
import type { Stretch } from '../calc/schedule/shopTicks.ts'
import type { OpenDays } from '../schedule/openDays.ts'
import type { PlanContent, PlannedWork } from '../schedule/planContent.ts'
import { loggedOf, withoutHours } from './rowHours.ts'
import type { loadFinishersOf, loadWeekHours } from './weekStore.ts'

export interface RowItem extends Stretch {
  readonly buildId: string
  /** As B-0231. */
  readonly build: string
  /** Null for a vehicle in a bay. */
  readonly operationId: string | null
  /** In full, and in as few words as tell it apart. */
  readonly what: string
  readonly short: string
}

/** A person, a bay, a machine or an outside finisher in one week. */
export interface ShopRow {
  readonly kind: 'person' | 'bay' | 'machine' | 'outside'
  readonly id: string
  readonly name: string
  /** How many of the kind there are: so much can run at once. */
  readonly count: number
  readonly items: readonly RowItem[]
  /** Not there, or closed. */
  readonly off: readonly Stretch[]
  readonly logged: readonly (Stretch & { readonly kind: string })[]
}

interface Given {
  readonly content: PlanContent
  readonly openDays: OpenDays
  readonly hours: Awaited<ReturnType<typeof loadWeekHours>>
  readonly finishers: Awaited<ReturnType<typeof loadFinishersOf>>
  readonly now: Date
}

interface Thing {
  readonly id: string
  readonly name: string
}

const ms = (instant: string): number => Date.parse(instant)

export function toShopRows({ content, openDays, hours, finishers, now }: Given): ShopRow[] {
  const week = { fromMs: openDays.days[0]!.fromMs, toMs: openDays.days.at(-1)!.toMs }
  const inWeek = <One extends Stretch>(some: readonly One[]): One[] => some.filter(({ fromMs, toMs }) => fromMs < week.toMs && toMs > week.fromMs).toSorted((one, other) => one.fromMs - other.fromMs)
  const titles = new Map(content.builds.map(({ buildId, name }) => [buildId, name]))
  const { people, bays, machines } = openDays.shopDay
  const toItem = (work: PlannedWork, stretch: Stretch): RowItem => {
    const build = (titles.get(work.buildId) ?? '').split(' ')[0] ?? ''
    return { ...stretch, buildId: work.buildId, build, operationId: work.operationId, what: work.shortName, short: shortOf(work.shortName) }
  }
  const person = ({ id, name }: Thing): ShopRow => {
    const stored = people.find((one) => one.id === id)
    return {
      kind: 'person', id, name, count: 1, logged: inWeek(loggedOf(id, hours, openDays, now)), off: stored === undefined ? [] : withoutHours(openDays, openDays.times.hoursOf(stored)),
      items: inWeek(content.work.filter(({ personIds }) => personIds.includes(id)).flatMap((work) => byDay(work.hours, openDays).map((stretch) => toItem(work, stretch)))),
    }
  }
  const bay = ({ id, name }: Thing): ShopRow => ({
    kind: 'bay', id, name, count: 1, logged: [], off: inWeek(openDays.times.closedOf({ bayId: id })),
    items: inWeek(content.visits.filter(({ bayId }) => bayId === id).map(({ buildId, fromAt, toAt }): RowItem => {
      const title = titles.get(buildId) ?? 'A build'
      return { fromMs: ms(fromAt), toMs: ms(toAt), buildId, build: title.split(' ')[0] ?? title, operationId: null, what: title.split(' ').slice(1).join(' '), short: title.split(' ').slice(1).join(' ') }
    })),
  })
  // Where work stays on it, the machine is taken over night as well.
  const machine = ({ id, name, count, holdsWork }: typeof machines[number]): ShopRow => ({
    kind: 'machine', id, name, count, logged: [], off: inWeek(openDays.times.closedOf({ machineId: id })),
    items: inWeek(content.work.filter(({ machineId }) => machineId === id).flatMap((work) =>
      (holdsWork ? [{ fromMs: ms(work.startsAt), toMs: ms(work.endsAt) }] : byDay(work.hours, openDays)).map((stretch) => toItem(work, stretch)))),
  })
  const away = groupBy(content.work.filter(({ dueBackAt }) => dueBackAt !== null), ({ operationId }) => finishers.get(operationId)?.id ?? '')
  const outside = [...away].map(([id, some]): ShopRow => ({
    kind: 'outside', id, name: finishers.get(some[0]!.operationId)?.name ?? 'Outside', count: 1, logged: [], off: inWeek(openDays.times.closedOf({ finisherId: id })),
    items: inWeek(some.map((work) => toItem(work, { fromMs: ms(work.leavesAt ?? work.endsAt), toMs: ms(work.dueBackAt!) }))),
  })).filter(({ items }) => items.length > 0)
  // Who and what came since the plan was taken, and what a plan names that is gone.
  const since = <One extends Thing>(planned: readonly Thing[], stored: readonly One[]): Thing[] => [...planned, ...stored.filter(({ id }) => !planned.some((one) => one.id === id))]
  const working = people.filter(({ skills, role }) => role === 'technician' || skills.length > 0)
  return [...since(content.people, working).map(person), ...since(content.bays, bays).map(bay), ...machines.map(machine), ...outside]
}

/** "P-104 wrap" of "P-104 False floor lid, wrap". */
function shortOf(shortName: string): string {
  const [item = shortName, kind = ''] = shortName.split(/, (?=[^,]*$)/)
  return `${/^[A-Z]+-\d+/.exec(item)?.[0] ?? item} ${kind}`.trim()
}

/** One stretch a day: from the first hour on it to the last, over the break. */
function byDay(hours: readonly { readonly fromAt: string, readonly toAt: string }[], { days }: OpenDays): Stretch[] {
  return days.flatMap(({ fromMs, toMs }) => {
    const own = hours.filter(({ fromAt, toAt }) => ms(fromAt) < toMs && ms(toAt) > fromMs)
    return own.length === 0 ? [] : [{ fromMs: Math.max(fromMs, ms(own[0]!.fromAt)), toMs: Math.min(toMs, ms(own.at(-1)!.toAt)) }]
  })
}
