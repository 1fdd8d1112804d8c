import { build, openPoint, zone } from '../../server/builds/records.ts'
import { mountingPlace } from '../../server/fit/records.ts'
import { bin } from '../../server/removal/records.ts'
import { enteredBy, get, type World } from '../world.ts'
import { addFactoryParts } from './addFactoryParts.ts'
import { addFinishes } from './addFinishes.ts'
import { addLines, addParts } from './addInstalled.ts'
import { addAlterations, addEdges } from './addOrder.ts'
import { logHours, tabledHabits, type Habits } from './hours.ts'
import { addPredecessors, type PlannedOperation } from './operations.ts'
import type { BuildTables, ThingKey } from './tables.ts'

/** A build while it is entered: ids by the words of its tables. */
export interface Desk {
  readonly world: World
  readonly tables: BuildTables
  readonly habits: Habits
  readonly buildId: string
  readonly zones: Map<string, string>
  readonly bins: string[]
  readonly places: Map<string, string>
  readonly things: Map<ThingKey, string>
  readonly operations: PlannedOperation[]
}

/** Enters a whole build from its tables. */
export function addBuild(world: World, tables: BuildTables, habits = tabledHabits(world, tables.remarks)): Desk {
  const entered = tables.stages[0]?.[1] ?? -1
  enteredBy(world, 'c.oake', entered, '09:10')
  const desk: Desk = {
    world, tables, habits, buildId: addHead(world, tables), zones: new Map(), bins: [], places: new Map(), things: new Map(), operations: [],
  }
  enteredBy(world, 'c.oake', entered, '09:30')
  addZonesAndBins(desk)
  addParts(desk)
  addLines(desk)
  addFactoryParts(desk)
  enteredBy(world, 'c.oake', entered, '16:20')
  addEdges(desk)
  addAlterations(desk)
  addPoints(desk)
  addPredecessors(desk)
  addFinishes(desk)
  logHours(desk)
  return desk
}

function addHead({ rows, days, settings, vehicles, people }: World, tables: BuildTables): string {
  const { typed, dates, stages, bay } = tables
  const dated = Object.fromEntries(Object.entries(dates).map(([name, offset]) => [name, days.workday(offset)]))
  const stage = stages.at(-1)?.[0] ?? 'intake'
  const id = rows.add(build, {
    ...typed, ...dated, stage, vehicleId: get(vehicles, tables.vehicle), bayId: bay ? settings.bays[bay - 1] : null,
  }, { number: tables.number, version: stages.length })
  const manager = get(people, 'c.oake')
  stages.slice(1).forEach(([after, workday], index) => {
    rows.by({ id: manager.id, name: manager.name, at: days.at(days.workday(workday), '08:05') })
    rows.changed(build, id, [{ field: 'stage', before: stages[index]?.[0] ?? '', after }])
  })
  return id
}

function addZonesAndBins({ world: { rows }, tables, buildId, zones, bins, places }: Desk): void {
  tables.zones.forEach(({ key, name, place, note = '' }, index) => {
    zones.set(key, rows.add(zone, { name, place, note }, { buildId, number: index + 1 }))
  })
  tables.places?.forEach(({ key, zone: of, typed }, index) => {
    places.set(key, rows.add(mountingPlace, { zoneId: get(zones, of), ...typed }, { buildId, number: index + 1 }))
  })
  tables.bins.forEach((place, index) => bins.push(rows.add(bin, { place }, { buildId, number: index + 1 })))
}

function addPoints({ world: { rows, days, people }, tables, buildId, zones }: Desk): void {
  const counts = new Map<string, number>()
  for (const point of tables.points) {
    const number = (counts.get(point.zone) ?? 0) + 1
    counts.set(point.zone, number)
    rows.add(openPoint, {
      zoneId: get(zones, point.zone), text: point.text, stopsWork: point.stopsWork ?? false,
      personId: point.person ? get(people, point.person).id : null,
      closedOn: point.closedDay === undefined ? null : days.workday(point.closedDay),
    }, { buildId, number })
  }
}
