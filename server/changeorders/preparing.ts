import type { BuildFigures } from '../builds/figures.ts'
import { figuresOf } from '../builds/figures.ts'
import { loadBuild } from '../builds/store.ts'
import { consentAlarm, type ConsentAlarm } from '../calc/consentAlarm.ts'
import { overrunLines, type OverrunLine } from '../calc/overrun.ts'
import { findAccepted } from '../quotes/acceptedStore.ts'
import type { Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { Problem } from '../shared/problems.ts'
import { getKind } from '../shared/records/kind.ts'
import { createRecord } from '../shared/records/table.ts'
import { laborCodeId, shopHead } from './store.ts'

/** Forecast at completion against what was accepted, both without tax. */
export interface Guard {
  readonly acceptedMinor: number
  readonly forecastMinor: number
  /** Accepted less forecast, below zero where more is missing than nothing. */
  readonly missingMinor: number
  readonly alarm: ConsentAlarm
  readonly lines: readonly OverrunLine[]
}

/** Null while nothing frozen was accepted. */
export async function guardOf(client: Reads | Write, buildId: string): Promise<Guard | null> {
  const accepted = await findAccepted(client, buildId)
  if (!accepted) return null
  const stored = await loadBuild(client as Reads, buildId)
  const { costing } = figuresOf(stored)
  const { allowedOverrun } = await shopHead(client)
  const { loggedSellMinor, forecastSellMinor, boughtSellMinor } = costing.labor.figures
  const forecastMinor = forecastSellMinor + boughtSellMinor
  const missingMinor = Math.max(forecastMinor - accepted.netMinor, 0)
  return {
    acceptedMinor: accepted.netMinor, forecastMinor, missingMinor, lines: overrunLines(overrunning(costing), missingMinor),
    alarm: consentAlarm({
      limitMinor: accepted.netMinor, allowedThousandths: allowedOverrun, reachedMinor: loggedSellMinor + boughtSellMinor, forecastMinor,
      ...(stored.shop ? { nearThousandths: stored.shop.consentAlarmShare } : {}),
    }),
  }
}

const overrunning = ({ byOwner }: BuildFigures['costing']) =>
  byOwner.map(({ label, figures: { estimatedSellMinor, forecastSellMinor } }) => ({ label, estimatedMinor: estimatedSellMinor, forecastMinor: forecastSellMinor }))

/** Draws up a change order over what is missing, from the parts that cause it. Returns its id. Throws a 409 where nothing is missing. */
export async function prepareOrder(write: Write, buildId: string, actor: Actor): Promise<string> {
  const guard = await guardOf(write, buildId)
  if (!guard) throw new Problem(409, 'Nothing accepted yet', 'A change order changes what the customer has accepted. Freeze the quote and take down the answer first.')
  if (guard.missingMinor === 0) throw new Problem(409, 'Nothing is missing', 'The forecast is inside what the customer has accepted.')
  const { id } = await createRecord(write, getKind('change order'), buildId, {
    values: { title: 'More work than was accepted', reason: guard.lines.map(({ label, isRest }) => (isRest ? 'The estimate itself has changed since.' : `${label} takes more hours than estimated.`)).join(' ').slice(0, 4_000), daysLater: null, validDays: 14 },
    entered: {},
  }, actor)
  const taxCodeId = await laborCodeId(write, buildId)
  for (const { label, amountMinor, isRest } of guard.lines) {
    const text = (isRest ? label : `${label}: more work than estimated`).slice(0, 200)
    await createRecord(write, getKind('quote line'), buildId, { values: { text, quantity: 1_000, price: amountMinor, taxCodeId, optionId: null, changeOrderId: id }, entered: {} }, actor)
  }
  return id
}
