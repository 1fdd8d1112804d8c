import type { ReturnToStockData } from '../../web/restoration/returnToStock.tsx'
import type { WhereaboutsData } from '../../web/restoration/whereabouts.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { Body, ZonePlace } from '../../web/shared/zonePlaces.ts'
import { isInVehicle, toPartNumber, type FactoryPart, type Fastener } from '../calc/removal/factoryParts.ts'
import { formatIn } from '../calc/figures.ts'
import { listOutOfUse } from '../calc/restoration/outOfUse.ts'
import { Problem } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { addressOf, scopeInWords } from './restorationData.ts'
import { mayShowMoney, toRestoration, withoutMoney, type Restoration, type RestorationAsked } from './result.ts'
import type { ShopHead, VehicleState } from './store.ts'
import { basisInWords, listOpenPoints } from './unsettled.ts'

/** The sheet for these parts, drawn from the build as it is recorded at this moment; what changed since delivery stands in its title block. */
export function sheetData(state: VehicleState, shop: ShopHead, viewer: Viewer, asked: RestorationAsked, sinceDelivery = ''): ReturnToStockData {
  const found = toRestoration(state, asked)
  if ('sentence' in found) throw new Problem(409, 'No order is possible', found.sentence)
  const { verdict, checklist, basis } = found
  const showsMoney = mayShowMoney(viewer.role, state)
  const { build, vehicle } = state
  return {
    titleBlock: {
      owner: shop.name === '' ? 'shop not named yet' : shop.name, ownerMore: [shop.address, shop.phone].filter((text) => text !== '').join(', '),
      title: 'Return to stock', subtitle: subtitleOf(state),
      documentType: 'Return-to-stock sheet', number: `R-${label('B', build.number).slice('B-'.length)}-1`,
      revision: 'not frozen', ...(sinceDelivery === '' ? {} : { status: sinceDelivery }), dateOfIssue: viewer.today, language: 'en', createdBy: viewer.name, approvedBy: '',
      build: label('B', build.number), replaces: '',
    },
    scope: scopeInWords(asked, state), verdict: showsMoney ? verdict : withoutMoney(verdict), checklist, showsMoney,
    whereabouts: { body: vehicle.body as Body, zones: state.zones.map((zone) => ({ ...zone, place: zone.place as ZonePlace })), places: toPlaces(found), tools: toTools(found) },
    factoryOptions: vehicle.factoryOptions,
    outOfUse: listOutOfUse(found.input, found.plan), openPoints: listOpenPoints(found, state, viewer.role),
    standing: `Not frozen: drawn on ${writeDay(viewer.today)} from the build as it is recorded; print it again after every change. ${basisInWords(basis)}`,
    backHref: `/builds/${build.id}/restoration?${addressOf({ ...asked, basis })}`,
  }
}

function subtitleOf({ build, vehicle: { make, model, year, vin } }: VehicleState): string {
  const named = [make, model, year].filter(Boolean).join(' ')
  return [build.title, named, vin === '' ? '' : `VIN ${vin}`].filter((text) => text !== '').join(', ')
}

/** Where what goes back lies now, place by place. */
function toPlaces({ plan, input }: Restoration): WhereaboutsData['places'] {
  const kept = new Set(plan.putBack.filter(({ how }) => how === 'refit').map(({ id }) => id))
  const lying = input.factoryParts.filter((part) => kept.has(part.id) && !isInVehicle(part))
  const placeOf = (part: FactoryPart): string => (part.state === 'out with the customer' ? ['with the customer', part.place].filter((word) => word !== '').join(': ') : part.place || 'place not recorded')
  const places = [...new Set(lying.map(placeOf))].toSorted((a, b) => a.localeCompare(b, 'en', { numeric: true }))
  return places.map((place) => ({ place, holds: lying.filter((part) => placeOf(part) === place).map(toPartNumber).join(', ') }))
}

/** Drives with the sizes they are for, and the reach of the torque wrench. */
function toTools({ plan, input }: Restoration): string[] {
  const touched = new Set([...plan.takeOut, ...plan.putBack].map(({ id }) => id))
  const fasteners = input.factoryParts.filter(({ id }) => touched.has(id)).flatMap((part) => part.fasteners)
  const drives = [...new Set(fasteners.map(({ drive }) => drive).filter((drive) => drive !== ''))].toSorted()
  return [
    ...drives.map((drive) => `${drive}${sizesFor(fasteners.filter((fastener) => fastener.drive === drive))}`),
    ...(fasteners.some(({ kind }) => kind === 'clip' || kind === 'push pin') ? ['trim tool for clips'] : []),
    ...torqueWrench(fasteners),
  ]
}

function sizesFor(fasteners: readonly Fastener[]): string {
  const sizes = [...new Set(fasteners.map(({ size }) => size).filter((size) => size !== ''))]
  return sizes.length === 0 ? '' : ` for ${sizes.join(', ')}`
}

function torqueWrench(fasteners: readonly Fastener[]): string[] {
  const torques = fasteners.flatMap(({ torqueMnm }) => (torqueMnm === null ? [] : [torqueMnm]))
  if (torques.length === 0) return []
  const [least, most] = [Math.min(...torques), Math.max(...torques)].map((torque) => formatIn(torque, 'torque', 'N·m'))
  return [least === most ? `torque wrench, ${String(least)}` : `torque wrench, ${String(least)} to ${String(most)}`]
}
