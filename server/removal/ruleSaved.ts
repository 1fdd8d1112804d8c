import { randomUUID } from 'node:crypto'
import type { SavedProps } from '../../web/shared/saved.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { namer } from '../restoration/naming.ts'
import type { VehicleState } from '../restoration/store.ts'
import type { Reads } from '../shared/database/database.ts'
import { BENCH } from '../shared/roles.ts'
import { findRule, nameAll } from './ruleStore.ts'
import { ruleInWords } from './rulesData.ts'

export interface RuleDone {
  readonly ruleId: string
  readonly did: 'added' | 'removed' | 'recovered' | 'changed'
}

const WORDS: Readonly<Record<RuleDone['did'], string>> = { added: '', removed: 'taken away: ', recovered: 'brought back: ', changed: 'now: ' }

/** What just happened to a rule, with the press that takes it back. */
export async function ruleSaved(reads: Reads, state: VehicleState, viewer: Viewer, { did: done, address }: { did: RuleDone | undefined, address: string }): Promise<SavedProps | undefined> {
  const rule = done ? await findRule(reads, done.ruleId) : null
  if (!rule || !done || rule.buildId !== state.build.id) return undefined
  const undo: RuleDone['did'] = rule.removedAt ? 'recovered' : done.did === 'changed' ? 'changed' : 'removed'
  return {
    what: `${WORDS[done.did]}${ruleInWords(rule, namer(await nameAll(reads, state, [rule])))}, ${rule.graph}`, csrfToken: viewer.csrfToken,
    ...(BENCH.includes(viewer.role) ? { undo: { action: `/builds/${state.build.id}/order-rules/${rule.id}/undo`, idempotencyKey: randomUUID(), values: [...new URLSearchParams(address), ['did', undo]] } } : {}),
  }
}
