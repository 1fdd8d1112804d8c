import type { LedgerData } from '../../web/builds/ledgerData.ts'
import { changesInWords, listChangesSince, stateInWords } from '../restoration/changesStore.ts'
import type { Reads } from '../shared/database/database.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import type { StoredBuild } from './store.ts'

const MOST_SHOWN = 12

/** What the ledger says about the time after delivery; nothing before it. */
export async function loadSinceDelivery(reads: Reads, { head, shop }: StoredBuild): Promise<LedgerData['sinceDelivery']> {
  if (head.deliveredOn === null) return undefined
  const timeZone = shop?.timeZone ?? 'UTC'
  const dayOf = (at: Date): string => calendarDateIn(timeZone, at)
  const changes = await listChangesSince(reads, { buildId: head.id, deliveredOn: head.deliveredOn, timeZone })
  return { words: stateInWords(changes, dayOf), changes: changesInWords(changes.slice(0, MOST_SHOWN), dayOf), allHref: `/builds/${head.id}/as-built` }
}
