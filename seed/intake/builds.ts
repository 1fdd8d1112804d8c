import type { Database } from '../../server/shared/database/database.ts'
import { calendarDateIn } from '../../server/shared/shopTime.ts'
import { TIME_ZONE } from '../days.ts'

export interface BuildForIntake {
  readonly id: string
  readonly number: number
  readonly body: string
  readonly createdOn: string
}

/** The builds as they are stored, with the day they were entered. */
export async function listBuildsForIntake({ reads }: Database): Promise<BuildForIntake[]> {
  const builds = await reads.build.findMany({ select: { id: true, number: true, createdAt: true, vehicle: { select: { body: true } } } })
  return builds.map(({ id, number, createdAt, vehicle }) => ({ id, number, body: vehicle.body, createdOn: calendarDateIn(TIME_ZONE, createdAt) }))
}
