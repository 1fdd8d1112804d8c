import { figuresOf } from '../builds/figures.ts'
import type { StoredBuild } from '../builds/store.ts'
import { loadLearned } from '../history/learned.ts'
import type { Reads } from '../shared/database/database.ts'
import { spreadsOf, USUAL_TOGETHER_THOUSANDTHS, type Spreads } from './spreads.ts'

/** The spread of a build, by three values and else by the shop's own hours; `together` in 100, else as the shop has set it. */
export async function loadSpreads(reads: Reads, stored: StoredBuild, together?: number): Promise<Spreads> {
  const { history } = await loadLearned(reads)
  return spreadsOf(figuresOf(stored), together === undefined ? stored.shop?.goWrongTogether ?? USUAL_TOGETHER_THOUSANDTHS : together * 10, history)
}
