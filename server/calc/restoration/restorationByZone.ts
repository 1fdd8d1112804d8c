import { toPartLabel } from '../removal/factoryParts.ts'
import { groupBy, sumOf } from '../grouping.ts'
import { secondsAt } from '../removal/loosening.ts'
import type { RestorationPlan } from './restoration.ts'
import type { RestorationInput } from './restorationInput.ts'

/** One deed of a restoration and what it takes (s), counted where the thing stands. */
export interface ZoneStep {
  readonly zoneId: string
  readonly label: string
  readonly seconds: number
}

/**
 * The hours of a restoration by zone (s): taking out, undoing alterations and putting back, each counted
 * where the thing stands. Sums to the hours of the verdict exactly.
 * Source: common practice, no source.
 * @example a door panel out in 600 s and back in 900 s: its zone takes 1500 s
 */
export function restorationByZone(input: RestorationInput, plan: RestorationPlan): Map<string, number> {
  return new Map([...groupBy(listZoneSteps(input, plan), ({ zoneId }) => zoneId)].map(([zoneId, steps]) => [zoneId, sumOf(steps, ({ seconds }) => seconds)]))
}

/** All deeds of a restoration that take time, in the order of the plan. */
export function listZoneSteps(input: RestorationInput, plan: RestorationPlan): ZoneStep[] {
  const things = new Map([
    ...input.factoryParts.map(part => timed(part, toPartLabel(part))), ...input.installedItems.map(item => timed(item, `${item.number} ${item.name}`)),
  ].map(thing => [thing.id, thing]))
  const alterations = new Map(input.alterations.map(alteration => [alteration.id, alteration]))
  const stepsOf = (id: string, deed: string, secondsOf: (thing: Timed) => number): ZoneStep[] => {
    const thing = things.get(id)
    return thing ? [{ zoneId: thing.zoneId, label: `${thing.label}: ${deed}`, seconds: secondsOf(thing) }] : []
  }
  return [
    ...plan.takeOut.flatMap(({ id, depth }) => stepsOf(id, depth === 'out' ? 'out' : 'loosened', ({ takeOutS }) => secondsAt(takeOutS, depth))),
    ...plan.repairs.flatMap((repair): ZoneStep[] => {
      const undone = repair.kind === 'reverse' ? alterations.get(repair.alterationId) : undefined
      return undone ? [{ zoneId: undone.zoneId, label: `${undone.number} ${undone.what}: undone`, seconds: undone.reverseS }] : []
    }),
    ...plan.putBack.flatMap(({ id, how }) => stepsOf(id, how === 'tighten' ? 'tightened' : 'back', ({ putBackS }) => secondsAt(putBackS, how === 'tighten' ? 'loosened' : 'out'))),
  ].filter(({ seconds }) => seconds > 0)
}

interface Timed {
  readonly id: string
  readonly zoneId: string
  readonly takeOutS: number
  readonly putBackS: number
  readonly label: string
}

const timed = ({ id, zoneId, takeOutS, putBackS }: Omit<Timed, 'label'>, label: string): Timed => ({ id, zoneId, takeOutS, putBackS, label })
