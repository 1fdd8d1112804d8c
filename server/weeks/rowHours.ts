import type { Stretch } from '../calc/schedule/shopTicks.ts'
import type { OpenDays } from '../schedule/openDays.ts'
import type { loadWeekHours } from './weekStore.ts'

/** Of open hours those in which somebody is not there; over the break it is one absence. */
export function withoutHours({ open, days }: OpenDays, there: readonly Stretch[]): Stretch[] {
  const away = there.reduce<Stretch[]>((left, { fromMs, toMs }) => left.flatMap((one) => (toMs <= one.fromMs || fromMs >= one.toMs ? [one] : [
    ...(fromMs > one.fromMs ? [{ fromMs: one.fromMs, toMs: fromMs }] : []), ...(toMs < one.toMs ? [{ fromMs: toMs, toMs: one.toMs }] : []),
  ])), [...open])
  const isOneDay = (one: number, other: number): boolean => days.some(({ fromMs, toMs }) => fromMs <= one && other <= toMs)
  const isBreak = (from: number, to: number): boolean => isOneDay(from, to) && !open.some(({ fromMs, toMs }) => fromMs < to && toMs > from)
  return away.reduce<Stretch[]>((joined, one) => {
    const last = joined.at(-1)
    return last !== undefined && isBreak(last.toMs, one.fromMs) ? [...joined.slice(0, -1), { fromMs: last.fromMs, toMs: one.toMs }] : [...joined, one]
  }, [])
}

/** Hours noted after the fact have no time of day: they stand from the opening of their day on. */
export function loggedOf(personId: string, { entries, timers }: Awaited<ReturnType<typeof loadWeekHours>>, { days }: OpenDays, now: Date): (Stretch & { readonly kind: string })[] {
  const openings = new Map(days.flatMap(({ fromMs, open }) => (open === null ? [] : [[fromMs, open.fromMs] as const])))
  return [
    ...entries.filter((entry) => entry.personId === personId).map(({ kind, startedAt, seconds }) => {
      const fromMs = openings.get(startedAt.getTime()) ?? startedAt.getTime()
      return { kind, fromMs, toMs: fromMs + seconds * 1000 }
    }),
    ...timers.filter((timer) => timer.personId === personId).map(({ kind, startedAt }) => ({ kind, fromMs: startedAt.getTime(), toMs: Math.max(now.getTime(), startedAt.getTime()) })),
  ]
}
