import { build } from '../../server/builds/records.ts'
import { equipmentLine } from '../../server/equipment/records.ts'
import { part } from '../../server/parts/records.ts'
import { factoryPart } from '../../server/removal/records.ts'
import { addBuild } from '../builds/addBuild.ts'
import { pick, randomFrom, type Random } from '../random.ts'
import type { World } from '../world.ts'
import { COUNTER_JOBS } from './counterJobs.ts'
import { HISTORY_CUSTOMERS } from './customers.ts'
import { EVERYDAY_BUILDS } from './everydayBuilds.ts'
import { drawnHabits } from './habits.ts'
import type { JobRecipe } from './recipe.ts'
import { toTables } from './toTables.ts'

const SEED = 1_117
const TIMES_EACH = 3

// Working days from today on which the first and the last of a kind came into the shop.
const EVERYDAY_DAYS = { first: -505, last: -62 } as const
const COUNTER_DAYS = { first: -497, last: -16 } as const

// The survey wagon is B-58; the display truck B-231 came in on day -62, the hatchback B-240 on day -12.
const EARLIER = { first: 101, step: 3, before: -62 } as const
const LATER_FIRST = 232

/** One closed build: what was done, on which first day in the vehicle, for whom. */
export interface ClosedJob {
  readonly recipe: JobRecipe
  readonly day: number
  readonly number: number
  readonly vehicle: string
  readonly customer: string
}

/** The closed builds of the last two years, oldest first. Returns their ids. */
export function addHistory(world: World): string[] {
  const random = randomFrom(SEED)
  const habits = drawnHabits(random)
  world.rows.tellOnlyOf([build, part, equipmentLine, factoryPart])
  return planJobs(random).map((job) => addBuild(world, toTables(job, random), habits).buildId)
}

function planJobs(random: Random): ClosedJob[] {
  const planned = [...spread(EVERYDAY_BUILDS, EVERYDAY_DAYS), ...spread(COUNTER_JOBS, COUNTER_DAYS)].sort((one, other) => one.day - other.day)
  const earlier = planned.filter(({ day }) => day < EARLIER.before).length
  let left = HISTORY_CUSTOMERS
  return planned.map((job, index) => {
    if (left.length === 0) left = HISTORY_CUSTOMERS
    const [first, ...others] = left
    if (!first) throw new Error('the demo’s history has no customers')
    const [vehicle, { name }] = pick(random, [first, ...others])
    left = left.filter(([key]) => key !== vehicle)
    const number = index < earlier ? EARLIER.first + index * EARLIER.step : LATER_FIRST + index - earlier
    return { ...job, number, vehicle, customer: String(name) }
  })
}

/** Every recipe so many times, in turn, evenly over the days. */
function spread(recipes: readonly JobRecipe[], { first, last }: { first: number, last: number }): { recipe: JobRecipe, day: number }[] {
  const all = Array.from({ length: TIMES_EACH }, () => recipes).flat()
  return all.map((recipe, index) => ({ recipe, day: Math.round(first + ((last - first) * index) / (all.length - 1)) }))
}
