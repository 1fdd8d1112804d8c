import { equipmentLine } from '../../../server/equipment/records.ts'
import { operation } from '../../../server/operations/records.ts'
import { makerClaim, serialSwap, serviceVisit } from '../../../server/service/records.ts'
import { enteredBy, get } from '../../world.ts'
import type { Desk } from '../addBuild.ts'
import { addEntry } from '../hours.ts'

const RATTLE_DAY = -700
const DEAD_DAY = -420
const WARRANTY_DAYS = 521 // two years of working days
export const SERIAL_BEFORE = 'VS4-00127'
export const SERIAL_NOW = 'VS4-00388'

/** The wagon came back twice: a rattle of the shop's own making, and an amplifier that its maker made good. */
export function addService(desk: Desk): void {
  rattle(desk)
  deadChannel(desk)
}

function rattle(desk: Desk): void {
  const { world, buildId } = desk
  enteredBy(world, 'n.corvane', RATTLE_DAY, '08:20')
  const visitId = world.rows.add(serviceVisit, {
    cameOn: world.days.workday(RATTLE_DAY), leftOn: world.days.workday(RATTLE_DAY + 1), odometer: '41,400 km', complaint: 'Rattle in the left front door on gravel',
    cause: 'workmanship', paidBy: 'shop warranty', found: 'Two clips of the door panel were not home. New clips, cable tied to the beam, gravel road driven: quiet.',
  }, { buildId, number: 1 })
  const id = plan(desk, visitId, { factoryPartId: get(desk.things, 'panelL') }, { number: 100, kind: 'check', work: 'find the rattle', skill: 'disassembly', run: '1 h' })
  log(desk, id, RATTLE_DAY, 70)
}

function deadChannel(desk: Desk): void {
  const { world: { rows, days }, buildId, things } = desk
  const lineId = get(things, 'E4')
  enteredBy(desk.world, 'n.corvane', DEAD_DAY, '08:30')
  const visitId = rows.add(serviceVisit, {
    cameOn: days.workday(DEAD_DAY), leftOn: days.workday(DEAD_DAY + 6), odometer: '58,900 km', complaint: 'Right front speaker is silent', cause: 'equipment',
    paidBy: 'maker’s warranty', found: 'Channel 3 of the amplifier has no output; speaker and wiring measured good. Amplifier swapped for a new one from the maker.',
  }, { buildId, number: 2 })
  const id = plan(desk, visitId, { lineId }, { number: 100, kind: 'check', work: 'find the dead channel, swap the amplifier', skill: 'wiring', run: '1.5 h' })
  log(desk, id, DEAD_DAY, 110)
  rows.add(makerClaim, {
    visitId, lineId, claimedOn: days.workday(DEAD_DAY), reference: 'VT-RMA 20817', state: 'settled', amount: '60.00', answeredOn: days.workday(DEAD_DAY + 12),
    note: 'New unit sent in advance; a flat sum for the labor.',
  }, { buildId })
  enteredBy(desk.world, 's.penhale', DEAD_DAY + 5, '15:40')
  rows.add(serialSwap, {
    visitId, lineId, oldSerial: SERIAL_BEFORE, newSerial: SERIAL_NOW, swappedOn: days.workday(DEAD_DAY + 5), warrantyUntil: days.workday(DEAD_DAY + 5 + WARRANTY_DAYS),
    note: 'Sent to the maker with claim VT-RMA 20817.',
  }, { buildId })
  rows.changed(equipmentLine, lineId, [{ field: 'serialNumbers', before: SERIAL_BEFORE, after: SERIAL_NOW }])
}

interface Planned {
  readonly number: number
  readonly kind: string
  readonly work: string
  readonly skill: string
  readonly run: string
}

function plan({ world: { rows, settings }, buildId }: Desk, visitId: string, owner: Readonly<Record<string, string>>, { skill, ...typed }: Planned): string {
  return rows.add(operation, { ...owner, ...typed, ...get(settings.skills, skill), crew: 1, state: 'done', visitId }, { buildId })
}

function log({ world, buildId }: Desk, operationId: string, day: number, minutes: number): void {
  const worker = get(world.people, 's.penhale')
  for (const piece of world.diary.place(worker.id, { day, minute: 0 }, minutes)) {
    addEntry(world, buildId, { operationId, worker, kind: 'work', startedAt: piece.startedAt, minutes: piece.minutes, why: '' })
  }
}
