import { placesOf, type Body } from '../../web/shared/zonePlaces.ts'
import { audit, changesBetween, type Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { invalid, Problem } from '../shared/problems.ts'
import { changeRecord, createRecord, type Submitted } from '../shared/records/table.ts'
import { intake } from './records.ts'
import { findIntake, findVehicle, storeFactoryOptions, storeSignature } from './writeStore.ts'

const EMPTY = { odometer: null, energyLevel: '', warningLights: '', keys: null, leftInside: '', walkedZones: '', note: '' }

/** Saves part of an intake, made where there is none yet. Without a version the newest is taken. */
export async function saveIntake(write: Write, buildId: string, { values, entered }: Submitted, version: number | null, actor: Actor): Promise<Row> {
  const there = await findIntake(write, buildId)
  if (!there) return createRecord(write, intake, buildId, { values: { ...EMPTY, ...values }, entered }, actor)
  return changeRecord(write, intake, there.id, version ?? there.version, { values, entered }, actor)
}

/** Ticks of one page; what others ticked in the meantime stays. */
export async function saveWalk(write: Write, buildId: string, ticked: readonly string[], shown: readonly string[], actor: Actor): Promise<void> {
  const there = await findIntake(write, buildId)
  const kept = String(there?.walkedZones ?? '').split(',').filter((place) => place !== '' && !shown.includes(place))
  const walkedZones = [...new Set([...kept, ...ticked])].join(',')
  if (there?.walkedZones === walkedZones || (!there && walkedZones === '')) return
  await saveIntake(write, buildId, { values: { walkedZones }, entered: {} }, null, actor)
}

/** Factory options are the vehicle's; whoever takes it in may write down what they see. */
export async function saveFactoryOptions(write: Write, vehicleId: string, typed: string, version: number, actor: Actor): Promise<void> {
  const before = await findVehicle(write, vehicleId)
  if (before.factoryOptions === typed) return
  if (before.version !== version) throw invalid('factoryOptions', `Somebody changed this in the meantime to: ${before.factoryOptions || 'nothing'}. Open the page again and write both down.`)
  await storeFactoryOptions(write, vehicleId, typed)
  await audit(write, actor, { action: 'changed', recordKind: 'vehicle', recordId: vehicleId, changes: changesBetween(before, { factoryOptions: typed }) })
}

/** What has to be there before anybody signs. */
export function missingForSignature(intakeRow: { walkedZones: string, warningLights: string } | null, body: Body): string[] {
  const walked = (intakeRow?.walkedZones ?? '').split(',')
  const open = placesOf(body).filter((place) => !walked.includes(place))
  return [
    ...(open.length === 0 ? [] : [`not looked at yet: ${open.join(', ')}`]),
    ...((intakeRow?.warningLights ?? '') === '' ? ['whether a warning light is lit is not said'] : []),
  ]
}

export async function sign(write: Write, buildId: string, { name, signature, version }: { name: string, signature: string, version: number }, actor: Actor): Promise<void> {
  const there = await findIntake(write, buildId)
  if (there?.signedAt) throw new Problem(409, 'Signed already', `${String(there.signedName)} signed this intake.`)
  const { body } = await findVehicle(write, null, buildId)
  const missing = missingForSignature(there, body as Body)
  if (!there || missing.length > 0) throw new Problem(409, 'Not ready to be signed', `Still open: ${missing.join('; ')}. Do that first, then sign.`)
  if (there.version !== version) throw new Problem(409, 'Changed in the meantime', 'Somebody changed the intake since this page was opened. Read it again, then sign.')
  await storeSignature(write, there.id, { signedName: name, signature, signedAt: actor.now })
  await audit(write, actor, { action: 'signed', recordKind: 'intake', recordId: there.id, changes: [{ field: 'Signed by', before: null, after: name }] })
}
