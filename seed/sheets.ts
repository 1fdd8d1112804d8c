import { randomBytes } from 'node:crypto'
import type { Database } from '../server/shared/database/database.ts'
import { newIds } from '../server/shared/newIds.ts'
import { hashOfSecret } from '../server/shared/session.ts'
import { freeze, putDown } from '../server/sheets/deeds.ts'
import { getSheet } from '../server/sheets/store.ts'
import { get, type World } from './world.ts'

const DAY_MS = 24 * 3600_000

/** The leased wagon is being returned: its sheet is frozen, the first steps are ticked, and the lessor reads it by link. */
export async function addSheets(database: Database, { people, days }: Pick<World, 'people' | 'days'>): Promise<void> {
  const { reads } = database
  const wagon = await reads.build.findFirstOrThrow({ where: { holding: 'leased', stage: 'delivered' }, select: { id: true } })
  const [maker, hand] = [get(people, 'c.oake'), get(people, 's.penhale')]
  const frozenAt = days.at(days.on(-2), '08:40')
  const viewer = { personId: maker.id, name: maker.name, role: 'manager', units: 'metric', theme: 'system', csrfToken: '', shopName: '', currency: 'USD', today: days.on(-2) } as const
  await database.write(async (write) => {
    const manager = { personId: maker.id, personName: maker.name, requestId: 'demo', now: frozenAt }
    const id = await freeze(write, wagon.id, { parts: 'all', basis: 'recorded' }, viewer, manager)
    const { content } = await getSheet(write, id)
    const nextId = newIds(frozenAt)
    const common = { age: 0, torque: '', text: '', signedName: '', signature: '' }
    const technician = { personId: hand.id, personName: hand.name, requestId: 'demo', now: days.at(days.on(-1), '09:12') }
    const first = content.sheet.checklist.steps.slice(0, 9).map(({ number }) => ({ ...common, id: nextId(), step: String(number), kind: 'done' as const }))
    await putDown(write, id, [...first, { ...common, id: nextId(), step: '6', kind: 'deviation', text: 'One clip was broken already; a new one lies in the bin.' }], days.on(-1), technician)
    for (const { note, until, revokedAt } of [
      { note: 'The lessor’s return desk', until: 3 * 365, revokedAt: null }, { note: 'Sent to a wrong address', until: 90, revokedAt: days.at(days.on(-1), '10:00') },
    ]) {
      // Nobody knows the secret of these: make a link to open one.
      await write.shareLink.create({ data: {
        buildId: wagon.id, subjectKind: 'return-to-stock sheet', subjectId: id, tokenHash: hashOfSecret(randomBytes(32).toString('base64url')), note,
        createdById: maker.id, createdAt: frozenAt, expiresAt: new Date(frozenAt.getTime() + until * DAY_MS), revokedAt,
      } })
    }
  })
}
