import { conditionMark, faultCode, intake } from '../../server/intake/records.ts'
import type { Database } from '../../server/shared/database/database.ts'
import { placesOf, type Body } from '../../web/shared/zonePlaces.ts'
import { enteredBy, get, type World } from '../world.ts'
import { listBuildsForIntake, type BuildForIntake } from './builds.ts'
import { SIGNATURE } from './signature.ts'
import { INTAKES, type IntakeTable } from './tables.ts'

/** A mark that a picture is drawn of. */
export interface Pictured {
  readonly buildId: string
  readonly markId: string
  readonly personId: string
  readonly at: Date
  readonly color: string
  readonly seed: number
}

/** Enters how each vehicle came, after its build; returns what pictures are to be drawn of. */
export async function addIntakes(database: Database, world: World): Promise<Pictured[]> {
  const builds = await listBuildsForIntake(database)
  const pictured = INTAKES.flatMap((table) => {
    const build = builds.find(({ number }) => number === table.build)
    if (!build) throw new Error(`the demo has no build ${table.build}`)
    return addIntake(world, table, build)
  })
  await world.rows.store(database)
  return pictured
}

function addIntake(world: World, table: IntakeTable, build: BuildForIntake): Pictured[] {
  const { rows, days, people } = world
  const { id: buildId, createdOn: date } = build
  const person = get(people, table.by)
  const at = (clock: string): Date => days.at(date, clock)
  rows.by({ id: person.id, name: person.name, at: at('08:40') })
  const walkedZones = placesOf(build.body as Body).filter((place) => !(table.open ?? []).includes(place)).join(',')
  const signedAt = table.signedName === undefined ? null : at('09:05')
  rows.add(intake, { ...table.typed, walkedZones }, {
    buildId, walkedById: person.id, walkedOn: date, signedName: table.signedName ?? '', signedAt, signature: signedAt ? SIGNATURE : '',
  })
  for (const code of table.codes) {
    const { isCleared = false, ...typed } = code
    rows.add(faultCode, { ...typed, readAt: 'intake', readOn: date, clearedOn: isCleared === true ? date : null }, { buildId })
  }
  rows.by({ id: person.id, name: person.name, at: at('08:55') })
  const pictured = table.marks.map(({ typed, picture }, index) => ({
    buildId, personId: person.id, at: at('08:56'), picture, markId: rows.add(conditionMark, typed, { buildId, number: index + 1 }),
  }))
  enteredBy(world, 'c.oake', -1, '09:00')
  return pictured.flatMap(({ picture, ...mark }) => (picture ? [{ ...mark, color: picture[0], seed: picture[1] }] : []))
}
