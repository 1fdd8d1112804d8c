import type { Working } from '../calc/amounts.ts'
import { planRestoration } from '../calc/restoration/restoration.ts'
import type { RestorationPlan } from '../calc/restoration/restoration.ts'
import { listZoneSteps, type ZoneStep } from '../calc/restoration/restorationByZone.ts'
import type { RestorationInput } from '../calc/restoration/restorationInput.ts'
import { toVerdict } from '../calc/restoration/verdict.ts'
import type { Verdict } from '../calc/restoration/verdict.ts'
import type { VehicleState } from '../restoration/store.ts'
import { counted } from '../../web/shared/text.ts'

/** The way of a whole vehicle back to stock, as the ledger looks at it. */
export interface GoingBack {
  readonly input: RestorationInput
  readonly plan: RestorationPlan | null
  readonly verdict: Verdict | null
  /** In one line. */
  readonly words: string
  readonly hours?: Working
  readonly cost?: Working
  readonly steps: readonly ZoneStep[]
}

export function toGoingBack({ input: state, ratePerHourMinor }: VehicleState): GoingBack {
  const input: RestorationInput = { ...state, choice: 'all' }
  const plan = planRestoration(input)
  if (plan.kind === 'refused') return { input, plan: null, verdict: null, words: plan.sentence, steps: [] }
  if (plan.takeOut.length + plan.putBack.length + plan.repairs.length + plan.lastingAlterationIds.length === 0) {
    return { input, plan, verdict: null, words: 'Nothing is out and nothing is fitted: the vehicle is as it came.', steps: [] }
  }
  const verdict = toVerdict(input, plan, ratePerHourMinor ?? 0)
  return {
    input, plan, verdict, words: verdictWords(verdict, plan), hours: verdict.hoursWorking,
    // Without a rate the labor would cost nothing, which is no price to show.
    ...(ratePerHourMinor === null ? {} : { cost: verdict.costWorking }),
    steps: listZoneSteps(input, plan),
  }
}

function verdictWords({ kind, reasons, partsToBuy }: Verdict, { repairs }: RestorationPlan): string {
  const buy = partsToBuy.length === 0 ? '' : `, ${counted(partsToBuy.length, 'line', 'lines')} to buy`
  if (kind === 'restorable as is') return `Restorable as is${buy}.`
  if (kind === 'restorable with these parts and repairs') return `Restorable with ${counted(repairs.length, 'repair', 'repairs')}${buy}.`
  return `Not fully: ${reasons[0] ?? ''}${reasons.length > 1 ? ` And ${counted(reasons.length - 1, 'reason', 'reasons')} more.` : ''}`
}
