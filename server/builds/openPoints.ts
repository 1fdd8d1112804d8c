import type { Costing } from '../calc/costing/costing.ts'
import { placesOf } from '../calc/parts/owners.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { finishPoints } from './finishPoints.ts'
import { label } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import { fitsOf } from './fitChecks.ts'
import { listRunningOver } from './runningOver.ts'
import type { StoredBuild } from './store.ts'

/** What is open in a zone: noted by somebody, or seen in the records. */
export interface OpenPoint {
  readonly zoneId: string
  /** 4.1 is the first that somebody noted in zone 4, 4.a the first that the records show. */
  readonly number: string
  readonly text: string
  readonly person: string
  readonly stopsWork: boolean
  readonly href: string
}

type Seen = Pick<OpenPoint, 'zoneId' | 'text' | 'href'> & { readonly stopsWork?: boolean }

/** All open points of a build, zone by zone, the noted ones first. A torque nobody knows is none: the sheet sends to the maker's manual. */
export function listOpenPoints(stored: StoredBuild, costing: Costing, { today, role }: Pick<Viewer, 'today' | 'role'>): OpenPoint[] {
  const seen = [
    ...finishPoints(stored), ...withoutConsent(stored), ...withoutPhoto(stored), ...withoutPlace(stored), ...withoutSerialNumber(stored), ...late(stored, today), ...overEstimate(costing), ...notFitting(stored),
    ...(MANAGERS.includes(role) ? withoutPrice(stored) : []),
  ]
  const nameOf = new Map(stored.people.map(({ id, name }) => [id, name]))
  return stored.zones.flatMap((zone) => [
    ...stored.points.filter(({ zoneId }) => zoneId === zone.id).map((point) => ({
      zoneId: zone.id, number: `${zone.number}.${point.number}`, text: point.text, person: nameOf.get(point.personId ?? '') ?? '',
      stopsWork: point.stopsWork, href: `/open-points/${point.id}`,
    })),
    ...seen.filter(({ zoneId }) => zoneId === zone.id).map((point, index) => ({
      ...point, number: `${zone.number}.${letters(index)}`, person: '', stopsWork: point.stopsWork ?? false,
    })),
  ])
}

/** @example letters(27) // 'ab', which follows z and aa */
export function letters(index: number): string {
  const last = String.fromCharCode(97 + index % 26)
  return index < 26 ? last : `${letters(Math.floor(index / 26) - 1)}${last}`
}

function withoutConsent({ alterations }: StoredBuild): Seen[] {
  return alterations.filter(({ consentBy, reversedOn }) => consentBy === '' && reversedOn === null).map(({ id, zoneId, number, what }) => ({
    zoneId, href: `/alterations/${id}`, text: `Alteration ${label('X', number)}, ${what}: nobody’s consent is recorded.`,
  }))
}

function withoutPhoto({ alterations, alterationPhotos }: StoredBuild): Seen[] {
  const shown = new Set(alterationPhotos.map(({ subjectId }) => subjectId))
  return alterations.filter(({ id, reversedOn }) => reversedOn === null && !shown.has(id)).map(({ id, zoneId, number, what }) => ({
    zoneId, href: `/alterations/${id}`, text: `Alteration ${label('X', number)}, ${what}: no photo shows it.`,
  }))
}

function withoutPlace({ factoryParts }: StoredBuild): Seen[] {
  return factoryParts.filter(({ state, bin, place }) => state === 'out and stored' && bin === null && place === '').map(({ id, zoneId, number, name }) => ({
    zoneId, href: `/factory-parts/${id}`, text: `${label('F', number)} ${name} is out, and where it lies is not recorded.`,
  }))
}

function withoutSerialNumber({ lines }: StoredBuild): Seen[] {
  return lines.filter(({ receivedOn, serialNumbers, item }) => receivedOn !== null && serialNumbers.trim() === '' && item?.kind !== 'wiring')
    .map(({ id, zoneId, number, name }) => ({
      zoneId, href: `/equipment-lines/${id}`, text: `${label('E', number)} ${name} is received without a serial number.`,
    }))
}

// What has material needs of its own may be paid with those; what its kit brings is beside it.
function withoutPrice({ head, lines, needs }: StoredBuild): Seen[] {
  if (head.stage === 'delivered') return []
  const withNeeds = new Set(needs.filter(({ kitPart }) => kitPart === null).map(({ lineId }) => lineId))
  return lines.filter(({ id, suppliedBy, cost, price }) => suppliedBy === 'shop' && (cost === 0 || price === 0) && !withNeeds.has(id))
    .map(({ id, zoneId, number, name, cost, price }) => {
      const missing = [price === 0 ? 'price' : '', cost === 0 ? 'cost' : ''].filter((word) => word !== '').join(' or ')
      return { zoneId, href: `/equipment-lines/${id}`, text: `${label('E', number)} ${name} has no ${missing} yet, so it counts as nothing.` }
    })
}

/** What does not fit, and what is here to be fitted and was not measured. */
function notFitting(stored: StoredBuild): Seen[] {
  return fitsOf(stored)
    .filter(({ line, answer: { state } }) => state === 'does not fit' || (state === 'open' && line.receivedOn !== null && !line.isFitted))
    .map(({ line, place, answer }) => ({
      zoneId: line.zoneId, href: `/equipment-lines/${line.id}`,
      text: `${label('E', line.number)} ${line.name} in ${label('L', place.number)} ${place.name}: ${answer.words.charAt(0).toLowerCase()}${answer.words.slice(1)}`,
    }))
}

function late(stored: StoredBuild, today: string): Seen[] {
  const isLate = ({ expectedOn, receivedOn }: { expectedOn: string | null, receivedOn: string | null }): boolean =>
    expectedOn !== null && receivedOn === null && expectedOn < today
  const materials = new Map(stored.materials.map(({ id, name }) => [id, name]))
  const owners = new Map([...stored.parts, ...stored.lines, ...stored.factoryParts].map((owner) => [owner.id, owner.zoneId]))
  return [
    ...stored.lines.filter(isLate).map(({ id, zoneId, number, name, expectedOn }) => ({
      zoneId, href: `/equipment-lines/${id}`, text: `${label('E', number)} ${name} was expected ${writeDay(expectedOn ?? '')} and is not here.`,
    })),
    ...stored.needs.filter(isLate).map((need) => ({
      zoneId: owners.get(need.partId ?? need.lineId ?? need.factoryPartId ?? '') ?? '', href: `/material-needs/${need.id}`,
      text: `${materials.get(need.materialId) ?? 'Material'} was expected ${writeDay(need.expectedOn ?? '')} and is not here.`,
    })),
  ]
}

function overEstimate(costing: Costing): Seen[] {
  // Those that are only nearly used stand on the estimate, the part and the technician’s page: the ledger of a large build is full.
  return listRunningOver(costing).filter(({ costing: { figures } }) => figures.forecastS > figures.estimatedS).map(({ costing: { operation, owner, label: name }, words }) => ({
    zoneId: placesOf(owner)[0]?.[0] ?? '', href: `/operations/${operation.id}`, text: `${name}: ${words}.`,
  }))
}
