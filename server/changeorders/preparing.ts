import { figuresOf } from '../builds/figures.ts'
import { loadBuild } from '../builds/store.ts'
import type { AgreedForecast } from '../calc/costing/agreedForecast.ts'
import type { ConsentAlarm } from '../calc/costing/consentAlarm.ts'
import { overrunLines, type OverrunLine } from '../calc/costing/overrun.ts'
import { findAccepted } from '../quotes/acceptedStore.ts'
import type { Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { Problem } from '../shared/problems.ts'
import { getKind } from '../shared/records/kind.ts'
import { createRecord } from '../shared/records/table.ts'
import { usualCodeIds } from './store.ts'

/** Minor units: as much as a line of a paper holds. */
const LARGEST_MISSING = 2_000_000_000

/** Forecast at completion against what was accepted, both without tax. */
export interface Guard {
  readonly acceptedMinor: number
  readonly forecastMinor: number
  /** Forecast less accepted, at least nothing. */
  readonly missingMinor: number
  /** Price of the whole estimate, options included. */
  readonly estimateMinor: number
  readonly alarm: ConsentAlarm
  readonly agreed: AgreedForecast
  readonly lines: readonly OverrunLine[]
}

/** Null while nothing frozen was accepted. */
export async function guardOf(client: Reads | Write, buildId: string): Promise<Guard | null> {
  const accepted = await findAccepted(client, buildId)
  if (!accepted) return null
  const stored = await loadBuild(client as Reads, buildId)
  const { agreed, alarm, build } = figuresOf(stored).costing
  // What is accepted is what the build says of its consent: both are written in one write.
  if (!agreed || !alarm) return null
  const missingMinor = Math.max(agreed.forecastMinor - accepted.netMinor, 0)
  return { acceptedMinor: accepted.netMinor, forecastMinor: agreed.forecastMinor, missingMinor, estimateMinor: build.priceMinor, alarm, agreed, lines: overrunLines(agreed.things, missingMinor) }
}

/** Draws up a change order over what is missing, from the parts that cause it. Returns its id. Throws a 409 where nothing is missing. */
export async function prepareOrder(write: Write, buildId: string, actor: Actor): Promise<string> {
  const guard = await guardOf(write, buildId)
  if (!guard) throw new Problem(409, 'Nothing accepted yet', 'A change order changes what the customer has accepted. Freeze the quote and take down the answer first.')
  if (guard.missingMinor === 0) throw new Problem(409, 'Nothing is missing', 'The forecast is inside what the customer has accepted.')
  if (guard.missingMinor > LARGEST_MISSING) throw new Problem(409, 'More than a change order can carry', 'What the forecast comes to beyond what was accepted is more than a line can hold. Check the hours, quantities and prices of the build.')
  const { id } = await createRecord(write, getKind('change order'), buildId, {
    values: { title: 'More work than was accepted', reason: guard.lines.map(({ label, isRest, taxedAs }) => (isRest ? 'The estimate itself has changed since.' : taxedAs === 'material' ? `${label} grow with the work.` : `${label} takes more hours than estimated.`)).join(' ').slice(0, 4_000), daysLater: null, validDays: 14 },
    entered: {},
  }, actor)
  const codes = await usualCodeIds(write, buildId)
  for (const { label, amountMinor, isRest, taxedAs = 'labor' } of guard.lines) {
    const text = (isRest ? label : taxedAs === 'material' ? `${label}: more than estimated` : `${label}: more work than estimated`).slice(0, 200)
    await createRecord(write, getKind('quote line'), buildId, { values: { text, quantity: 1_000, price: amountMinor, taxCodeId: codes[taxedAs], optionId: null, changeOrderId: id }, entered: {} }, actor)
  }
  return id
}
