import type { Reads } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

/** What can be labeled in a build: no plate, no VIN and no customer is even read. Throws a 404. */
export async function loadLabeled(reads: Reads, buildId: string) {
  const build = await reads.build.findFirst({
    where: { id: buildId, removedAt: null },
    select: {
      number: true, title: true, vehicle: { select: { make: true, model: true, year: true } },
      bins: { where: { removedAt: null }, orderBy: { number: 'asc' }, select: { number: true, place: true } },
      factoryParts: {
        where: { removedAt: null }, orderBy: { number: 'asc' },
        select: {
          number: true, name: true, state: true, binId: true, place: true, zone: { select: { number: true, name: true } },
          fasteners: { where: { removedAt: null }, orderBy: { id: 'asc' }, select: { kind: true, count: true, size: true } },
        },
      },
    },
  })
  if (!build) throw notFound('build')
  return build
}
export type Labeled = Awaited<ReturnType<typeof loadLabeled>>
