import type { RemovalEdge } from '../calc/removal/removalEdges.ts'
import type { Reads } from '../shared/database/database.ts'

export type StoredShopDay = Awaited<ReturnType<typeof loadShopDay>>

const DAYS = { fromOn: true, toOn: true } as const

/** Who and what is there to plan with, when not, and what is being worked on at this moment. */
export async function loadShopDay(reads: Reads) {
  const byName = { where: { removedAt: null }, orderBy: [{ name: 'asc' as const }, { id: 'asc' as const }] }
  const [shop, people, bays, timers, machines, finishers, closings] = await Promise.all([
    reads.shop.findFirst({ select: { timeZone: true, opensAt: true, closesAt: true, workdays: true, holidays: true, pauseFrom: true, pauseTo: true, rollTime: true, goWrongTogether: true } }),
    reads.person.findMany({
      where: { removedAt: null, isActive: true }, orderBy: byName.orderBy,
      select: {
        id: true, name: true, role: true, workdays: true, startsAt: true, endsAt: true, skills: { select: { skillId: true } },
        absences: { where: { removedAt: null }, orderBy: [{ fromOn: 'asc' }, { id: 'asc' }], select: { ...DAYS, fromAt: true, toAt: true } },
      },
    }),
    reads.bay.findMany({ ...byName, select: { id: true, name: true } }),
    reads.timer.findMany({ select: { personId: true, operationId: true, kind: true, startedAt: true } }),
    reads.machine.findMany({ ...byName, select: { id: true, name: true, count: true, holdsWork: true } }),
    reads.outsideFinisher.findMany({ ...byName, select: { id: true, name: true, leadDays: true, shipDays: true, workdays: true, sendsOn: true } }),
    reads.closing.findMany({ where: { removedAt: null }, orderBy: [{ fromOn: 'asc' }, { id: 'asc' }], select: { ...DAYS, bayId: true, machineId: true, finisherId: true } }),
  ])
  const skills = await reads.skill.findMany({ select: { id: true, name: true } })
  return { shop, people, bays, timers, skills, machines, finishers, closings }
}

/** Of which country or region the public holidays are kept; empty where of none. */
export const loadHolidayRegion = async (reads: Reads): Promise<string> => (await reads.shop.findFirst({ select: { holidays: true } }))?.holidays ?? ''

export type StoredPlacing = Awaited<ReturnType<typeof loadPlacings>>[number]

/** Where operations are done and what holds them there, done ones too. */
export function loadPlacings(reads: Reads, buildIds: readonly string[]) {
  return reads.operation.findMany({
    where: { buildId: { in: [...buildIds] }, removedAt: null },
    select: { id: true, buildId: true, kind: true, partId: true, wait: true, place: true, rollOut: true, isInOnePiece: true, machineId: true, finisherId: true, backOn: true, earliestOn: true, pinnedAt: true, build: { select: { priority: true } } },
  })
}

/** The order in which things come out of some builds, as found and as built. */
export async function loadRemovalOrder(reads: Reads, buildIds: readonly string[]): Promise<RemovalEdge[]> {
  const rows = await reads.orderEdge.findMany({ where: { buildId: { in: [...buildIds] }, removedAt: null, graph: { in: ['as found', 'as built'] } }, orderBy: [{ id: 'asc' }], select: { graph: true, kind: true, beforeId: true, afterId: true, way: true } })
  return rows.map(({ graph, kind, ...edge }) => ({ ...edge, graph: graph === 'as built' ? 'built' : 'found', kind: kind === 'loosened' ? 'loosened' : 'out' }))
}

/** What an equipment line, a made part or a factory part still waits for from outside: day by owner's id. */
export async function loadExpected(reads: Reads, buildIds: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const where = { buildId: { in: [...buildIds] }, removedAt: null, receivedOn: null, expectedOn: { not: null } }
  const [lines, needs] = await Promise.all([
    reads.equipmentLine.findMany({ where, select: { id: true, expectedOn: true } }),
    reads.materialNeed.findMany({ where, select: { partId: true, lineId: true, factoryPartId: true, expectedOn: true } }),
  ])
  const latest = new Map<string, string>()
  const note = (owner: string | null, day: string | null): void => {
    if (owner !== null && day !== null && day > (latest.get(owner) ?? '')) latest.set(owner, day)
  }
  for (const { id, expectedOn } of lines) note(id, expectedOn)
  for (const { partId, lineId, factoryPartId, expectedOn } of needs) note(partId ?? lineId ?? factoryPartId, expectedOn)
  return latest
}

/** Whose builds these are, and how to reach them. */
export async function listCustomersOf(reads: Reads, buildIds: readonly string[]) {
  const builds = await reads.build.findMany({ where: { id: { in: [...buildIds] } }, select: { id: true, vehicle: { select: { customer: { select: { name: true, phone: true } } } } } })
  return builds.map(({ id, vehicle: { customer } }) => ({ buildId: id, customer: customer.name, phone: customer.phone }))
}
