import { isInVehicle, toPartNumber } from '../calc/removal/factoryParts.ts'
import type { Alteration, FactoryPart } from '../calc/removal/factoryParts.ts'
import { sumOf } from '../calc/grouping.ts'
import { listFastenersToRenew } from '../calc/restoration/partsToBuy.ts'
import type { FastenerToRenew } from '../calc/restoration/partsToBuy.ts'
import type { LedgerItem } from '../../web/builds/ledgerData.ts'
import { writeHours } from '../../web/shared/amount.ts'
import { counted } from '../../web/shared/text.ts'
import type { GoingBack } from './goingBack.ts'

/** What goes back in a zone: as it is, new, mended; what is undone; and the hours. */
export function goesBack({ input, plan, steps }: GoingBack, { id: zoneId, number }: { readonly id: string, readonly number: number }): LedgerItem[] {
  const alterations = input.alterations.filter((alteration) => alteration.zoneId === zoneId)
  if (!plan) return alterations.map(toAlterationItem)
  const back = plan.putBack.flatMap(({ id, how }) => input.factoryParts.filter((part) => part.id === id && part.zoneId === zoneId).map((part) => ({ part, how })))
  const repaired = new Map(plan.repairs.flatMap((repair) => (repair.kind === 'reverse' ? [] : [[repair.factoryPartId, repair.kind] as const])))
  const asTheyAre = back.filter(({ part }) => !repaired.has(part.id)).map(({ part }) => part)
  const seconds = sumOf(steps.filter((step) => step.zoneId === zoneId), (step) => step.seconds)
  return [
    ...toPlainItems(asTheyAre),
    ...back.flatMap(({ part }) => toRepairItem(part, repaired.get(part.id))),
    ...toRenewed(listFastenersToRenew(input.factoryParts, plan).filter(({ part }) => part.zoneId === zoneId)),
    ...toComesOut(input.installedItems.filter((item) => item.zoneId === zoneId && plan.staysOutIds.includes(item.id)).length),
    ...alterations.map(toAlterationItem),
    ...(seconds === 0 ? [] : [{ number: 'work', name: '', hours: { text: `${writeHours(seconds)} h`, how: `z${number}b` } }]),
  ]
}

function toPlainItems(parts: readonly FactoryPart[]): LedgerItem[] {
  const [first, ...others] = parts
  if (!first) return []
  if (others.length === 0) return [{ number: toPartNumber(first), name: `${first.name} as it is`, href: `/factory-parts/${first.id}` }]
  const moved = parts.filter(isInVehicle).length
  return [{
    number: `${parts.length} parts`, name: 'go back as they are',
    ...(moved === 0 ? {} : { detail: `${moved} of them now in the vehicle, and out on the way` }),
  }]
}

const REPAIRS: Readonly<Record<'bring' | 'buy' | 'inspect', string>> = {
  bring: 'is with the customer: to be brought', buy: 'a new one has to be bought', inspect: 'marked altered, nothing on record: look at it',
}

function toRepairItem(part: FactoryPart, kind: keyof typeof REPAIRS | undefined): LedgerItem[] {
  return kind === undefined ? [] : [{ number: toPartNumber(part), name: part.name, href: `/factory-parts/${part.id}`, detail: REPAIRS[kind] }]
}

function toRenewed(fasteners: readonly FastenerToRenew[]): LedgerItem[] {
  const count = sumOf(fasteners, (one) => one.count)
  return count === 0 ? [] : [{ number: 'buy', name: counted(count, 'fastener to renew', 'fasteners to renew'), detail: 'single-use, or expected to break' }]
}

function toComesOut(count: number): LedgerItem[] {
  return count === 0 ? [] : [{ number: 'out', name: counted(count, 'installed thing comes out for good', 'installed things come out for good') }]
}

function toAlterationItem({ id, number, what, isReversed, isReversible, reversal, consentBy }: Alteration): LedgerItem {
  const way = isReversed ? 'reversed' : isReversible ? reversal : 'cannot be undone'
  return {
    number, name: what, href: `/alterations/${id}`, state: isReversed ? 'done' : 'altered',
    detail: [consentBy === '' ? 'no consent recorded' : `consent of ${consentBy}`, way].filter((word) => word !== '').join('; '),
  }
}
