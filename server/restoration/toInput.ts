import { withTakenPlaces } from '../calc/restoration/asPlanned.ts'
import { isTrigger, triggersOfZone, type Trigger } from '../calc/removal/cautions.ts'
import type { Alteration, FactoryPart, FactoryPartState, Fastener, InstalledItem } from '../calc/removal/factoryParts.ts'
import type { RemovalEdge } from '../calc/removal/removalEdges.ts'
import type { RestorationInput } from '../calc/restoration/restorationInput.ts'
import { label } from '../shared/records/kind.ts'
import type { VEHICLE_STATE } from './selection.ts'
import type { Prisma } from '../../prisma/client/client.ts'

type Stored = Prisma.BuildGetPayload<{ select: typeof VEHICLE_STATE }>
type StoredPart = Stored['factoryParts'][number]
type Placed = { readonly zone: { readonly place: string }; readonly cautions: string }

/** Stored rows as the calculations take them. */
export function toInput(build: Stored, clipBreakShare: number, photographedIds: ReadonlySet<string>): Omit<RestorationInput, 'choice'> {
  return withTakenPlaces({
    factoryParts: build.factoryParts.map((part) => toFactoryPart(part, clipBreakShare)),
    installedItems: toInstalledItems(build),
    edges: build.edges.filter(isInForce(build)).map(toEdge),
    alterations: build.alterations.map((row) => toAlteration(row, photographedIds.has(row.id))),
  })
}

function toFactoryPart(part: StoredPart, clipBreakShare: number): FactoryPart {
  return {
    id: part.id, number: part.number, name: part.name, makerNumber: part.partNumber, zoneId: part.zoneId, zoneName: part.zone.name,
    state: part.state as FactoryPartState, stays: part.stays, place: placeOf(part), takeOutS: part.takeOut, putBackS: part.putBack,
    cautionTriggers: triggersOf(part), connectors: part.connectors,
    fasteners: part.fasteners.map((fastener) => toFastener(fastener, clipBreakShare)),
    leadDays: part.leadDays, replaceCostMinor: part.replaceCost, note: part.note,
  }
}

/** Where a part lies, in words: its bin with where that stands, else the place that was noted. */
export function placeOf({ bin, place }: Pick<StoredPart, 'bin' | 'place'>): string {
  return bin ? `bin ${label('A', bin.number)}, ${bin.place}` : place
}

// A clip of which nobody says how many break does so as often as the shop's settings say clips do.
function toFastener({ torque, breakShare, price, ...fastener }: StoredPart['fasteners'][number], clipBreakShare: number): Fastener {
  const unsaid = fastener.kind === 'clip' && !fastener.isSingleUse ? clipBreakShare : 0
  return { ...fastener, torqueMnm: torque, breakThousandths: breakShare ?? unsaid, priceMinor: price }
}

// What was noted, and what always goes with that place on the vehicle.
function triggersOf({ cautions, zone }: Placed): Trigger[] {
  return [...new Set([...cautions.split(',').filter(isTrigger), ...triggersOfZone(zone.place)])]
}

// A rule about something that is taken away from the build rests until it is brought back.
function isInForce({ factoryParts, lines, parts }: Stored): (edge: Stored['edges'][number]) => boolean {
  const known = new Set([...factoryParts, ...lines, ...parts].map(({ id }) => id))
  return ({ beforeId, afterId }) => known.has(beforeId) && known.has(afterId)
}

const GRAPHS: Readonly<Record<string, RemovalEdge['graph']>> = { 'as found': 'found', 'as built': 'built', 'going back': 'reinstall' }

function toEdge({ graph, kind, beforeId, afterId, way }: Stored['edges'][number]): RemovalEdge {
  const known = GRAPHS[graph]
  if (!known) throw new Error(`no order of removal is called ${graph}`)
  return { graph: known, kind: kind === 'loosened' ? 'loosened' : 'out', beforeId, afterId, ...(way === '' ? {} : { way }) }
}

function toInstalledItems({ lines, parts }: Stored): InstalledItem[] {
  const common = (item: Stored['lines'][number] | Stored['parts'][number]) => ({
    id: item.id, zoneId: item.zoneId, zoneName: item.zone.name, isFitted: item.isFitted, takeOutS: item.takeOut,
    putBackS: item.putBack, cautionTriggers: triggersOf(item), replacesFactoryPartIds: [],
  })
  return [
    ...lines.map((line): InstalledItem => ({
      ...common(line), kind: 'equipment', number: label('E', line.number), fasteners: line.mounting,
      name: line.quantity > 1 ? `${line.quantity} × ${line.name}` : line.name,
    })),
    ...parts.map((part): InstalledItem => ({
      ...common(part), kind: 'made part', number: label('P', part.number), name: part.quantity > 1 ? `${part.quantity} × ${part.name}` : part.name, fasteners: part.removable,
    })),
  ]
}

function toAlteration(row: Stored['alterations'][number], hasPhoto: boolean): Alteration {
  const { partToBuy, partCost, outsideWork, outsideCost, outsideDays } = row
  const further = row.furtherParts.map(({ name, count, cost, leadDays }) => ({ name, count, priceMinor: cost, leadDays }))
  return {
    id: row.id, number: label('X', row.number), zoneId: row.zoneId, zoneName: row.zone.name, zonePlace: row.zone.place,
    factoryPartId: row.factoryPartId,
    what: row.what, whereAt: row.whereAt, kind: row.kind, consentBy: row.consentBy, hasPhoto, isReversible: row.isReversible, reversal: row.reversal,
    reverseS: row.reverse, leadDays: Math.max(row.leadDays, ...further.map(({ leadDays }) => leadDays)), isReversed: row.reversedOn !== null,
    partsToBuy: [...(partToBuy === '' ? [] : [{ name: partToBuy, count: 1, priceMinor: partCost, leadDays: row.leadDays }]), ...further],
    ...(outsideWork === '' ? {} : { outside: { what: outsideWork, costMinor: outsideCost, days: outsideDays } }),
  }
}
