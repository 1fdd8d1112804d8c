import { groupBy } from '../calc/grouping.ts'
import type { Stretch } from '../calc/schedule/shopTicks.ts'
import type { OpenDays } from '../schedule/openDays.ts'
import type { PlanContent } from '../schedule/planContent.ts'
import { dayWords } from '../schedule/planWords.ts'
import type { loadWeekHours } from './weekStore.ts'

export interface RowItem extends Stretch {
  readonly what: string
  readonly href: string
  /** In two lines. */
  readonly lines: readonly [string, string]
  readonly buildId: string
}

/** A person, a bay or an outside finisher in one week. */
export interface ShopRow {
  readonly kind: 'person' | 'bay' | 'outside'
  readonly name: string
  readonly items: readonly RowItem[]
  readonly off: readonly Stretch[]
  readonly logged: readonly (Stretch & { readonly kind: string })[]
}

interface Given {
  readonly content: PlanContent
  readonly openDays: OpenDays
  readonly hours: Awaited<ReturnType<typeof loadWeekHours>>
  readonly finishers: ReadonlyMap<string, string>
  readonly now: Date
}

const ms = (instant: string): number => Date.parse(instant)

export function toShopRows({ content, openDays, hours, finishers, now }: Given): ShopRow[] {
  const week = { fromMs: openDays.days[0]!.fromMs, toMs: openDays.days.at(-1)!.toMs }
  const inWeek = <One extends Stretch>(some: readonly One[]): One[] => some.filter(({ fromMs, toMs }) => fromMs < week.toMs && toMs > week.fromMs)
  const numbers = new Map(content.builds.map(({ buildId, name }) => [buildId, name.split(' ')[0] ?? name]))
  const { people, bays } = openDays.shopDay
  const openings = new Map(openDays.days.flatMap(({ fromMs, open }) => (open === null ? [] : [[fromMs, open.fromMs] as const])))
  const person = ({ id, name }: { id: string, name: string }): ShopRow => {
    const stored = people.find((one) => one.id === id)
    return {
      kind: 'person', name, logged: inWeek(loggedOf(id, hours, openings, now)),
      off: stored === undefined ? [] : without(openDays.open, openDays.times.hoursOf(stored)),
      items: inWeek(content.work.filter(({ personIds }) => personIds.includes(id)).flatMap((work) => byDay(work.hours, openDays).map((stretch): RowItem => {
        const [item = work.shortName, kind = ''] = work.shortName.split(/, (?=[^,]*$)/)
        const number = numbers.get(work.buildId) ?? ''
        return { ...stretch, buildId: work.buildId, what: `${number} ${work.shortName}`, href: `/operations/${work.operationId}`, lines: [item, `${number} ${kind}`] }
      }))).toSorted((one, other) => one.fromMs - other.fromMs),
    }
  }
  const bay = ({ id, name }: { id: string, name: string }): ShopRow => ({
    kind: 'bay', name, logged: [], off: inWeek(openDays.times.closedOf({ bayId: id })),
    items: inWeek(content.visits.filter(({ bayId }) => bayId === id).map(({ buildId, fromAt, toAt }): RowItem => {
      const build = content.builds.find((one) => one.buildId === buildId)?.name ?? 'A build'
      return { fromMs: ms(fromAt), toMs: ms(toAt), buildId, what: build, href: `/builds/${buildId}/schedule`, lines: [build, `until ${dayWords(openDays.timeZone, ms(toAt) - 1)}`] }
    })).toSorted((one, other) => one.fromMs - other.fromMs),
  })
  const away = content.work.filter(({ dueBackAt }) => dueBackAt !== null)
  const outside = [...groupBy(away, ({ operationId }) => finishers.get(operationId) ?? 'Outside')].flatMap(([name, some]) => some.map((work): ShopRow => ({
    kind: 'outside', name, logged: [], off: [],
    items: inWeek([{ fromMs: ms(work.endsAt), toMs: ms(work.dueBackAt!), buildId: work.buildId, what: `${numbers.get(work.buildId) ?? ''} ${work.shortName}, back ${dayWords(openDays.timeZone, ms(work.dueBackAt!))}`, href: `/operations/${work.operationId}`, lines: [`${work.shortName}, back ${dayWords(openDays.timeZone, ms(work.dueBackAt!))}`, ''] }]),
  }))).filter(({ items }) => items.length > 0)
  const known = new Set(content.bays.map(({ id }) => id))
  return [...content.people.map(person), ...content.bays.map(bay), ...bays.filter(({ id }) => !known.has(id)).map(bay), ...outside]
}

/** One stretch a day: from the first hour on it to the last, over the break. */
function byDay(hours: readonly { readonly fromAt: string, readonly toAt: string }[], { days }: OpenDays): Stretch[] {
  return days.flatMap(({ fromMs, toMs }) => {
    const own = hours.filter(({ fromAt, toAt }) => ms(fromAt) < toMs && ms(toAt) > fromMs)
    return own.length === 0 ? [] : [{ fromMs: Math.max(fromMs, ms(own[0]!.fromAt)), toMs: Math.min(toMs, ms(own.at(-1)!.toAt)) }]
  })
}

/** Of open hours those in which somebody is not there. */
function without(open: readonly Stretch[], there: readonly Stretch[]): Stretch[] {
  return there.reduce<Stretch[]>((left, { fromMs, toMs }) => left.flatMap((one) => (toMs <= one.fromMs || fromMs >= one.toMs ? [one] : [
    ...(fromMs > one.fromMs ? [{ fromMs: one.fromMs, toMs: fromMs }] : []), ...(toMs < one.toMs ? [{ fromMs: toMs, toMs: one.toMs }] : []),
  ])), [...open])
}

/** Hours noted after the fact have no time of day: they stand from the opening of their day on. */
function loggedOf(personId: string, { entries, timers }: Given['hours'], openings: ReadonlyMap<number, number>, now: Date): ShopRow['logged'] {
  return [
    ...entries.filter((entry) => entry.personId === personId).map(({ kind, startedAt, seconds }) => {
      const fromMs = openings.get(startedAt.getTime()) ?? startedAt.getTime()
      return { kind, fromMs, toMs: fromMs + seconds * 1000 }
    }),
    ...timers.filter((timer) => timer.personId === personId).map(({ kind, startedAt }) => ({ kind, fromMs: startedAt.getTime(), toMs: Math.max(now.getTime(), startedAt.getTime()) })),
  ]
}
