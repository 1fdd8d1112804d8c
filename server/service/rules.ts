import { counted } from '../../web/shared/text.ts'
import { writeDay } from '../../web/shared/day.ts'
import { isOutside, warrantyOf } from '../calc/warranty.ts'
import { audit, changesBetween, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { invalid } from '../shared/problems.ts'
import { label, type Draft, type Values } from '../shared/records/kind.ts'
import { listSerials, replaceSerial } from './serials.ts'

/** A visit is to a vehicle that was delivered, and not before that. */
export async function checkVisit(write: Write, { before, values }: Draft): Promise<Values> {
  const buildId = String(before?.buildId ?? values.buildId)
  const build = await write.build.findUniqueOrThrow({ where: { id: buildId }, select: { number: true, deliveredOn: true } })
  const { deliveredOn } = build
  if (deliveredOn === null) {
    throw invalid('cameOn', `${label('B', build.number)} has no date of delivery yet. A service visit is to a delivered vehicle; until then plan operations in the build itself.`)
  }
  const cameOn = String(values.cameOn)
  if (cameOn < deliveredOn) throw invalid('cameOn', `The vehicle was delivered on ${writeDay(deliveredOn)}; it cannot come to service before that.`)
  if (typeof values.leftOn === 'string' && values.leftOn < cameOn) throw invalid('leftOn', `It came on ${cameOn} and cannot leave before that.`)
  return {}
}

/** What was recorded during a visit keeps it. */
export async function heldByWork(reads: Reads | Write, row: Row): Promise<string | null> {
  const where = { visitId: row.id, removedAt: null }
  const [operations, claims, swaps] = await Promise.all([
    reads.operation.count({ where }), reads.makerClaim.count({ where }), reads.serialSwap.count({ where }),
  ])
  const held = [
    operations > 0 ? counted(operations, 'operation', 'operations') : '', claims > 0 ? counted(claims, 'maker’s claim', 'maker’s claims') : '',
    swaps > 0 ? counted(swaps, 'serial swap', 'serial swaps') : '',
  ].filter((text) => text !== '')
  return held.length === 0 ? null : `Recorded on this visit: ${held.join(', ')}. Remove that first.`
}

export async function checkClaim(_write: Write, { values }: Draft): Promise<Values> {
  if (typeof values.answeredOn === 'string' && values.answeredOn < String(values.claimedOn)) {
    throw invalid('answeredOn', `It was claimed on ${String(values.claimedOn)}; the answer cannot be older.`)
  }
  if (values.state === 'sent' && typeof values.answeredOn === 'string') throw invalid('state', 'The maker has answered: accepted, refused or settled?')
  return {}
}

/** What is odd about a claim though it may stand: the maker may be kinder than its terms. */
export async function warnOfClaim(reads: Reads | Write, row: Row): Promise<string | null> {
  const line = await reads.equipmentLine.findUniqueOrThrow({
    where: { id: String(row.lineId) }, select: { number: true, item: { select: { warrantyMonths: true } }, build: { select: { deliveredOn: true } } },
  })
  const warranty = warrantyOf({ deliveredOn: line.build.deliveredOn, months: line.item?.warrantyMonths ?? null, replacementUntil: await replacementUntil(reads, row) })
  if (!isOutside(warranty, String(row.claimedOn))) return null
  return `Outside the warranty: that of ${label('E', line.number)} ended ${writeDay(String(warranty.until))} (${warranty.how}). The claim stands; the maker decides.`
}

// The warranty of a unit that replaced another at an earlier visit.
async function replacementUntil(reads: Reads | Write, row: Row): Promise<string | null> {
  const swap = await reads.serialSwap.findFirst({
    where: { lineId: String(row.lineId), visitId: { not: String(row.visitId) }, removedAt: null, warrantyUntil: { not: null }, swappedOn: { lte: String(row.claimedOn) } },
    orderBy: { warrantyUntil: 'desc' }, select: { warrantyUntil: true },
  })
  return swap?.warrantyUntil ?? null
}

/** The number that goes must stand on the line, and the one that comes must not. */
export async function checkSwap(write: Write, { before, values }: Draft): Promise<Values> {
  const visit = await write.serviceVisit.findUniqueOrThrow({ where: { id: String(values.visitId) }, select: { cameOn: true } })
  if (String(values.swappedOn) < visit.cameOn) throw invalid('swappedOn', `The vehicle came on ${visit.cameOn}; nothing was swapped before that.`)
  if (typeof values.warrantyUntil === 'string' && values.warrantyUntil < String(values.swappedOn)) throw invalid('warrantyUntil', 'The warranty of the new unit ends before it was fitted. Check both dates.')
  if (!before) await checkSerials(write, String(values.lineId), String(values.oldSerial), String(values.newSerial))
  return {}
}

async function checkSerials(write: Write, lineId: string, oldSerial: string, newSerial: string): Promise<void> {
  const line = await getLine(write, lineId)
  const standing = listSerials(line.serialNumbers)
  const name = `${label('E', line.number)} ${line.name}`
  if (standing.length === 0) throw invalid('oldSerial', `No serial number is recorded for ${name}. Enter it in the line first.`)
  if (!standing.includes(oldSerial)) throw invalid('oldSerial', `${oldSerial} does not stand on ${name} now. There stand: ${standing.join(', ')}.`)
  if (listSerials(newSerial).length !== 1 || newSerial.includes('\n')) throw invalid('newSerial', 'One number for one: record a swap for each unit.')
  if (standing.includes(newSerial)) throw invalid('newSerial', `${newSerial} stands on ${name} already.`)
}

/** The line carries the new number from now on. */
export async function applySwap(write: Write, row: Row, { before, actor }: Draft): Promise<void> {
  if (!before) await rewrite(write, actor, row, String(row.oldSerial), String(row.newSerial))
}

/** Taken back, a swap gives the line its number again; recovered, it takes it once more. */
export async function turnSwap(write: Write, row: Row, actor: Actor): Promise<void> {
  const isRemoved = row.removedAt === null
  const [from, to] = isRemoved ? [String(row.newSerial), String(row.oldSerial)] : [String(row.oldSerial), String(row.newSerial)]
  const line = await getLine(write, String(row.lineId))
  const standing = listSerials(line.serialNumbers)
  if (!standing.includes(from)) {
    throw invalid('id', `${from} no longer stands on ${label('E', line.number)} ${line.name}: it was swapped or corrected since. There stand: ${standing.join(', ') || 'none'}. Take the later swap back first.`)
  }
  if (standing.includes(to)) throw invalid('id', `${to} stands on ${label('E', line.number)} ${line.name} already.`)
  await rewrite(write, actor, row, from, to)
}

async function rewrite(write: Write, actor: Actor, row: Row, from: string, to: string): Promise<void> {
  const id = String(row.lineId)
  const { serialNumbers } = await getLine(write, id)
  const after = { serialNumbers: replaceSerial(serialNumbers, from, to) }
  await write.equipmentLine.update({ where: { id }, data: { ...after, version: { increment: 1 } } })
  await audit(write, actor, { action: 'changed', recordKind: 'equipment line', recordId: id, changes: changesBetween({ serialNumbers }, after) })
}

const getLine = (write: Write, id: string) =>
  write.equipmentLine.findUniqueOrThrow({ where: { id }, select: { number: true, name: true, serialNumbers: true } })
