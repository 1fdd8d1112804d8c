import { CORRECTED, ESTIMATED } from '../operations/toOperation.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'
import { loadRecorded } from '../restoration/store.ts'
import { loadPapers } from './papersStore.ts'

/** All that is recorded for one build, as far as its figures and its ledger look at it. */
export type StoredBuild = Awaited<ReturnType<typeof loadBuilds>>[number]

/** The build itself with vehicle, customer and bay. */
export type StoredHead = Awaited<ReturnType<typeof loadHeads>>[number]

const NOTHING_RECORDED = { factoryParts: [], installedItems: [], edges: [], alterations: [] } as const

type Rows = Awaited<ReturnType<typeof loadRows>>

/** A build with all that belongs to it. Throws a 404 where there is none. */
export async function loadBuild(reads: Reads, id: string): Promise<StoredBuild> {
  const [build] = await loadBuilds(reads, [id])
  if (!build) throw notFound('build')
  return build
}

/** Builds in the order of their ids here, each with all that belongs to it; as many queries for one as for fifty. */
export async function loadBuilds(reads: Reads, ids: readonly string[]) {
  const heads = await loadHeads(reads, ids)
  const rows = await loadRows(reads, ids)
  const { shop, departments, people, materials } = await loadShopRecords(reads, ids)
  const byId = new Map(heads.map((head) => [head.id, head]))
  const recorded = await loadRecorded(reads, ids)
  const papers = await loadPapers(reads, ids)
  return ids.flatMap((id) => byId.get(id) ?? []).map((head) => ({
    head, shop, departments, people, materials, recorded: recorded.get(head.id) ?? NOTHING_RECORDED, papers: papers.get(head.id) ?? null, ...withoutVisits(ofBuild(rows, head.id)),
  }))
}

/** Which builds a list shows: those in the shop, of these only builds or only counter jobs, or those delivered. */
export type Cut = 'open' | 'builds' | 'counter' | 'delivered'

const WHERE_OF_CUT = {
  open: { stage: { not: 'delivered' } },
  builds: { stage: { not: 'delivered' }, kind: { not: 'counter job' } },
  counter: { stage: { not: 'delivered' }, kind: 'counter job' },
  delivered: { stage: 'delivered' },
} as const

interface Wanted {
  readonly cut: Cut
  /** Part of a title, a customer's name or a vehicle's make or model, or a number. */
  readonly find: string
  /** Only builds with a smaller number. */
  readonly before: number | null
  readonly most: number
}

/** Builds, newest first, by id and number. */
export function listBuildIds(reads: Reads, { cut, find, before, most }: Wanted): Promise<{ id: string, number: number }[]> {
  const contains = { contains: find }
  const number = /^(?:B-?)?(\d{1,9})$/i.exec(find)?.[1]
  const found = find === '' ? {} : {
    OR: [
      { title: contains }, { vehicle: { make: contains } }, { vehicle: { model: contains } }, { vehicle: { customer: { name: contains } } },
      ...(number === undefined ? [] : [{ number: Number(number) }]),
    ],
  }
  const older = before === null ? {} : { number: { lt: before } }
  return reads.build.findMany({
    where: { AND: [{ removedAt: null }, WHERE_OF_CUT[cut], older, found] }, orderBy: [{ number: 'desc' }], take: most, select: { id: true, number: true },
  })
}

/** Whether the shop has any build at all, delivered ones too. */
export async function hasAnyBuild(reads: Reads): Promise<boolean> {
  return (await reads.build.findFirst({ where: { removedAt: null }, select: { id: true } })) !== null
}

function loadHeads(reads: Reads, ids: readonly string[]) {
  return reads.build.findMany({
    where: { id: { in: [...ids] } },
    select: {
      id: true, version: true, removedAt: true, number: true, title: true, kind: true, stage: true, holding: true, note: true,
      consent: true, consentBy: true, consentOn: true, deadline: true, promisedOn: true, deliveredOn: true,
      bay: { select: { id: true, name: true } },
      intake: { select: { walkedZones: true } },
      vehicle: {
        select: {
          id: true, make: true, model: true, year: true, body: true, energy: true, odometer: true, airbagWait: true, vin: true,
          customer: { select: { name: true, contact: true, phone: true } },
        },
      },
    },
  })
}

async function loadShopRecords(reads: Reads, ids: readonly string[]) {
  const ofTheseBuilds = { some: { buildId: { in: [...ids] } } }
  const [shop, departments, people, materials] = await Promise.all([
    reads.shop.findFirst({ select: { name: true, address: true, timeZone: true, consentAlarmShare: true, allowedOverrun: true, earningRule: true, restoreDepartmentId: true, goWrongTogether: true } }),
    reads.department.findMany({ orderBy: [{ name: 'asc' }], select: { id: true, name: true, costRate: true, sellRate: true, reworkAllowance: true } }),
    reads.person.findMany({ select: { id: true, name: true } }),
    reads.material.findMany({
      where: { OR: [{ needs: ofTheseBuilds }, { fasteners: ofTheseBuilds }] }, orderBy: [{ name: 'asc' }],
      select: {
        id: true, number: true, name: true, form: true, packSize: true, packName: true, packCost: true, packPrice: true, waste: true,
        supplier: true, leadDays: true, cautions: true,
      },
    }),
  ])
  return { shop, departments, people, materials }
}

