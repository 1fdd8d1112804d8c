import type { ChecklistDraft } from './checklist.ts'
import { toPartLabel, toPartNumber } from '../removal/factoryParts.ts'
import type { Alteration, FactoryPart, Fastener } from '../removal/factoryParts.ts'
import { toBreakText, toFastenerName, toFastenerText, toFreeFasteners, toNewCount, toSheetTorque } from '../removal/fastenerText.ts'
import type { SheetFastener } from '../removal/fastenerText.ts'
import type { PutBackStep, RestorationPlan } from './restoration.ts'
import type { RestorationInput } from './restorationInput.ts'
import { toReversalSteps, toWhatAndWhere } from './reversal.ts'
import { listThings } from './things.ts'
import type { Thing } from './things.ts'
import { triggersOfAlteration, triggersOfZone } from '../removal/triggers.ts'
import type { Trigger } from '../removal/triggers.ts'

const NO_PLACE = 'label it, note the bin'
const FOR_OWNER = 'set aside for the owner'
const PUT_ASIDE = 'as labeled when taken out'

export function listTakeOutDrafts(input: RestorationInput, plan: RestorationPlan): ChecklistDraft[] {
  const things = new Map(listThings(input).map(thing => [thing.id, thing]))
  return plan.takeOut.flatMap(({ id, depth, clearsIds }) => {
    const thing = things.get(id)
    if (!thing) return []
    const text = depth === 'loosened' ? `Loosen ${thing.label}; it stays in the vehicle.`
      : `Take out ${thing.label}${isForGood(plan, id) ? ' for good' : ''}.`
    const connectors = findPart(input, id)?.connectors ?? ''
    return [{
      ...toFrame('take out', thing, listTriggers(input, thing)),
      text: connectors === '' ? text : `${text} Unplug: ${connectors}.`,
      fasteners: listFasteners(input, id, isForGood(plan, id) ? 'for good' : 'for now'),
      place: depth === 'loosened' ? '' : isForGood(plan, id) ? FOR_OWNER : findPart(input, id)?.place || NO_PLACE,
      notes: clearsIds.length > 0 ? [`in front of ${clearsIds.map(behind => things.get(behind)?.number ?? behind).join(', ')}`] : [],
    }]
  })
}

export function listReinstallDrafts(input: RestorationInput, plan: RestorationPlan): ChecklistDraft[] {
  const things = new Map(listThings(input).map(thing => [thing.id, thing]))
  return plan.putBack.flatMap(({ id, how }) => {
    const thing = things.get(id)
    if (!thing) return []
    const part = findPart(input, id)
    const connectors = part?.connectors ?? ''
    const text = toPutBackText(how, thing)
    return [{
      ...toFrame('reinstall', thing, listTriggers(input, thing)),
      text: connectors === '' ? text : `${text} Connect: ${connectors}.`,
      fasteners: listFasteners(input, id, 'back'),
      place: how === 'refit' ? findPlace(part, plan) : '',
      notes: part ? listHardwareNotes(part.fasteners) : [],
    }]
  })
}

function toPutBackText(how: PutBackStep['how'], { label }: Thing): string {
  if (how === 'tighten') return `Make ${label} fast again.`
  return how === 'fit new' ? `Fit the new ${label}.` : `Refit ${label}.`
}

export function listRepairDrafts(input: RestorationInput, plan: RestorationPlan): ChecklistDraft[] {
  const lasting = input.alterations.filter(alteration => plan.lastingAlterationIds.includes(alteration.id))
  return [
    ...plan.repairs.flatMap(repair => {
      if (repair.kind === 'reverse') {
        return input.alterations.filter(alteration => alteration.id === repair.alterationId).flatMap(toReversalDrafts)
      }
      const part = findPart(input, repair.factoryPartId)
      return part ? [toPartDraft(repair.kind, part)] : []
    }),
    ...lasting.map(alteration => ({
      ...toAlterationFrame(alteration),
      text: `Alteration ${alteration.number} (${toWhatAndWhere(alteration)}) cannot be undone: make it safe and tight, and write it into the handover.`,
    })),
  ]
}

/** Each line of the reversal is a step; what another firm does comes after them. */
function toReversalDrafts(alteration: Alteration): ChecklistDraft[] {
  const { number, outside } = alteration
  const frame = toAlterationFrame(alteration)
  const own = toReversalTexts(alteration).map((text, index) => ({ ...frame, text, notes: index > 0 ? [] : alteration.partsToBuy.map(part => `new: ${part.count} × ${part.name}`) }))
  if (!outside) return own
  const days = outside.days === 0 ? '' : `; away for ${outside.days} working ${outside.days === 1 ? 'day' : 'days'}`
  return [...own, { ...frame, text: `Have done outside, for alteration ${number}: ${outside.what.replace(/\.$/, '')}${days}.` }]
}

