import { LARGEST_INTEGER } from '../calc/amounts.ts'
import { addExactly } from '../calc/rounding.ts'
import { audit, changesBetween, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { shopOf } from '../shared/access.ts'
import { Problem } from '../shared/problems.ts'
import { calendarDateIn } from '../shared/shopTime.ts'

/** What the customer has agreed to: the accepted quote and every accepted change order, without tax and the tax. */
export interface AcceptedTotal {
  readonly netMinor: number
  readonly taxMinor: number
  readonly count: number
  /** Whoever gave the newest consent, and when. */
  readonly typedName: string
  readonly at: Date
}

/** The accepted total of a build, or null where nothing frozen was accepted. */
export async function findAccepted(client: Reads | Write, buildId: string): Promise<AcceptedTotal | null> {
  const consents = await client.consent.findMany({
    where: { buildId, decision: 'accepted' }, orderBy: [{ createdAt: 'asc' }, { id: 'asc' }], select: { netMinor: true, taxMinor: true, typedName: true, createdAt: true },
  })
  const newest = consents.at(-1)
  if (!newest) return null
  return {
    netMinor: addExactly(consents.map(({ netMinor }) => netMinor)), taxMinor: addExactly(consents.map(({ taxMinor }) => taxMinor)),
    count: consents.length, typedName: newest.typedName, at: newest.createdAt,
  }
}

/** Brings what the build says of its consent to the accepted total; part of every write that adds a consent. */
export async function writeAccepted(write: Write, buildId: string, actor: Actor): Promise<void> {
  const accepted = await findAccepted(write, buildId)
  const before = await write.build.findUnique({ where: { id: buildId }, select: { consent: true, consentBy: true, consentOn: true } })
  if (!accepted || !before) return
  refuseImpossible(accepted)
  const { timeZone } = await shopOf(write)
  const values = { consent: accepted.netMinor, consentBy: accepted.typedName, consentOn: calendarDateIn(timeZone, accepted.at) }
  await write.build.update({ where: { id: buildId }, data: { ...values, version: { increment: 1 } } })
  await audit(write, actor, { action: 'changed', recordKind: 'build', recordId: buildId, changes: changesBetween(before, values) })
}

/** Each change order was possible by itself when it was frozen; together with what was accepted meanwhile it may not be. */
function refuseImpossible({ netMinor, taxMinor }: AcceptedTotal): void {
  if (netMinor < 0 || netMinor + taxMinor < 0) throw new Problem(409, 'Less than nothing', 'With this the customer would have agreed to less than nothing, because more was left out meanwhile. Nothing was taken down.')
  if (Math.max(netMinor, netMinor + taxMinor) > LARGEST_INTEGER) throw new Problem(409, 'More than can be kept', 'With this the customer would have agreed to more than can be kept. Nothing was taken down.')
}
