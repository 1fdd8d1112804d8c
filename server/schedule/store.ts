import type { Reads } from '../shared/database/database.ts'

export type StoredShopDay = Awaited<ReturnType<typeof loadShopDay>>

/** Who and what is there to plan with, and what is being worked on at this moment. */
export async function loadShopDay(reads: Reads) {
  const [shop, people, bays, timers] = await Promise.all([
    reads.shop.findFirst({ select: { timeZone: true, opensAt: true, closesAt: true, workdays: true, goWrongTogether: true } }),
    reads.person.findMany({
      where: { removedAt: null, isActive: true }, orderBy: [{ name: 'asc' }, { id: 'asc' }],
      select: { id: true, name: true, role: true, skills: { select: { skillId: true } } },
    }),
    reads.bay.findMany({ where: { removedAt: null }, orderBy: [{ name: 'asc' }, { id: 'asc' }], select: { id: true, name: true } }),
    reads.timer.findMany({ select: { personId: true, operationId: true } }),
  ])
  const skills = await reads.skill.findMany({ select: { id: true, name: true } })
  return { shop, people, bays, timers, skills }
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