function toReversalTexts(alteration: Alteration): string[] {
  const { number, isReversible, reversal } = alteration
  const named = `alteration ${number} (${toWhatAndWhere(alteration)})`
  const [first, ...more] = toReversalSteps(reversal)
  if (!isReversible) {
    const how = first === undefined ? '' : `, ${[first, ...more].join('; ')}`
    return [`Alteration ${number} (${toWhatAndWhere(alteration)}) cannot be undone: fit the new part in place of what was altered${how}.`]
  }
  if (first === undefined || more.length === 0) return [`Undo ${named}: ${first ?? 'how is not on record'}.`]
  return [first, ...more].map((step, index) => `Undo ${index === 0 ? named : number}, ${index + 1} of ${more.length + 1}: ${step}.`)
}

function toPartDraft(kind: 'bring' | 'buy' | 'inspect', part: FactoryPart): ChecklistDraft {
  const label = toPartLabel(part)
  const texts = {
    bring: `Have the customer bring ${label}; check that it is whole and complete.`,
    buy: `Have the new ${label} at hand; check that it is the right one.`,
    inspect: `Look at ${label}: marked altered, but nothing is on record. Put it right, or write down what remains.`,
  }
  return { ...toFrame('repair', { id: part.id, zoneName: part.zoneName, number: toPartNumber(part) }, []), text: texts[kind] }
}

function toFrame(
  phase: ChecklistDraft['phase'], { id, zoneName, number }: Pick<Thing, 'id' | 'zoneName' | 'number'>, triggers: readonly Trigger[],
): ChecklistDraft {
  return { phase, zoneName, itemNumber: number, thingId: id, text: '', fasteners: [], place: '', notes: [], triggers }
}

function toAlterationFrame({ id, zoneName, zonePlace = '', number, kind }: Alteration): ChecklistDraft {
  return toFrame('repair', { id, zoneName, number }, [...triggersOfAlteration(kind), ...triggersOfZone(zoneName), ...triggersOfZone(zonePlace)])
}

function findPlace(part: FactoryPart | undefined, plan: RestorationPlan): string {
  if (!part || plan.takeOut.some(step => step.id === part.id)) return PUT_ASIDE
  if (part.state === 'out with the customer') return part.place === '' ? 'with the customer' : `with the customer: ${part.place}`
  return part.place || 'place not recorded'
}

function findPart(input: RestorationInput, id: string): FactoryPart | undefined {
  return input.factoryParts.find(part => part.id === id)
}

/** Installed items that stay out, and factory parts for which a new one goes in. */
function isForGood(plan: RestorationPlan, id: string): boolean {
  return plan.staysOutIds.includes(id) || plan.putBack.some(step => step.id === id && step.how === 'fit new')
}

function listFasteners(input: RestorationInput, id: string, goes: 'for now' | 'for good' | 'back'): SheetFastener[] {
  const part = findPart(input, id)
  const item = input.installedItems.find(known => known.id === id)
  const lines: SheetFastener[] = part ? part.fasteners.map(fastener => ({ text: toFastenerText(fastener), torque: toSheetTorque(fastener), ...(fastener.isSafety ? { isSafety: true } : {}) }))
    : toFreeFasteners(item?.fasteners ?? '')
  if (goes === 'back') return lines
  // A factory part's fasteners serve its successor; those of a built thing that stays out serve nobody.
  const torque = goes === 'for good' && !part ? 'not used again' : 'when refitting'
  return lines.map(line => ({ ...line, torque }))
}

function listHardwareNotes(fasteners: readonly Fastener[]): string[] {
  return fasteners.filter(fastener => toNewCount(fastener) > 0).map(fastener => fastener.isSingleUse
    ? `${toNewCount(fastener)} new: ${toFastenerName(fastener)} is single-use`
    : `${toNewCount(fastener)} spare ${toFastenerName(fastener)}: ${toBreakText(fastener.breakThousandths)}`)
}

function listTriggers(input: RestorationInput, thing: Thing): Trigger[] {
  const isSafety = findPart(input, thing.id)?.fasteners.some(fastener => fastener.isSafety) ?? false
  return [...thing.triggers, ...triggersOfZone(thing.zoneName), ...triggersOfZone(thing.label), ...(isSafety ? ['seat or belt' as const] : [])]
}
