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
  /** Chosen to stand out; empty where none is. */
  readonly build: string
  readonly builds: readonly { readonly id: string, readonly name: string }[]
  readonly drawn: readonly WeekDrawing[]
  readonly days: readonly WeekDay[]
  readonly links: readonly { readonly name: string, readonly href: string }[]
}

export interface WeekDay {
  readonly name: string
  readonly rows: readonly WeekLine[]
  /** Said where nothing is planned. */
  readonly empty: string
}

export interface WeekLine {
  readonly who: string
  /** Empty for what takes no hours there, as being absent. */
  readonly times: string
  readonly what: string
  readonly href: string
}

export interface WeekDrawing {
  readonly name: string
  readonly width: number
  readonly height: number
  readonly left: number
  readonly days: readonly { readonly x: number, readonly width: number, readonly isOpen: boolean, readonly text: string, readonly isToday: boolean }[]
  readonly rows: readonly WeekRowDrawn[]
  readonly now: { readonly x: number, readonly text: string } | null
}

export interface WeekRowDrawn {
  readonly y: number
  readonly name: readonly string[]
  readonly bars: readonly { readonly span: Span, readonly lines: readonly string[], readonly kind: 'own' | 'plain' | 'other' }[]
  readonly logged: readonly Span[]
  readonly rework: readonly Span[]
  /** Absent, or closed. */
  readonly off: readonly { readonly span: Span, readonly text: string }[]
  readonly away: readonly { readonly span: Span, readonly text: string }[]
}
