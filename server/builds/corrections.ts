import { ratioInWords } from '../operations/ratioStore.ts'
import type { StoredBuild } from './store.ts'

/** What was accepted of the shop's hours, so that nobody takes the estimate for what was typed. */
export function correctionsIn({ corrections, departments }: Pick<StoredBuild, 'corrections' | 'departments'>): string[] {
  const nameOf = new Map(departments.map(({ id, name }) => [id, name]))
  const words = corrections.map(({ kind, departmentId, ratio, records }) => `${kind}, ${nameOf.get(departmentId) ?? ''}: ${ratioInWords({ thousandths: ratio, records })}`)
  return words.length === 0 ? [] : [`As the shop’s own hours run, accepted by a manager: ${words.join('; ')}.`]
}
