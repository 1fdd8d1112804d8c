import { sumOf } from '../grouping.ts'
import type { Stretch } from './shopTicks.ts'

/** One calendar day of a drawing, from midnight to midnight; `open` from its first opening to its last closing, null on a day off. */
export interface AxisDay extends Stretch {
  readonly date: string
  readonly open: Stretch | null
}

export interface DrawnDay {
  readonly date: string
  readonly left: number
  readonly width: number
  readonly isOpen: boolean
}

export interface TimeAxis {
  readonly days: readonly DrawnDay[]
  /** Where an instant stands, in tenths of the drawing's unit; before and after the days, at their edge. */
  x(ms: number): number
}

/** A day off takes this share of an open day's width, and each night's half this share of its own day's. No source. */
const DAY_OFF = 0.2
const NIGHT = 0.04

/**
 * Lays days side by side so that the hours a shop is open take the room: nights and days off are narrow, but there, so that
 * what cures over them can be seen.
 *
 * Source: of our own, no source.
 */
export function toTimeAxis(days: readonly AxisDay[], left: number, right: number): TimeAxis {
  const shares = days.map(({ open }) => (open === null ? DAY_OFF : 1))
  const unit = (right - left) / Math.max(sumOf(shares, (share) => share), DAY_OFF)
  let at = left
  const drawn = days.map(({ date, open }, place) => {
    const day = { date, left: tenths(at), width: tenths(shares[place]! * unit), isOpen: open !== null, from: at }
    at += shares[place]! * unit
    return day
  })
  const [first, last] = [days[0], days.at(-1)]
  return {
    days: drawn.map(({ date, left: from, width, isOpen }) => ({ date, left: from, width, isOpen })),
    x(ms) {
      if (first === undefined || last === undefined || ms <= first.fromMs) return left
      if (ms >= last.toMs) return tenths(at)
      const place = days.findLastIndex(({ fromMs }) => fromMs <= ms)
      const { fromMs, toMs, open } = days[place]!
      const width = shares[place]! * unit
      const points = open === null ? [[fromMs, 0], [toMs, 1]] as const : [[fromMs, 0], [open.fromMs, NIGHT], [open.toMs, 1 - NIGHT], [toMs, 1]] as const
      const next = Math.max(1, points.findIndex(([end]) => end > ms))
      const [[fromAt, fromShare], [toAt, toShare]] = [points[next - 1]!, points[next]!]
      const share = toAt === fromAt ? toShare : fromShare + (toShare - fromShare) * (ms - fromAt) / (toAt - fromAt)
      return tenths(drawn[place]!.from + share * width)
    },
  }
}

const tenths = (value: number): number => Math.round(value * 10) / 10

/** The days at which a label of a width can stand without touching the one before: the first, then those asked for; days off have none. */
export function labelledDays(days: readonly DrawnDay[], width: number, isAsked: (date: string) => boolean): DrawnDay[] {
  const found: DrawnDay[] = []
  for (const day of days) {
    const last = found.at(-1)
    if (day.isOpen && (isAsked(day.date) || last === undefined) && (last === undefined || day.left - last.left >= width)) found.push(day)
  }
  return found
}
