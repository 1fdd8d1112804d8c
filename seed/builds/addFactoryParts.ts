import { factoryPart, fastener, removal } from '../../server/removal/records.ts'
import type { Columns } from '../rows.ts'
import { get } from '../world.ts'
import type { Desk } from './addBuild.ts'
import { addCustody } from './custody.ts'
import { addNeeds } from './addInstalled.ts'
import { readFasteners } from './fasteners.ts'
import { planOperations } from './operations.ts'
import type { FactoryGroup, FactoryMore, FactoryRow } from './tables.ts'

const FIRST_NUMBER = 11
const MINUTES_APART = 13
const STATES_IN_THE_VEHICLE = ['fitted', 'loosened', 'altered', 'missing']

/** Factory parts with their fasteners, and who took them out when. */
export function addFactoryParts(desk: Desk): void {
  let number = FIRST_NUMBER
  for (const group of desk.tables.factory) {
    for (const row of group.parts) {
      addFactoryPart(desk, group, row, number)
      number += 1
    }
  }
  for (const group of desk.tables.factory) group.parts.forEach((row, index) => {
    addRemoval(desk, group, row, index)
    addCustody(desk, { group, row, binId: binOf(desk, group, row[5] ?? {}, 'out and stored'), momentOn: (day) => momentOf(desk, day, index) })
  })
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
  addNeeds(desk, { factoryPartId: id }, more.needs)
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

// In the order of the table, a few minutes apart; what is fitted again went back in the same order later.
function addRemoval(desk: Desk, group: FactoryGroup, [key, , , , , more = {}]: FactoryRow, index: number): void {
  const { world: { rows, people }, buildId, things } = desk
  const state = more.state ?? group.state
  const factoryPartId = get(things, key)
  const { id: personId, name } = get(people, group.by)
  const note = (kind: string, day: number, typed: Columns): void => {
    const at = momentOf(desk, day, index)
    rows.by({ id: personId, name, at })
    rows.add(removal, { factoryPartId, kind, ...typed }, { buildId, personId, at })
  }
  const binId = binOf(desk, group, more, 'out and stored')
  if (group.backDay !== undefined && ['fitted', 'altered', 'damaged'].includes(state)) {
    note('came out', group.day, { binId })
    note('went back', group.backDay, { condition: more.condition ?? '' })
  } else if (state === 'loosened') {
    note('loosened', group.day, { condition: more.condition ?? '' })
  } else if (state.startsWith('out') || state === 'damaged') {
    note('came out', group.day, { binId, condition: more.condition ?? '' })
  }
}

function momentOf({ world: { days } }: Desk, day: number, index: number): Date {
  return new Date(days.at(days.workday(day), '08:20').getTime() + index * MINUTES_APART * 60_000)
}
