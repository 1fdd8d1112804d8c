import { readFaultCode } from '../calc/faultCodes.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { invalid, Problem } from '../shared/problems.ts'
import type { Draft, Values } from '../shared/records/kind.ts'
import { calendarDateIn } from '../shared/shopTime.ts'

const SIGNED = 'Signed already'

export async function checkIntake(write: Write, { before, values, actor }: Draft): Promise<Values> {
  if (before?.signedAt) {
    throw new Problem(409, SIGNED, `${String(before.signedName)} signed how the vehicle came, and that stays as it is. Add a condition mark, which will say that it is from after the signature, or an open point.`)
  }
  if (!before && await write.intake.count({ where: { buildId: String(values.buildId) } }) > 0) {
    throw new Problem(409, 'There is an intake already', 'A build has one intake. Change that.')
  }
  const lights = String(values.warningLights ?? '').split(',')
  if (lights.includes('none') && lights.length > 1) throw invalid('warningLights', 'Either none is lit, or the ones that are: untick “none” or the others.')
  const isWalked = String(values.walkedZones ?? '') !== String(before?.walkedZones ?? '')
  if (!isWalked) return {}
  const shop = await write.shop.findFirst({ select: { timeZone: true } })
  return { walkedById: actor.personId, walkedOn: calendarDateIn(shop?.timeZone ?? 'UTC', actor.now) }
}

export async function checkMark(write: Write, { before, actor }: Draft): Promise<Values> {
  if (!before) return { createdAt: actor.now }
  await refuseSigned(write, before)
  return {}
}

/** What was there when the customer signed is neither changed nor taken away. */
export async function refuseSigned(client: Reads | Write, row: Row): Promise<void> {
  const signed = await client.intake.findUnique({ where: { buildId: String(row.buildId) }, select: { signedAt: true, signedName: true } })
  if (!isBefore(row.createdAt, signed?.signedAt ?? null)) return
  throw new Problem(409, SIGNED, `${signed?.signedName ?? ''} signed this with the intake, and it stays as it is. Add a new condition mark that says what differs; it will say that it is from after the signature.`)
}

/** Whether a record stood there when the intake was signed. */
export const isBefore = (createdAt: unknown, signedAt: Date | null): boolean => signedAt !== null && createdAt instanceof Date && createdAt <= signedAt

export async function checkFaultCode(write: Write, { before, values, actor }: Draft): Promise<Values> {
  const { code, isStandardForm } = readFaultCode(String(values.code ?? ''))
  if (!isStandardForm && String(values.unit ?? '') === '') {
    throw invalid('code', `“${code.slice(0, 40)}” is not of the form P0420: a letter P, C, B or U, a digit 0 to 3 and three hexadecimal digits. If it is a code of the maker’s own, name the control unit.`)
  }
  if (before?.readAt === 'intake' && (before.code !== code || values.readAt !== 'intake' || before.readOn !== values.readOn || before.unit !== values.unit)) await refuseSigned(write, before)
  return { code, ...(before ? {} : { createdAt: actor.now }) }
}
