import { toFastenerName, toNewCount } from '../removal/fastenerText.ts'
import { toPartLabel, toPartNumber } from '../removal/factoryParts.ts'
import type { FactoryPart, Fastener, PartToBuy } from '../removal/factoryParts.ts'
import { groupBy, sumOf } from '../grouping.ts'
import { sparesOf } from '../parts/pegs.ts'
import type { RestorationPlan } from './restoration.ts'
import type { RestorationInput } from './restorationInput.ts'

export type BuyReason = 'replacement' | 'repair' | 'single-use' | 'breaks'

/** One line of the parts to buy; `priceMinor` is for one, null when no price is known. */
export interface BuyLine extends PartToBuy {
  readonly reason: BuyReason
  /** The numbers of the parts and alterations it is for. */
  readonly forNumbers: readonly string[]
  /** What each of them takes, and why so many. */
  readonly from: readonly BuyShare[]
}

export interface BuyShare {
  readonly label: string
  readonly why: string
  readonly count: number
}

/**
 * What must be at hand before a restoration begins: bought parts, what the repairs need, single-use
 * fasteners, and spares for those that break, rounded up per part ("expect one clip in five to break":
 * common practice, no source). Whatever is undone in this job counts again, even if bought before.
 */
export function listPartsToBuy(input: RestorationInput, plan: RestorationPlan): BuyLine[] {
  return merge([...listReplacements(input, plan), ...listRepairParts(input, plan), ...listHardware(input, plan)])
}

function listReplacements({ factoryParts, alterations }: RestorationInput, plan: RestorationPlan): BuyLine[] {
  const newIds = new Set(plan.putBack.filter(step => step.how === 'fit new').map(step => step.id))
  return factoryParts.filter(part => newIds.has(part.id)).flatMap(part => {
    const named = alterations
      .filter(({ factoryPartId, isReversible, isReversed }) => factoryPartId === part.id && !isReversible && !isReversed)
      .flatMap(alteration => alteration.partsToBuy)
    const makers = part.makerNumber ? `, vehicle maker’s no. ${part.makerNumber}` : ''
    const itself = { name: `${toPartLabel(part)}${makers}`, count: 1, priceMinor: part.replaceCostMinor, leadDays: part.leadDays }
    const bought = named.length > 0 && !isLost(part) ? named.map(line => ({ ...line, name: `${line.name}${makers}` })) : [itself]
    return bought.map(line => ({ ...line, reason: 'replacement' as const, forNumbers: [toPartNumber(part)], from: [{ label: toPartLabel(part), why: 'bought new', count: line.count }] }))
  })
}

function isLost({ state }: FactoryPart): boolean {
  return state === 'missing' || state === 'damaged' || state === 'disposed with consent'
}

function listRepairParts({ alterations }: RestorationInput, plan: RestorationPlan): BuyLine[] {
  const reversed = new Set(plan.repairs.flatMap(repair => repair.kind === 'reverse' ? [repair.alterationId] : []))
  return alterations.filter(alteration => reversed.has(alteration.id)).flatMap(alteration => alteration.partsToBuy
    .map(line => ({ ...line, reason: 'repair' as const, forNumbers: [alteration.number], from: [{ label: alteration.number, why: 'to undo the alteration', count: line.count }] })))
}

export interface FastenerToRenew {
  readonly part: FactoryPart
  readonly fastener: Fastener
  readonly count: number
}

/**
 * The fasteners of which new ones are needed when the parts of a plan go back: one list for the bill, the
 * ledger and the sheet. A loosened part has its fasteners undone like one that comes out.
 */
export function listFastenersToRenew(factoryParts: readonly FactoryPart[], plan: RestorationPlan): FastenerToRenew[] {
  const goesBack = new Set(plan.putBack.map(step => step.id))
  return factoryParts.filter(part => goesBack.has(part.id)).flatMap(part => part.fasteners
    .map(fastener => ({ part, fastener, count: toNewCount(fastener) }))
    .filter(({ count }) => count > 0))
}

function listHardware({ factoryParts }: RestorationInput, plan: RestorationPlan): BuyLine[] {
  return listFastenersToRenew(factoryParts, plan).map(({ part, fastener, count }) => ({
    name: toFastenerName(fastener),
    count,
    priceMinor: fastener.priceMinor,
    leadDays: fastener.leadDays,
    reason: fastener.isSingleUse ? 'single-use' as const : 'breaks' as const,
    forNumbers: [toPartNumber(part)],
    from: toShares(toPartLabel(part), fastener),
  }))
}

function toShares(label: string, { count, isSingleUse, breakThousandths }: Fastener): BuyShare[] {
  const spares = { label, why: `of ${count}, ${breakThousandths / 10} in 100 break, rounded up`, count: sparesOf(count, breakThousandths) }
  return [...(isSingleUse ? [{ label, why: 'used once', count }] : []), ...(spares.count > 0 ? [spares] : [])]
}

function merge(lines: readonly BuyLine[]): BuyLine[] {
  const groups = groupBy(lines, ({ name, priceMinor, leadDays, reason }) => JSON.stringify([reason, name, priceMinor, leadDays]))
  return [...groups.values()].flatMap(group => group.slice(0, 1).map(first => ({
    ...first,
    count: sumOf(group, line => line.count),
    forNumbers: [...new Set(group.flatMap(line => line.forNumbers))],
    from: group.flatMap(line => line.from),
  })))
}
