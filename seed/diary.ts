import type { Days } from './days.ts'

const OPENS = 8 * 60
const NOON = 12 * 60
const AFTER_NOON = 12 * 60 + 45
const CLOSES = 17 * 60
const SHORTEST = 15
const YESTERDAY = -1
const TOO_LATE = 'the demo’s hours reach beyond yesterday: begin earlier'

/** A moment of the working calendar: working days from today, minutes after midnight. */
export interface Moment {
  readonly day: number
  readonly minute: number
}

export interface Piece {
  readonly startedAt: Date
  readonly minutes: number
  readonly end: Moment
}

/** What everybody's working days are already filled with, over all builds. */
export interface Diary {
  /** Writes so many minutes into a person's free time, from a moment on; in pieces where the day is cut. */
  place(personId: string, from: Moment, minutes: number): Piece[]
  /** How much of a day is written. */
  filled(personId: string, day: number): number
}

export function openDiary(days: Days): Diary {
  const taken = new Map<string, number>()
  const keyOf = (personId: string, day: number): string => `${personId} ${day}`
  const freeFrom = (personId: string, { day, minute }: Moment): number =>
    Math.max(taken.get(keyOf(personId, day)) ?? OPENS, minute)

  return {
    filled: (personId, day) => taken.get(keyOf(personId, day)) ?? OPENS,
    place: (personId, from, minutes) => {
      const pieces: Piece[] = []
      let left = minutes
      let at: Moment = { day: from.day, minute: outsideBreak(freeFrom(personId, from)) }
      if (from.day > YESTERDAY) throw new Error(`${TOO_LATE}, day ${from.day}`)
      while (left > 0) {
        const room = (at.minute < NOON ? NOON : CLOSES) - at.minute
        if (room >= Math.min(SHORTEST, left)) {
          const length = Math.min(room, left)
          const end = { day: at.day, minute: at.minute + length }
          pieces.push({ startedAt: days.at(days.workday(at.day), clock(at.minute)), minutes: length, end })
          taken.set(keyOf(personId, at.day), end.minute)
          left -= length
        }
        if (left > 0) at = next(at, (day) => outsideBreak(freeFrom(personId, { day, minute: OPENS })))
      }
      return pieces
    },
  }
}

function next(at: Moment, freeOn: (day: number) => number): Moment {
  if (at.minute < NOON) return { day: at.day, minute: AFTER_NOON }
  if (at.day >= YESTERDAY) throw new Error(TOO_LATE)
  return { day: at.day + 1, minute: freeOn(at.day + 1) }
}

const outsideBreak = (minute: number): number => (minute >= NOON && minute < AFTER_NOON ? AFTER_NOON : minute)

const clock = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`

/** When work can go on after so many hours that need nobody: by the clock, over night at the least for a long cure. */
export function after(end: Moment, waitHours: number): Moment {
  if (waitHours === 0) return end
  if (waitHours < 5) return { day: end.day, minute: end.minute + waitHours * 60 }
  return { day: end.day + Math.max(1, Math.round((waitHours / 24) * (5 / 7))), minute: OPENS }
}
