import type { PlanMark } from '../shared/markPlan.tsx'
import type { PhotoShown } from '../shared/photos.tsx'
import type { SignedBy } from '../shared/signature.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import type { FieldProblem } from '../shared/viewer.ts'
import type { Body } from '../shared/zonePlaces.ts'

export interface MarkShown extends PlanMark {
  /** As D-003. */
  readonly label: string
  readonly place: string
  readonly kind: string
  readonly size: string
  readonly note: string
  readonly href: string
  readonly photos: readonly PhotoShown[]
}

export interface CodeShown {
  readonly code: string
  readonly says: string
  readonly unit: string
  readonly words: string
  readonly readOn: string
  readonly clearedOn: string
  readonly isLate: boolean
  readonly href: string
}

export interface CounterForm {
  readonly action: string
  readonly key: string
  readonly version: number
  readonly vehicleVersion: number
  readonly values: Readonly<Record<'odometer' | 'energyLevel' | 'keys' | 'leftInside' | 'note' | 'factoryOptions', string>>
  readonly warningLights: readonly string[]
  readonly lights: readonly string[]
  readonly distanceUnit: string
  readonly problems: readonly FieldProblem[]
}

export interface IntakeFact { readonly label: string, readonly text: string }

/** What the page and the report both show. */
export interface IntakeShown {
  readonly body: Body
  readonly facts: readonly IntakeFact[]
  readonly marks: readonly MarkShown[]
  readonly codes: readonly CodeShown[]
  readonly signed: SignedBy | null
  /** In words, as "16 of 16 places, by Nell Corvane, Mon 2 Nov 2026". */
  readonly walked: string
}

export interface IntakeData extends IntakeShown {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly title: string
  readonly vehicle: string
  readonly saved: string | null
  /** Null once signed. */
  readonly counter: CounterForm | null
  readonly walk: { readonly action: string, readonly key: string, readonly places: readonly { readonly place: string, readonly isTicked: boolean }[] } | null
  readonly markHref: string
  readonly codeHref: string
  readonly sign: { readonly action: string, readonly key: string, readonly version: number, readonly missing: readonly string[] } | null
  readonly links: readonly { readonly name: string, readonly href: string }[]
}
