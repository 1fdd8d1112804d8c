import { asPlanned, isAsItCame } from '../calc/restoration/asPlanned.ts'
import { toChecklist, type Checklist } from '../calc/restoration/checklist.ts'
import { planRestoration, type RestorationPlan } from '../calc/restoration/restoration.ts'
import type { RestorationInput } from '../calc/restoration/restorationInput.ts'
import { toVerdict, type Verdict } from '../calc/restoration/verdict.ts'
import type { Role } from '../../web/shared/viewer.ts'
import { notFound } from '../shared/problems.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { VehicleState } from './store.ts'

/** From the vehicle as it is recorded now, or as the build is meant to leave it. */
export type Basis = 'recorded' | 'planned'

export interface RestorationAsked {
  /** All of it, or some factory parts by id. */
  readonly parts: 'all' | readonly string[]
  /** Left open, it is the plan until anything is out or fitted. */
  readonly basis: Basis | undefined
}

export interface Restoration {
  readonly basis: Basis
  readonly input: RestorationInput
  readonly plan: RestorationPlan
  readonly verdict: Verdict
  readonly checklist: Checklist
}

export interface Refused {
  readonly basis: Basis
  readonly sentence: string
}

/** The way back to stock of a build. Throws a 404 for a factory part that is not its own. */
export function toRestoration({ input: recorded, vehicle, ratePerHourMinor }: VehicleState, { parts, basis: asked }: RestorationAsked): Restoration | Refused {
  const known = new Set(recorded.factoryParts.map(({ id }) => id))
  if (parts !== 'all' && parts.some((id) => !known.has(id))) throw notFound('factory part')
  const basis = asked ?? basisOf(recorded)
  const state = basis === 'planned' ? asPlanned(recorded) : recorded
  const input: RestorationInput = { ...state, choice: parts === 'all' ? 'all' : { factoryPartIds: parts, alterationIds: [] } }
  const plan = planRestoration(input)
  if (plan.kind === 'refused') return { basis, sentence: plan.sentence }
  return { basis, input, plan, verdict: toVerdict(input, plan, ratePerHourMinor ?? 0), checklist: toChecklist(input, plan, vehicle) }
}

export const basisOf = (recorded: VehicleState['input']): Basis => (isAsItCame(recorded) ? 'planned' : 'recorded')

/** Money is for managers, and no price is shown while no department prices the labor. */
export const mayShowMoney = (role: Role, { ratePerHourMinor }: VehicleState): boolean => MANAGERS.includes(role) && ratePerHourMinor !== null

/** The verdict without anything a price could be read from. */
export function withoutMoney(verdict: Verdict): Verdict {
  return {
    ...verdict,
    cost: { laborMinor: 0, partsMinor: 0, outsideMinor: 0, totalMinor: 0, unpricedCount: 0 },
    partsToBuy: verdict.partsToBuy.map((line) => ({ ...line, priceMinor: null })),
    costWorking: { ...verdict.costWorking, inputs: [], result: { kind: 'money', value: 0 }, assumed: '' },
  }
}
