import { toPartLabel } from '../calc/removal/factoryParts.ts'
import type { Role } from '../../web/shared/viewer.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { Basis, Restoration } from './result.ts'
import type { VehicleState } from './store.ts'

/** What would mislead whoever puts it back: alterations nobody consented to or took a photo of, parts that lie nobody knows where. */
export function listUnsettled({ factoryParts, alterations }: VehicleState['input']): string[] {
  const lost = factoryParts.filter((part) => part.state === 'out and stored' && part.place === '')
  const open = alterations.filter((alteration) => !alteration.isReversed)
  const unasked = open.filter(({ consentBy }) => consentBy === '')
  const unseen = open.filter(({ hasPhoto }) => hasPhoto === false)
  return [
    ...unasked.map(({ number, what, zoneName }) => `${number} ${what}, ${zoneName}: nobody is recorded as having consented.`),
    ...unseen.map(({ number, what, zoneName }) => `${number} ${what}, ${zoneName}: no photo shows it.`),
    ...lost.map((part) => `${toPartLabel(part)} is out, and no bin or place is recorded for it.`),
  ]
}

/** What a restoration leaves open, for this reader. */
export function listOpenPoints(found: Restoration, state: VehicleState, role: Role): string[] {
  const { basis, plan, verdict } = found
  const wait = state.vehicle.batteryWaitS !== null && state.vehicle.batteryWaitSource === ''
  return [
    ...listUntouched(found), ...plan.openPoints, ...listUnsettled(state.input),
    ...(plan.isProvenLeast ? [] : ['There are too many named ways in to try all of them: another choice may take less time.']),
    ...(verdict.hours.totalS === 0 && plan.takeOut.length + plan.putBack.length > 0 ? ['No times are recorded for taking out and putting back: the hours say nothing yet.'] : []),
    ...(wait ? ['Where the waiting time after the battery is off comes from is not recorded: check it in the maker’s manual.'] : []),
    ...(basis === 'planned' ? ['Drawn up before the work: bins, conditions and alterations will be known when the parts are out.'] : []),
    ...(state.ratePerHourMinor === null && MANAGERS.includes(role) ? ['No price: choose the department that returns to stock in the shop’s settings.'] : []),
  ]
}

// Somebody who chose a part that is back on already wants to hear so, not to find an empty list.
function listUntouched({ input, plan }: Restoration): string[] {
  const { choice, factoryParts } = input
  if (choice === 'all') return []
  const moved = new Set(plan.putBack.map(({ id }) => id))
  return factoryParts.filter(({ id }) => choice.factoryPartIds.includes(id) && !moved.has(id))
    .map((part) => `${toPartLabel(part)} is in the vehicle and unaltered: it needs nothing.`)
}

/** On what the answer stands, in words. */
export const basisInWords = (basis: Basis): string => (basis === 'planned'
  ? 'As planned: everything entered counts as fitted, and every listed factory part as out unless it goes back on in front of something.'
  : 'As recorded: what is out, altered and fitted now.')
