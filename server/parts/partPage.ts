import { cautionsFor, isTrigger, triggersOfOperation, triggersOfVehicle, triggersOfZone } from '../calc/removal/cautions.ts'
import type { PartCosting } from '../calc/costing/costing.ts'
import type { OperationCosting } from '../calc/costing/costRows.ts'
import type { CautionProps } from '../../web/shared/caution.tsx'
import type { PartData } from '../../web/parts/partData.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { seesMoney } from '../builds/figures.ts'
import type { BuildFigures } from '../builds/figures.ts'
import { addHref } from '../builds/links.ts'
import type { StoredBuild } from '../builds/store.ts'
import { loggedOfPart, remainingOfPart } from '../builds/workings.ts'
import { notFound } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { BENCH, MANAGERS } from '../shared/roles.ts'
import { toPartEntries } from './partEntries.ts'
import { toPartFinishes } from './partFinishes.ts'
import { toPartMaterials } from './partMaterials.ts'
import { toPartOperations } from './partOperations.ts'
import { treeAround } from './partTree.ts'

/** One part of a build with its records and figures, as its page and the pieces of that page take them. */
export interface PartSources {
  readonly stored: StoredBuild
  readonly figures: BuildFigures
  readonly part: StoredBuild['parts'][number]
  readonly costing: PartCosting
  readonly operations: readonly OperationCosting[]
  readonly count: number
  /** What copied operations took where they were taken from, in words, by id. */
  readonly earlier?: ReadonlyMap<string, string>
}

/** Throws a 404 for a part that is not in use. */
export function sourcesOf(stored: StoredBuild, figures: BuildFigures, partId: string): PartSources {
  const part = stored.parts.find(({ id }) => id === partId)
  const costing = figures.costing.byPart.find((each) => each.partId === partId)
  if (!part || !costing) throw notFound('made part')
  return {
    stored, figures, part, costing,
    operations: figures.costing.operations.filter(({ operation }) => operation.partId === partId),
    count: figures.bill.parts.find((line) => line.part.id === partId)?.count ?? 0,
  }
}

/** All that the page of a made part shows to this viewer, but for its history. */
export function toPartPage(sources: PartSources, viewer: Viewer): Omit<PartData, 'history' | 'saved'> {
  const { stored, figures, part, costing, operations, count } = sources
  const { head } = stored
  const number = label('P', part.number)
  const zone = stored.zones.find(({ id }) => id === part.zoneId)
  const estimate = figures.costing.estimate.byPart.find(({ partId }) => partId === part.id)
  return {
    trail: [
      { name: `${label('B', head.number)} ${head.title}`, href: `/builds/${head.id}` },
      ...(zone ? [{ name: `${zone.number} ${zone.name}`, href: `/builds/${head.id}#zone-${zone.number}` }] : []),
      { name: `${number} ${part.name}` },
    ],
    number, name: part.name, family: part.family, quantity: quantityWords(count), fitsTo: fitsTo(sources, zone?.name ?? ''),
    drawing: part.drawing, mass: part.mass === null ? undefined : { kind: 'mass', value: part.mass },
    onItNow: onItNow(sources),
    hours: {
      estimate: (estimate?.own ?? figures.costing.estimate.total).workings.labor, logged: loggedOfPart(costing.label, costing.own.figures),
      remaining: remainingOfPart(costing.label, operations), forecast: costing.own.workings.forecast,
    },
    ...(seesMoney(viewer) ? { money: moneyOf(sources) } : {}),
    cautions: cautionsOf(sources, zone?.place ?? ''),
    operations: toPartOperations(sources, viewer), materials: toPartMaterials(sources), entries: toPartEntries(sources, viewer), finishes: toPartFinishes(sources),
    tree: treeAround(sources), goesBack: part.removable, note: part.note,
    links: linksOf(sources, viewer),
  }
}

function moneyOf({ costing: { partId, own, withPieces }, stored }: PartSources): NonNullable<PartData['money']> {
  const hasPieces = stored.uses.some(({ parentId }) => parentId === partId)
  const { wholePrice: price, wholeCost: cost, wholeMargin: margin } = own.workings
  return { price, cost, margin, ...(hasPieces ? { withPieces: withPieces.workings.wholeMargin } : {}) }
}

function quantityWords(count: number): string {
  if (count === 0) return 'none needed: give it a quantity or a place in an assembly'
  return count === 1 ? '1' : `${count} pieces, one batch`
}

function fitsTo({ stored, part }: PartSources, zoneName: string): string {
  const parents = stored.uses.filter(({ partId }) => partId === part.id)
    .flatMap(({ parentId }) => stored.parts.filter(({ id }) => id === parentId)).map(({ number, name }) => `${label('P', number)} ${name}`)
  return [zoneName, ...parents.map((parent) => `in ${parent}`)].join(', ')
}

function onItNow({ stored, operations }: PartSources): string {
  const ids = new Set(operations.map(({ operation }) => operation.id))
  const names = new Map(stored.people.map(({ id, name }) => [id, name]))
  return stored.timers.filter(({ operationId }) => ids.has(operationId)).map(({ personId }) => names.get(personId) ?? '').join(', ')
}

function cautionsOf({ stored, part, operations }: PartSources, place: string): CautionProps[] {
  const materials = new Set(stored.needs.filter(({ partId }) => partId === part.id).map(({ materialId }) => materialId))
  const noted = [part, ...stored.materials.filter(({ id }) => materials.has(id))].flatMap(({ cautions }) => cautions.split(',')).filter(isTrigger)
  const triggers = [
    ...noted, ...triggersOfZone(place), ...triggersOfVehicle(stored.head.vehicle.energy),
    ...operations.filter(({ operation }) => operation.state !== 'done').flatMap(({ operation }) => triggersOfOperation(operation.kind)),
  ]
  return cautionsFor(triggers, { batteryWaitS: stored.head.vehicle.airbagWait })
    .map(({ signalWord, title, text }) => ({ signal: signalWord, title, text }))
}

function linksOf({ stored: { head }, part }: PartSources, { role }: Viewer): PartData['links'] {
  const isBench = BENCH.includes(role)
  return {
    edit: isBench ? `/parts/${part.id}/form` : undefined,
    addOperation: MANAGERS.includes(role) ? addHref(role, 'operation', head.id, { partId: part.id }) : undefined,
    addMaterial: addHref(role, 'material need', head.id, { partId: part.id }),
    addFinish: addHref(role, 'finish', head.id, { partId: part.id }), schedule: `/builds/${head.id}/finishes`,
    addPiece: isBench ? `/parts/${part.id}/pieces/new` : undefined,
    addToAssembly: addHref(role, 'use in an assembly', head.id, { partId: part.id }),
    record: `/parts/${part.id}/record`,
    log: isBench ? `/hours/new?build=${head.id}` : undefined,
  }
}
