import type { Reads } from '../shared/database/database.ts'

export interface StoredBin {
  readonly id: string
  readonly number: number
  readonly place: string
  readonly isEmpty: boolean
}

/** Zones of other builds of the same make and model, at this place, that hold factory parts; the newest first. */
export async function listEarlierZones(reads: Reads, buildId: string, place: string, most: number) {
  const own = await reads.build.findFirst({ where: { id: buildId }, select: { vehicle: { select: { make: true, model: true } } } })
  if (!own) return []
  const { make, model } = own.vehicle
  return reads.zone.findMany({
    where: { place, removedAt: null, factoryParts: { some: { removedAt: null } }, build: { id: { not: buildId }, removedAt: null, vehicle: { make, model } } },
    orderBy: [{ build: { number: 'desc' } }, { number: 'asc' }], take: most,
    select: { id: true, name: true, build: { select: { id: true, number: true, title: true } }, _count: { select: { factoryParts: { where: { removedAt: null } } } } },
  })
}

/** The bins of a build by number, and which one a part went into last. */
export async function loadBins(reads: Reads, buildId: string): Promise<{ bins: StoredBin[]; lastBinId: string | null }> {
  const [bins, last] = await Promise.all([
    reads.bin.findMany({
      where: { buildId, removedAt: null }, orderBy: { number: 'asc' },
      select: { id: true, number: true, place: true, factoryParts: { where: { removedAt: null }, take: 1, select: { id: true } } },
    }),
    reads.removal.findFirst({
      where: { buildId, removedAt: null, binId: { not: null } }, orderBy: [{ at: 'desc' }, { id: 'desc' }], select: { binId: true },
    }),
  ])
  return { bins: bins.map(({ factoryParts, ...bin }) => ({ ...bin, isEmpty: factoryParts.length === 0 })), lastBinId: last?.binId ?? null }
}
