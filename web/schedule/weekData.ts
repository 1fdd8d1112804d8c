import type { Span } from './barsData.ts'

/** The shop's week by the plan in force. */
export interface ShopWeekData {
  readonly title: string
  /** Why there is nothing to show; empty where there is. */
  readonly empty: string
  readonly takenAt: string
  readonly isStale: boolean
  readonly earlierHref: string
  readonly laterHref: string
  readonly week: string
  /** What a week that looks empty hides, in sentences. */
  readonly notes: readonly string[]
  /** What is planned where nobody is there by now, in sentences. */
  readonly broken: readonly string[]
  /** Chosen to stand out; empty where none is. */
  readonly build: string
  readonly builds: readonly { readonly id: string, readonly name: string }[]
  readonly drawn: readonly WeekDrawing[]
  readonly days: readonly WeekDay[]
  readonly links: readonly { readonly name: string, readonly href: string }[]
}

export interface WeekDay {
  readonly date: string
  readonly name: string
  readonly groups: readonly WeekGroup[]
  /** Said where nothing is planned. */
  readonly empty: string
}

/** A person, bay, machine or outside finisher on one day. */
export interface WeekGroup {
  readonly name: string
  readonly lines: readonly WeekLine[]
}

export interface WeekLine {
  readonly times: string
  readonly what: string
  /** Empty for being away or closed. */
  readonly href: string
}

/** As many rows as stay together on a sheet of paper. */
export interface WeekDrawing {
  readonly name: string
  readonly width: number
  readonly height: number
  readonly left: number
  readonly days: readonly { readonly x: number, readonly width: number, readonly isOpen: boolean, readonly text: string, readonly isToday: boolean }[]
  readonly rows: readonly WeekRowDrawn[]
  readonly now: { readonly x: number, readonly text: string } | null
}

/** Bars, and under them the same in words; all of it from the top of the row. */
export interface WeekRowDrawn {
  readonly y: number
  readonly name: readonly string[]
  readonly bars: readonly { readonly span: Span, readonly y: number, readonly kind: 'own' | 'plain' | 'other' }[]
  readonly lines: readonly WeekLineDrawn[]
  readonly logged: readonly Span[]
  readonly rework: readonly Span[]
  /** Absent, or closed. */
  readonly off: readonly { readonly span: Span, readonly text: string }[]
  readonly away: readonly { readonly span: Span, readonly y: number }[]
}

export interface WeekLineDrawn {
  readonly x: number
  readonly y: number
  readonly text: string
  readonly kind: 'own' | 'plain' | 'other'
  /** Up to x, not from it. */
  readonly isEnd: boolean
}
