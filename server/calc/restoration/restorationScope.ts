import { isInVehicle } from '../removal/factoryParts.ts'
import type { Alteration, FactoryPart } from '../removal/factoryParts.ts'
import type { RestorationInput } from './restorationInput.ts'

/** Something to be done between taking out and putting back. */
export type Repair =
  | { readonly kind: 'reverse', readonly alterationId: string }
  | { readonly kind: 'bring' | 'buy' | 'inspect', readonly factoryPartId: string }

export interface Scope {
  readonly isWhole: boolean
  /** Factory parts to be brought back to stock. */
  readonly partIds: readonly string[]
  /** Of these, those for which a bought part goes in. */
  readonly newPartIds: readonly string[]
  readonly repairs: readonly Repair[]
  /** Alterations in question that nothing can undo. */
  readonly lastingAlterationIds: readonly string[]
  readonly staysOutIds: readonly string[]
  /** What must come out, and absent parts whose place must become free. */
  readonly goalIds: readonly string[]
  /** Loose parts that are made fast where they are. */
  readonly reachIds: readonly string[]
}

/** What a restoration is about: which parts, which repairs, what goes for good. */
export function findScope(input: RestorationInput): Scope {
  const open = input.alterations.filter(alteration => isChosen(input, alteration))
  const parts = input.factoryParts.filter(part => isChosenPart(input, part, open) && isToRestore(input, part))
  const partIds = parts.map(part => part.id)
  const known = new Set(partIds)
  const newPartIds = parts.filter(part => isToBeReplaced(part, open)).map(part => part.id)
  const staysOutIds = input.installedItems
    .filter(item => item.isFitted && (input.choice === 'all' || item.replacesFactoryPartIds.some(id => known.has(id))))
    .map(item => item.id)
  return {
    isWhole: input.choice === 'all',
    partIds,
    newPartIds,
    repairs: listRepairs(input, parts, open, newPartIds),
    lastingAlterationIds: open.filter(isLasting).map(({ id }) => id),
    staysOutIds,
    goalIds: [...parts.filter(part => !isOnlyLoose(input, part)).map(part => part.id), ...staysOutIds],
    reachIds: parts.filter(part => isOnlyLoose(input, part)).map(part => part.id),
  }
}

/** What can be neither reversed nor replaced by a part: a named part that can be bought takes the altered one's place. */
function isLasting({ isReversible, factoryPartId, partsToBuy }: Alteration): boolean {
  return !isReversible && factoryPartId === null && partsToBuy.length === 0
}

function isChosen({ choice }: RestorationInput, alteration: Alteration): boolean {
  if (alteration.isReversed) return false
  if (choice === 'all' || choice.alterationIds.includes(alteration.id)) return true
  return alteration.factoryPartId !== null && choice.factoryPartIds.includes(alteration.factoryPartId)
}

function isChosenPart({ choice }: RestorationInput, part: FactoryPart, open: readonly Alteration[]): boolean {
  if (choice === 'all' || choice.factoryPartIds.includes(part.id)) return true
  return open.some(alteration => alteration.factoryPartId === part.id)
}

function isToRestore(input: RestorationInput, part: FactoryPart): boolean {
  if (part.state === 'fitted') return isAltered(input, part)
  return part.state !== 'altered' || !isInVehicle(part) || isAltered(input, part)
}

// A part marked altered without any record of how is taken at its word; with a record, the record decides.
function isAltered({ alterations }: RestorationInput, part: FactoryPart): boolean {
  const own = alterations.filter(alteration => alteration.factoryPartId === part.id)
  return own.length === 0 ? part.state === 'altered' : own.some(alteration => !alteration.isReversed)
}

function isOnlyLoose(input: RestorationInput, part: FactoryPart): boolean {
  return part.state === 'loosened' && !isAltered(input, part)
}

function isToBeReplaced(part: FactoryPart, open: readonly Alteration[]): boolean {
  if (part.state === 'missing' || part.state === 'damaged' || part.state === 'disposed with consent') return true
  return open.some(alteration => alteration.factoryPartId === part.id && !alteration.isReversible)
}

function listRepairs(
  input: RestorationInput, parts: readonly FactoryPart[], open: readonly Alteration[], newPartIds: readonly string[],
): Repair[] {
  const isKept = (part: FactoryPart) => !newPartIds.includes(part.id)
  const hasNoRecord = (part: FactoryPart) => !input.alterations.some(alteration => alteration.factoryPartId === part.id)
  return [
    ...parts.filter(part => part.state === 'out with the customer' && isKept(part))
      .map(part => ({ kind: 'bring' as const, factoryPartId: part.id })),
    ...newPartIds.map(id => ({ kind: 'buy' as const, factoryPartId: id })),
    ...parts.filter(part => part.state === 'altered' && isKept(part) && hasNoRecord(part))
      .map(part => ({ kind: 'inspect' as const, factoryPartId: part.id })),
    // What was done to a part that is replaced goes away with it.
    ...open.filter(alteration => !isLasting(alteration) && (alteration.isReversible || alteration.factoryPartId === null) && !newPartIds.includes(alteration.factoryPartId ?? ''))
      .map(alteration => ({ kind: 'reverse' as const, alterationId: alteration.id })),
  ]
}
