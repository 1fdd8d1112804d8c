import type { ChecklistPhase, ChecklistStep } from './checklist.ts'
import type { RestorationPlan } from './restoration.ts'
import type { RestorationInput } from './restorationInput.ts'

type Step = Pick<ChecklistStep, 'number' | 'phase' | 'zoneName' | 'thingId' | 'itemNumber'>

/**
 * For each step of a sheet, by its number, the numbers of the steps that have to be done right before it,
 * all of them smaller than its own. Steps about the whole vehicle come before all work, reconnecting after it, tests after
 * that; within the work the plan's two orders decide. No source: the rules of the trade as we have them.
 *
 * @example // the panel's "out" needs the switch's "out"; the panel's "back" needs the speaker's "back"
 */
export function findNeeds(input: RestorationInput, plan: RestorationPlan, steps: readonly Step[]): Map<number, number[]> {
  const of = (phase: ChecklistPhase, isMeant: (step: Step) => boolean = () => true): number[] =>
    steps.filter(step => step.phase === phase && isMeant(step)).map(({ number }) => number)
  const about = (phase: ChecklistPhase, ids: readonly string[]): number[] => of(phase, ({ thingId }) => thingId !== undefined && ids.includes(thingId))
  const opening = [...of('cautions'), ...of('take out', ({ thingId }) => thingId === undefined)]
  const work = [...of('take out'), ...of('repair'), ...of('reinstall')]
  const ownersOf = new Map(input.alterations.flatMap(({ id, factoryPartId }) => factoryPartId === null ? [] : [[id, factoryPartId] as const]))
  const clearing = (id: string): number[] => about('take out', plan.takeOut.filter(({ clearsIds }) => clearsIds.includes(id)).map(step => step.id))

  const takersOf = (id: string): string[] => input.installedItems.filter(({ replacesFactoryPartIds }) => replacesFactoryPartIds.includes(id)).map(item => item.id)

  const directNeeds = (step: Step): number[] => {
    const { phase, thingId = '', zoneName } = step
    if (phase === 'cautions') return []
    if (phase === 'reconnect and relearn') return [...opening, ...work, ...of(phase)]
    if (phase === 'function test') return of('reconnect and relearn')
    if (phase === 'signature') return needsOfSignature(step)
    if (step.thingId === undefined) return phase === 'repair' ? [...opening, ...about('take out', plan.staysOutIds)] : opening
    if (phase === 'take out') return [...opening, ...clearing(thingId)]
    if (phase === 'repair') return [...opening, ...about('take out', [thingId, ownersOf.get(thingId) ?? ''])]
    const repairs = of('repair', other => other.thingId === undefined || other.thingId === thingId || ownersOf.get(other.thingId) === thingId || other.zoneName === zoneName)
    return [...opening, ...about('take out', [thingId, ...takersOf(thingId)]), ...clearing(thingId), ...repairs, ...about('reinstall', plan.putBack.find(({ id }) => id === thingId)?.needsIds ?? [])]
  }
  // Work is signed for when it is done, tests when they are, and the vehicle is received after both.
  const needsOfSignature = ({ number }: Step): number[] => {
    const signatures = of('signature')
    const place = signatures.indexOf(number)
    if (place === 0) return [...work, ...of('reconnect and relearn')]
    return place === 1 ? of('function test') : signatures
  }
  return new Map(steps.map(step => [step.number, [...new Set(directNeeds(step))].filter(number => number < step.number).toSorted((a, b) => a - b)]))
}
