import { LARGEST_INTEGER } from '../amounts.ts'
import { findCycle, toLoopText, topologicalOrder } from '../graph.ts'
import type { Edge } from '../graph.ts'
import { groupBy, sumOf } from '../grouping.ts'
import { Refusal, toWhole } from '../refusal.ts'

export interface Part {
  readonly id: string
  readonly number: string
  readonly name: string
  readonly zoneId: string | null
  /** Pieces needed directly on the vehicle, not inside another part. */
  readonly quantity: number
}

/** So many of a part go into each piece of its parent. */
export interface PartUse {
  readonly parentId: string
  readonly partId: string
  readonly quantity: number
}

/** Where pieces of a part go: into a parent, or (null) directly onto the vehicle. */
export interface PartDemand {
  readonly parentId: string | null
  readonly perParent: number
  readonly parentCount: number
  readonly count: number
}

export interface RequiredPart {
  readonly part: Part
  /** Longest way down from a part that is used in no other: the low-level code. */
  readonly level: number
  readonly count: number
  readonly demands: readonly PartDemand[]
  /** Pieces by zone: a part without a zone of its own goes where its parents go. */
  readonly countByZone: ReadonlyMap<string | null, number>
}

export type RequiredParts = ReadonlyMap<string, RequiredPart>

/** The ring of parts in words ("P-110 → P-111 → P-110"), or null when there is none. */
export function findPartLoop(parts: readonly Pick<Part, 'id' | 'number'>[], uses: readonly PartUse[]): string | null {
  const cycle = findCycle(parts.map(({ id }) => id), uses.map(toEdge))
  const numberOf = new Map(parts.map(({ id, number }) => [id, number]))
  return cycle && toLoopText(cycle, id => numberOf.get(id) ?? id)
}

/**
 * The parts by low-level code, assemblies before what goes into them; within a level as listed.
 * Refuses a ring (named), a use of an unknown part and a use of less than one piece.
 */
export function levelParts<P extends Pick<Part, 'id' | 'number'>>(
  parts: readonly P[], uses: readonly PartUse[],
): { part: P, level: number, uses: readonly PartUse[] }[] {
  checkUses(parts, uses)
  const result = topologicalOrder(parts.map(({ id }) => id), uses.map(toEdge))
  if ('cycle' in result) throw new Refusal(`A part cannot contain itself: ${findPartLoop(parts, uses)}.`)
  const usesOf = groupBy(uses, use => use.partId)
  const levelOf = new Map<string, number>()
  for (const id of result.order) {
    const above = (usesOf.get(id) ?? []).map(use => (levelOf.get(use.parentId) ?? 0) + 1)
    levelOf.set(id, Math.max(0, ...above))
  }
  return parts
    .map(part => ({ part, level: levelOf.get(part.id) ?? 0, uses: usesOf.get(part.id) ?? [] }))
    .sort((a, b) => a.level - b.level)
}

/**
 * How many pieces of each part a build takes, through all levels: the pieces needed directly and,
 * for each use, the parent's pieces times the quantity. A shared piece counts once per use.
 *
 * Source: Heizer and Render, Operations Management, ch. 14 (gross requirements).
 * @example explodeParts([{ id: 'a', quantity: 2, … }, { id: 'b', quantity: 1, … }],
 *   [{ parentId: 'a', partId: 'b', quantity: 3 }]).get('b') // count 7: 1 direct, 6 in a
 */
export function explodeParts(parts: readonly Part[], uses: readonly PartUse[]): RequiredParts {
  const required = new Map<string, RequiredPart>()
  for (const { part, level, uses: usesOfPart } of levelParts(parts, uses)) {
    const demands = [toDirectDemand(part), ...usesOfPart.map(use => toDemand(use, required))]
    const count = sumOf(demands, demand => demand.count)
    if (count > LARGEST_INTEGER) {
      throw new Refusal(`${part.number} ${part.name} would be needed more than 2,147,483,647 times: check the quantities.`)
    }
    required.set(part.id, {
      part, level, count, demands: demands.filter(demand => demand.count > 0), countByZone: spread(part, demands, required),
    })
  }
  return required
}

function toDirectDemand(part: Part): PartDemand {
  const count = toWhole(part.quantity, 0, `The quantity of ${part.number}`)
  return { parentId: null, perParent: count, parentCount: 1, count }
}

function toDemand({ parentId, quantity }: PartUse, required: RequiredParts): PartDemand {
  const parentCount = required.get(parentId)?.count ?? 0
  return { parentId, perParent: quantity, parentCount, count: parentCount * quantity }
}

function spread(part: Part, demands: readonly PartDemand[], required: RequiredParts): Map<string | null, number> {
  const counts = new Map<string | null, number>()
  for (const demand of demands) {
    const parent = part.zoneId === null && demand.parentId !== null ? required.get(demand.parentId) : undefined
    const places = parent ? parent.countByZone : new Map([[part.zoneId, demand.parentCount]])
    for (const [zoneId, parentCount] of places) {
      if (parentCount * demand.perParent === 0) continue
      counts.set(zoneId, (counts.get(zoneId) ?? 0) + parentCount * demand.perParent)
    }
  }
  return counts
}

function checkUses(parts: readonly Pick<Part, 'id' | 'number'>[], uses: readonly PartUse[]): void {
  const numberOf = new Map(parts.map(({ id, number }) => [id, number]))
  for (const { parentId, partId, quantity } of uses) {
    const [parent, child] = [numberOf.get(parentId), numberOf.get(partId)]
    if (parent === undefined || child === undefined) throw new Refusal('A part is used that is not among the parts of the build.')
    toWhole(quantity, 1, `The quantity of ${child} in ${parent}`)
  }
}

function toEdge({ parentId, partId }: PartUse): Edge {
  return { before: parentId, after: partId }
}
