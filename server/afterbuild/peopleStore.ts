import type { Reads } from '../shared/database/database.ts'
import { namesToTell } from '../calc/estimate/afterBuild.ts'

/** Under which name the hours of each department are told: never one person's alone, over all builds of the shop. */
export async function loadNamesToTell(reads: Reads): Promise<Map<string, string>> {
  const departments = await reads.department.findMany({ orderBy: [{ name: 'asc' }], select: { id: true, name: true } })
  const counts = await Promise.all(departments.map(async ({ id, name }) => {
    const people = await reads.timeEntry.findMany({ where: { operation: { departmentId: id, visitId: null }, kind: { not: 'waiting' }, seconds: { gt: 0 } }, distinct: ['personId'], select: { personId: true } })
    return { id, name, people: people.length }
  }))
  return namesToTell(counts)
}

/** The newest delivered builds, by id. */
export async function listDelivered(reads: Reads, most: number): Promise<string[]> {
  const builds = await reads.build.findMany({ where: { removedAt: null, stage: 'delivered' }, orderBy: [{ deliveredOn: 'desc' }, { number: 'desc' }], take: most, select: { id: true } })
  return builds.map(({ id }) => id)
}