async function loadRows(reads: Reads, ids: readonly string[]) {
  const buildId = { in: [...ids] }
  const where = { buildId, removedAt: null }
  const [zones, points, lines, parts, uses, operations, needs, factoryParts, fasteners, alterations, entries, timers, finishes, mountingPlaces, alterationPhotos, corrections] = await Promise.all([
    // A zone that was removed still holds what was taken back after it.
    reads.zone.findMany({ where: { buildId }, orderBy: [{ number: 'asc' }], select: { id: true, buildId: true, removedAt: true, number: true, name: true, place: true } }),
    reads.openPoint.findMany({
      where: { ...where, closedOn: null }, orderBy: [{ number: 'asc' }],
      select: { id: true, buildId: true, zoneId: true, number: true, text: true, personId: true, stopsWork: true },
    }),
    reads.equipmentLine.findMany({
      where, orderBy: [{ number: 'asc' }],
      select: {
        id: true, buildId: true, zoneId: true, number: true, name: true, quantity: true, suppliedBy: true, cost: true, price: true,
        serialNumbers: true, mounting: true, optionId: true, expectedOn: true, receivedOn: true, isFitted: true, cautions: true,
        placeId: true, spacer: true,
        item: { select: { kind: true, leadDays: true, mountingDepth: true, projection: true, length: true, width: true, height: true } },
      },
    }),
    reads.fabricatedPart.findMany({
      where, orderBy: [{ number: 'asc' }],
      select: {
        id: true, buildId: true, zoneId: true, number: true, name: true, family: true, quantity: true, drawing: true, mass: true,
        optionId: true, isFitted: true, removable: true, takeOut: true, putBack: true, cautions: true, note: true,
      },
    }),
    reads.partUse.findMany({ where, select: { id: true, buildId: true, parentId: true, partId: true, quantity: true } }),
    // Removed ones too: hours logged on them stay hours of the build.
    reads.operation.findMany({
      where: { buildId }, orderBy: [{ number: 'asc' }, { id: 'asc' }],
      select: {
        ...ESTIMATED, buildId: true, removedAt: true, partId: true, lineId: true, factoryPartId: true, work: true, personId: true, visitId: true,
      },
    }),
    reads.materialNeed.findMany({
      where, orderBy: [{ id: 'asc' }],
      select: {
        id: true, buildId: true, materialId: true, form: true, quantity: true, partId: true, lineId: true, factoryPartId: true,
        expectedOn: true, receivedOn: true, kitPart: { select: { kit: { select: { name: true } } } },
      },
    }),
    reads.factoryPart.findMany({
      where, orderBy: [{ number: 'asc' }],
      select: {
        id: true, buildId: true, zoneId: true, number: true, name: true, state: true, stays: true, place: true, condition: true, cautions: true,
        bin: { select: { number: true, place: true } },
      },
    }),
    reads.fastener.findMany({
      where, orderBy: [{ id: 'asc' }], select: { id: true, buildId: true, materialId: true },
    }),
    reads.alteration.findMany({
      where, orderBy: [{ number: 'asc' }],
      select: { id: true, buildId: true, zoneId: true, number: true, kind: true, what: true, whereAt: true, consentBy: true, isReversible: true, reversal: true, reversedOn: true },
    }),
    reads.timeEntry.findMany({
      where: { buildId }, orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
      select: { id: true, buildId: true, operationId: true, personId: true, kind: true, startedAt: true, seconds: true, why: true, createdAt: true, correctsId: true, enteredById: true },
    }),
    reads.timer.findMany({ where: { buildId }, select: { buildId: true, operationId: true, personId: true, kind: true } }),
    reads.finish.findMany({
      where, orderBy: [{ number: 'asc' }],
      select: { id: true, buildId: true, number: true, partId: true, kind: true, material: true, color: true, sampleState: true },
    }),
    reads.mountingPlace.findMany({
      where: { buildId }, orderBy: [{ number: 'asc' }],
      select: {
        id: true, buildId: true, number: true, name: true, checks: true, depth: true, windowDrop: true, seatTravel: true, lidHinges: true, grille: true,
        length: true, width: true, largestSpacer: true, clearance: true,
      },
    }),
    reads.photo.findMany({ where: { ...where, subjectKind: 'alteration' }, distinct: ['subjectId'], select: { buildId: true, subjectId: true } }),
    reads.hourCorrection.findMany({ where, orderBy: [{ id: 'asc' }], select: CORRECTED }),
  ])
  return { zones, points, lines, parts, uses, operations, needs, factoryParts, fasteners, alterations, entries, timers, finishes, mountingPlaces, alterationPhotos, corrections }
}

function ofBuild(rows: Rows, buildId: string): Rows {
  const own = Object.entries(rows).map(([name, list]) => [name, list.filter((row) => row.buildId === buildId)])
  return Object.fromEntries(own) as Rows
}

/** What service visits took stands apart, so that no figure of the build counts it. */
function withoutVisits<Own extends Pick<Rows, 'operations' | 'entries'>>(own: Own) {
  const ofVisits = new Set(own.operations.filter(({ visitId }) => visitId !== null).map(({ id }) => id))
  const split = <Row>(rows: readonly Row[], idOf: (row: Row) => string) =>
    ({ own: rows.filter((row) => !ofVisits.has(idOf(row))), visits: rows.filter((row) => ofVisits.has(idOf(row))) })
  const operations = split<Rows['operations'][number]>(own.operations, ({ id }) => id)
  const entries = split<Rows['entries'][number]>(own.entries, ({ operationId }) => operationId)
  return { ...own, operations: operations.own, entries: entries.own, visitOperations: operations.visits, visitEntries: entries.visits }
}

/** Whether something frozen was accepted for a build: then its consent comes from there. */
export async function hasConsent(client: Reads | Write, id: string): Promise<boolean> {
  return (await client.consent.count({ where: { buildId: id, decision: 'accepted' } })) > 0
}
