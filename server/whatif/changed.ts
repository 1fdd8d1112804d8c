import type { StoredBuild } from '../builds/store.ts'
import type { WhatIfAsked, WhatIfBuild } from './asked.ts'

/**
 * The build as it would be, in memory alone: nothing is written. What is left out takes its operations, its needs and its
 * uses with it, as if it were taken away. A part made twice as often is so wherever it goes.
 */
export function changedBuild({ stored, quoted }: WhatIfBuild, asked: WhatIfAsked): WhatIfBuild {
  const { build } = quoted
  const stays = ({ id }: { readonly id: string }): boolean => !asked.without.has(id)
  return {
    stored: changedRecords(stored, asked),
    quoted: { ...quoted, build: { ...build, lines: build.lines.filter(stays), parts: build.parts.filter(stays), quoteLines: build.quoteLines.filter(({ optionId }) => !asked.dropped.has(optionId ?? '')) } },
  }
}

function changedRecords(stored: StoredBuild, { rate, without, doubledId }: WhatIfAsked): StoredBuild {
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
