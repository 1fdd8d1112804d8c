import type { Alteration, OutsideWork } from '../removal/factoryParts.ts'
import type { RestorationPlan } from './restoration.ts'
import { sumOf } from '../grouping.ts'

/** The alterations that a plan undoes. */
export function listReversed(alterations: readonly Alteration[], { repairs }: Pick<RestorationPlan, 'repairs'>): Alteration[] {
  const reversed = new Set(repairs.flatMap(repair => repair.kind === 'reverse' ? [repair.alterationId] : []))
  return alterations.filter(({ id }) => reversed.has(id))
}

/**
 * The steps of a reversal as they were written, one a line, without the numbers or dashes before them.
 *
 * @example toReversalSteps('1. Rivet nuts out.\n\n2) Edges sealed') // ['Rivet nuts out', 'Edges sealed']
 */
export function toReversalSteps(reversal: string): string[] {
  return reversal.split('\n').map(line => line.trim().replace(/^(?:\d{1,2}[.)]|[-–•])\s+/, '').replace(/\.$/, '')).filter(line => line !== '')
}

/** @example toWhatAndWhere({ what: 'four holes 6 mm', whereAt: 'floor, left' }) // 'four holes 6 mm, floor, left' */
export function toWhatAndWhere({ what, whereAt = '' }: Pick<Alteration, 'what' | 'whereAt'>): string {
  return whereAt === '' ? what : `${what}, ${whereAt}`
}

/**
 * Working days until an alteration can be undone: its part is waited for first, then the work of
 * another firm, one after the other. Alterations do not wait for each other. Ours, no source.
 *
 * @example toReversalDays({ leadDays: 4, partsToBuy: [], outside: { what: 'weld shut', costMinor: null, days: 3 } }) // 7
 */
export function toReversalDays({ leadDays, partsToBuy, outside }: Pick<Alteration, 'leadDays' | 'partsToBuy' | 'outside'>): number {
  return Math.max(leadDays, ...partsToBuy.map(part => part.leadDays)) + (outside?.days ?? 0)
}

/** Outside work of a plan. */
export function listOutside(alterations: readonly Alteration[], plan: Pick<RestorationPlan, 'repairs'>): OutsideWork[] {
  return listReversed(alterations, plan).flatMap(({ outside }) => outside ? [outside] : [])
}

/** Minor units; work without a known price counts nothing. */
export function outsideMinor(outside: readonly OutsideWork[]): number {
  return sumOf(outside, ({ costMinor }) => costMinor ?? 0)
}
