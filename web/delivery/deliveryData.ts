import type { Working } from '../../server/calc/amounts.ts'
import type { Option } from '../shared/form.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import type { FieldProblem } from '../shared/viewer.ts'

export interface DeliveryForm {
  readonly action: string
  readonly key: string
  readonly version: number
  readonly values: Readonly<Record<'odometer' | 'placardLoad' | 'careAndUse' | 'beforeSale' | 'explainedById' | 'note', string>>
  readonly people: readonly Option[]
  readonly distanceUnit: string
  readonly massUnit: string
  /** Nothing is saved yet: the texts are what is usually said. */
  readonly isSuggested: boolean
  readonly problems: readonly FieldProblem[]
}

export interface DeliveryData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly title: string
  readonly vehicle: string
  readonly customer: string
  readonly stage: string
  readonly saved: string | null
  /** What stands between this and a delivered vehicle. */
  readonly checkWords: string
  readonly checkHref: string
  readonly added: Working
  readonly remaining: Working | null
  readonly unknown: readonly string[]
  readonly facts: readonly { readonly label: string, readonly text: string }[]
  readonly form: DeliveryForm | null
  readonly receive: { readonly action: string, readonly key: string, readonly version: number } | null
  readonly received: { readonly name: string, readonly when: string, readonly path: string } | null
  readonly kept: readonly { readonly number: string, readonly name: string, readonly state: string, readonly where: string }[]
  readonly files: readonly { readonly name: string, readonly href: string }[]
}
