import { factoryPart, fastener, removal } from '../../server/removal/records.ts'
import { get } from '../world.ts'
import type { Desk } from './addBuild.ts'
import { readFasteners } from './fasteners.ts'
import { planOperations } from './operations.ts'
import type { FactoryGroup, FactoryMore, FactoryRow } from './tables.ts'

const FIRST_NUMBER = 11
const STATES_IN_THE_VEHICLE = ['fitted', 'loosened', 'altered', 'missing']

/** Factory parts with their fasteners, and who took them out when. */
export function addFactoryParts(desk: Desk): void {
  let number = FIRST_NUMBER
  for (const group of desk.tables.factory) {
    group.parts.forEach((row, index) => {
      addFactoryPart(desk, group, row, number)
      addRemoval(desk, group, row, index)
      number += 1
    })
  }
}

function addFactoryPart(desk: Desk, group: FactoryGroup, [key, name, take, fasteners, , more = {}]: FactoryRow, number: number): void {
  const { world: { rows, materials }, tables, buildId, zones, things } = desk
  const state = more.state ?? group.state
  const id = rows.add(factoryPart, {
    zoneId: get(zones, group.zone), name, state, partNumber: more.number ?? '', binId: binOf(desk, group, more, state),
    place: more.place ?? '', takeOut: take, putBack: more.back ?? take, cautions: more.cautions ?? '', connectors: more.connectors ?? '',
    condition: more.condition ?? '', replaceCost: more.cost ?? null, leadDays: more.lead ?? 0, note: more.note ?? '',
  }, { buildId, number })
  things.set(key, id)
  for (const { count, typed, material } of readFasteners(fasteners, tables.manual)) {
    rows.add(fastener, { ...typed, factoryPartId: id, count, materialId: material ? get(materials, material).id : null }, { buildId })
  }
  if (more.work) {
    planOperations(desk, {
      key, owner: { factoryPartId: id }, pieces: 1, recipe: more.work, size: more.size ?? 1,
      progress: { ...more, from: more.from ?? group.day },
    })
  }
}

function binOf({ bins }: Desk, group: FactoryGroup, more: FactoryMore, state: string): string | null {
  if (STATES_IN_THE_VEHICLE.includes(state) || more.place) return null
  const number = more.bin === undefined ? group.bin : more.bin
  return number ? (bins[number - 1] ?? null) : null
}

// Somebody took it out in the order of the table, a few minutes apart.
function addRemoval(desk: Desk, group: FactoryGroup, [key, , , , , more = {}]: FactoryRow, index: number): void {
  const { world: { rows, days, people }, buildId, things } = desk
  const state = more.state ?? group.state
  if (state === 'fitted' || state === 'altered' || state === 'missing') return
  const { id: personId } = get(people, group.by)
  const at = new Date(days.at(days.workday(group.day), '08:20').getTime() + index * 13 * 60_000)
  const kind = state === 'loosened' ? 'loosened' : 'came out'
  rows.add(removal, {
    factoryPartId: get(things, key), kind, binId: kind === 'came out' ? binOf(desk, group, more, state) : null, condition: more.condition ?? '',
  }, { buildId, personId, at })
}
