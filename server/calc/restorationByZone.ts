import { secondsAt } from './loosening.ts'
import type { RestorationPlan } from './restoration.ts'
import type { RestorationInput } from './restorationInput.ts'

/**
 * The hours of a restoration by zone (s): taking out, undoing alterations and putting back, each counted
 * where the thing stands. Sums to the hours of the verdict exactly.
 * Source: common practice, no source.
 * @example a door panel out in 600 s and back in 900 s: its zone takes 1500 s
 */
export function restorationByZone(input: RestorationInput, plan: RestorationPlan): Map<string, number> {
  const things = new Map([...input.factoryParts, ...input.installedItems].map(thing => [thing.id, thing]))
  const alterations = new Map(input.alterations.map(alteration => [alteration.id, alteration]))
  const byZone = new Map<string, number>()
  const add = (zoneId: string | undefined, seconds: number): void => {
    if (zoneId !== undefined) byZone.set(zoneId, (byZone.get(zoneId) ?? 0) + seconds)
  }
  for (const { id, depth } of plan.takeOut) add(things.get(id)?.zoneId, secondsAt(things.get(id)?.takeOutS ?? 0, depth))
  for (const repair of plan.repairs) {
    if (repair.kind !== 'reverse') continue
    add(alterations.get(repair.alterationId)?.zoneId, alterations.get(repair.alterationId)?.reverseS ?? 0)
  }
  for (const { id, how } of plan.putBack) {
    add(things.get(id)?.zoneId, secondsAt(things.get(id)?.putBackS ?? 0, how === 'tighten' ? 'loosened' : 'out'))
  }
  return byZone
}
