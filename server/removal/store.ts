import type { Reads } from '../shared/database/database.ts'

export interface StoredBin {
  readonly id: string
  readonly number: number
  readonly place: string
  readonly isEmpty: boolean
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
