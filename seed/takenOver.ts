import { build } from '../server/builds/records.ts'
import type { Database } from '../server/shared/database/database.ts'
import { createRecord } from '../server/shared/records/table.ts'
import { findBoth, loadSource, takeOver } from '../server/takeovers/takeover.ts'
import { get, type World } from './world.ts'

/** An everyday build whose scope is taken over from a closed one, as the preview would write it when nothing is edited. */
export async function addTakenOver(database: Database, { days, people, vehicles }: World): Promise<void> {
  const { reads } = database
  const earlier = await reads.build.findFirst({ where: { title: 'Two-way front', stage: 'delivered' }, orderBy: { number: 'desc' }, select: { id: true } })
  if (!earlier) throw new Error('the demo has no earlier two-way front')
  const { id, name } = get(people, 'c.oake')
  const actor = { personId: id, personName: name, requestId: 'demo', now: days.at(days.workday(-1), '11:20') }
  const values = {
    title: 'Two-way front, like the last one', kind: 'everyday build', stage: 'scope', vehicleId: get(vehicles, 'trubridge'), holding: 'owned',
    reason: 'Heard the same front in a neighbor’s vehicle.', deadline: days.workday(25),
  }
  const { id: buildId } = await database.write((write) => createRecord(write, build, null, { values, entered: {} }, actor))
  const { source } = await findBoth(reads, buildId, earlier.id)
  const loaded = await loadSource(reads, source)
  const wanted = {
    sourceId: source.id, what: 'whole scope', partId: null, zoneId: null, intoZoneId: null, leftOut: new Set<string>(), quantities: new Map<string, number>(),
    times: new Map<string, never>(), logged: new Set<string>(), isLoggedForAll: true,
  } as const
  await database.write((write) => takeOver(write, buildId, wanted, loaded, actor))
}
