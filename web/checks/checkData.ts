import type { Working } from '../../server/calc/amounts.ts'
import type { CautionProps } from '../shared/caution.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import type { FieldProblem } from '../shared/viewer.ts'

export interface PointRow {
  readonly key: string
  readonly title: string
  readonly why: string
  readonly href: string
  readonly isSettled: boolean
  /** right, not right, let pass … or what is open. */
  readonly words: string
  /** What was measured, as it was typed. */
  readonly found: string
  readonly note: string
  /** As "Sid Penhale, 28 Nov 2026 09:10"; empty where nobody answered. */
  readonly by: string
  /** It can be ticked as right from here. */
  readonly isTickable: boolean
}

export interface PointGroup {
  readonly name: string
  readonly open: number
  readonly rows: readonly PointRow[]
}

export interface ArrivalRow {
  readonly name: string
  readonly distance: string
  readonly earlier: string
  readonly how: string
}

export interface CheckData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly title: string
  readonly kind: string
  readonly vehicle: string
  readonly settled: string
  readonly cautions: readonly CautionProps[]
  readonly groups: readonly PointGroup[]
  /** Null once the vehicle is delivered. */
  readonly answer: { readonly action: string, readonly key: string } | null
  readonly arrivals: { readonly celsius: string, readonly action: string, readonly problem: string, readonly rows: readonly ArrivalRow[] } | null
  readonly sign: { readonly action: string, readonly key: string, readonly version: number, readonly missing: readonly string[] } | null
  readonly signed: { readonly name: string, readonly when: string, readonly path: string } | null
  readonly links: readonly { readonly name: string, readonly href: string }[]
  readonly saved: { readonly what: string, readonly next: { readonly href: string, readonly name: string } | null } | null
  readonly problems: readonly FieldProblem[]
}

export interface GivenBefore {
  readonly outcome: string
  readonly found: string
  readonly note: string
  readonly by: string
}

export interface PointData {
  readonly trail: readonly TrailStep[]
  readonly title: string
  readonly group: string
  readonly how: string
  readonly why: string
  /** As "at most 50 mA", with where it comes from. */
  readonly limit: string
  readonly limitSource: string
  readonly words: string
  readonly cautions: readonly CautionProps[]
  readonly open: readonly string[]
  readonly codes: readonly { readonly code: string, readonly words: string, readonly when: string, readonly isNew: boolean }[] | null
  readonly addCodeHref: string
  readonly given: readonly GivenBefore[]
  readonly target: Working | null
  readonly form: PointForm | null
}

export interface PointForm {
  readonly action: string
  readonly key: string
  readonly point: string
  readonly measures: { readonly unit: string } | null
  readonly isGain: boolean
  readonly outcomes: readonly string[]
  readonly values: Readonly<Record<'outcome' | 'value' | 'power' | 'load' | 'note', string>>
  readonly problems: readonly FieldProblem[]
  readonly cancelHref: string
}
