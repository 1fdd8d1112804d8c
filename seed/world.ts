import type { Capacity } from './capacity.ts'
import type { CatalogItem } from './catalog.ts'
import type { Days } from './days.ts'
import type { Diary } from './diary.ts'
import type { SeededKit } from './kits.ts'
import type { MaterialIds } from './materials.ts'
import type { Worker } from './people.ts'
import type { Random } from './random.ts'
import type { Rows } from './rows.ts'
import type { Settings } from './shop.ts'

/** What every build of the demo draws on. */
export interface World {
  readonly rows: Rows
  readonly days: Days
  readonly random: Random
  readonly diary: Diary
  readonly settings: Settings
  readonly people: ReadonlyMap<string, Worker>
  readonly capacity: Capacity
  readonly materials: MaterialIds
  readonly kits: ReadonlyMap<string, SeededKit>
  readonly catalog: ReadonlyMap<string, CatalogItem>
  readonly vehicles: ReadonlyMap<string, string>
}

/** What a table calls by a short key. Throws where no such thing was entered. */
export function get<Value>(map: ReadonlyMap<string, Value>, key: string): Value {
  const found = map.get(key)
  if (found === undefined) throw new Error(`the demo’s tables know no ${key}`)
  return found
}

/** The following records are entered by this person, on a working day from today. */
export function enteredBy({ rows, days, people }: World, signInName: string, workday: number, clock: string): void {
  const { id, name } = get(people, signInName)
  rows.by({ id, name, at: days.at(days.workday(workday), clock) })
}
