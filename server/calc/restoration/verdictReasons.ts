import { toPartLabel } from '../removal/factoryParts.ts'
import type { Alteration, FactoryPart } from '../removal/factoryParts.ts'
import type { RestorationPlan } from './restoration.ts'
import { toWhatAndWhere } from './reversal.ts'
import type { RestorationInput } from './restorationInput.ts'

/** What keeps the vehicle from going back fully, in sentences. */
export function listObstacles({ alterations }: RestorationInput, plan: RestorationPlan): string[] {
  return alterations.filter(alteration => plan.lastingAlterationIds.includes(alteration.id))
    .map(alteration => `Alteration ${alteration.number} (${toWhatAndWhere(alteration)}) cannot be undone.`)
}

/** What has to be brought, bought, looked at or undone before it can, in sentences. */
export function listNeeds({ factoryParts, alterations }: RestorationInput, plan: RestorationPlan): string[] {
  return plan.repairs.flatMap(repair => {
    if (repair.kind === 'reverse') {
      const alteration = alterations.find(known => known.id === repair.alterationId)
      return alteration ? [toAlterationNeed(alteration)] : []
    }
    const part = factoryParts.find(known => known.id === repair.factoryPartId)
    return part ? [toNeed(repair.kind, part)] : []
  })
}

function toAlterationNeed(alteration: Alteration): string {
  const { number, isReversible, partsToBuy, outside } = alteration
  const named = `Alteration ${number} (${toWhatAndWhere(alteration)})`
  const elsewhere = outside ? ` Done outside: ${outside.what.replace(/\.$/, '')}.` : ''
  if (isReversible) return `${named} has to be undone.${elsewhere}`
  return `${named} cannot be undone: ${partsToBuy.map(({ name }) => name).join(', ')} has to be bought.${elsewhere}`
}

function toNeed(kind: 'bring' | 'buy' | 'inspect', part: FactoryPart): string {
  const label = toPartLabel(part)
  if (kind === 'bring') return `${label} is with the customer and has to be brought.`
  if (kind === 'inspect') return `${label} is marked altered, but nothing is on record: it has to be looked at.`
  const price = part.replaceCostMinor === null ? ' (no price known)' : ''
  return `${label} is ${toLossText(part)} and has to be bought${price}.`
}

function toLossText({ state }: FactoryPart): string {
  if (state === 'disposed with consent') return 'disposed of with consent'
  return state === 'missing' || state === 'damaged' ? state : 'altered beyond repair'
}
