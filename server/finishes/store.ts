import type { Reads } from '../shared/database/database.ts'

export type StoredFinish = Awaited<ReturnType<typeof listFinishes>>[number]

/** The finishes of a build that are in use, in their order. */
export function listFinishes(reads: Reads, buildId: string) {
  return reads.finish.findMany({
    where: { buildId, removedAt: null }, orderBy: [{ number: 'asc' }],
    select: {
      id: true, number: true, partId: true, kind: true, material: true, color: true, code: true, grain: true, thread: true, supplier: true,
      batch: true, sampleState: true, approvedBy: true, approvedOn: true, refusal: true, note: true,
    },
  })
}
