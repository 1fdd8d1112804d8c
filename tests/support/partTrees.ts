import fc from 'fast-check'
import type { Part, PartUse } from '../../server/calc/parts/partTree.ts'

export const part = (id: string, quantity = 0, zoneId: string | null = null): Part =>
  ({ id, number: `P-${id}`, name: `Part ${id}`, zoneId, quantity })
export const use = (parentId: string, partId: string, quantity: number): PartUse => ({ parentId, partId, quantity })

/** Parts in a line, each used only further down: never a ring. */
export const trees = fc.integer({ min: 1, max: 9 }).chain(size => fc.record({
  parts: fc.tuple(...Array.from({ length: size }, (_, index) =>
    fc.record({ quantity: fc.nat(4), zoneId: fc.constantFrom(null, 'door', 'floor') }).map(fields => ({ ...part(`${index}`), ...fields })))),
  uses: fc.array(fc.tuple(fc.nat(size - 1), fc.nat(size - 1), fc.integer({ min: 1, max: 4 })), { maxLength: 14 })
    .map(all => all.filter(([a, b]) => a !== b).map(([a, b, n]) => use(`${Math.min(a, b)}`, `${Math.max(a, b)}`, n))),
}))
