import type { Reads } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

const STANDING = { where: { removedAt: null } } as const

/** The alterations of a build with all that is to be known of each, and its factory parts that are out. Throws a 404 where there is no build. */
export async function loadAlterations(reads: Reads, buildId: string) {
  const [build, photos] = await Promise.all([
    reads.build.findFirst({
      where: { id: buildId, removedAt: null },
      select: {
        id: true, number: true, title: true, vehicle: { select: { make: true, model: true, year: true } },
        alterations: { ...STANDING, orderBy: { number: 'asc' }, include: { zone: { select: { number: true, name: true } }, factoryPart: { select: { id: true, number: true, name: true } }, furtherParts: { ...STANDING, orderBy: { id: 'asc' } } } },
        factoryParts: { where: { removedAt: null, state: 'out and stored', binId: null, place: '' }, orderBy: { number: 'asc' }, select: { id: true, number: true, name: true, zone: { select: { number: true, name: true } } } },
      },
    }),
    reads.photo.findMany({ where: { buildId, subjectKind: 'alteration', removedAt: null }, orderBy: { id: 'asc' }, select: { id: true, subjectId: true, caption: true } }),
  ])
  if (!build) throw notFound('build')
  return { build, photos }
}

export type StoredAlterations = Awaited<ReturnType<typeof loadAlterations>>
