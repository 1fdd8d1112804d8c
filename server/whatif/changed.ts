import type { StoredBuild } from '../builds/store.ts'
import type { WhatIfAsked } from './asked.ts'

/**
 * The build as it would be, in memory alone: nothing is written. What is left out takes its operations, its needs and its
 * uses with it, as if it were taken away. A part made twice as often is so wherever it goes.
 */
export function changedBuild(stored: StoredBuild, { rate, without, doubledId }: WhatIfAsked): StoredBuild {
  const twice = (id: string, quantity: number): number => (id === doubledId ? 2 * quantity : quantity)
  return {
    ...stored,
    departments: stored.departments.map((department) => (department.id !== rate?.departmentId ? department
      : { ...department, sellRate: rate.sellMinor ?? department.sellRate, costRate: rate.costMinor ?? department.costRate })),
    lines: stored.lines.filter(({ id }) => !without.has(id)),
    parts: stored.parts.filter(({ id }) => !without.has(id)).map((part) => ({ ...part, quantity: twice(part.id, part.quantity) })),
    uses: stored.uses.map((use) => ({ ...use, quantity: twice(use.partId, use.quantity) })),
  }
}
