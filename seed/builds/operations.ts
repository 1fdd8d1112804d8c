import { operation, predecessor } from '../../server/operations/records.ts'
import { get, type World } from '../world.ts'
import type { Desk } from './addBuild.ts'
import { RECIPES, type RecipeName, type Step } from './recipes.ts'
import type { Columns } from '../rows.ts'
import type { Progress, ThingKey } from './tables.ts'

/** An operation as it stands in the plan, for whoever logs hours on it. */
export interface PlannedOperation {
  readonly key: string
  readonly id: string
  readonly thing: ThingKey
  readonly step: Step
  readonly state: string
  /** For all pieces, without the crew. */
  readonly minutes: number
  readonly from: number
  /** The operations that are finished before it. */
  readonly after: Set<string>
}

interface Plan {
  readonly key: ThingKey
  readonly owner: { partId: string } | { lineId: string } | { factoryPartId: string }
  readonly pieces: number
  readonly recipe: RecipeName
  readonly size: number
  readonly progress: Progress
}

const GRAIN_MINUTES = 5

/** The operations of a recipe, as far as they have come. */
export function planOperations(desk: Desk, plan: Plan): void {
  const steps: readonly Step[] = RECIPES[plan.recipe]
  let before: string | null = null
  steps.forEach((step, index) => {
    const number = (index + 1) * 10
    const setUp = inMinutes(step.setUp * plan.size)
    const run = inMinutes(step.run * plan.size)
    const state = stateOf(index, plan.progress)
    const { skillId, departmentId } = get(desk.world.settings.skills, step.skill)
    const id = desk.world.rows.add(operation, {
      ...plan.owner, number, kind: step.kind, work: step.work, departmentId, skillId, crew: step.crew, state,
      setUp: `${setUp} min`, run: `${run} min`, wait: `${step.wait} h`, ...doubtsOf(step, run), ...placeOf(desk.world, step, state),
    }, { buildId: desk.buildId })
    desk.operations.push({
      key: `${plan.key}:${number}`, id, thing: plan.key, step, state, minutes: setUp + run * plan.pieces, from: plan.progress.from ?? -1,
      after: new Set(before ? [before] : []),
    })
    before = id
  })
}

function doubtsOf({ unsure, learning, rework }: Step, run: number): Columns {
  return {
    ...(unsure ? { runBest: `${Math.floor(run * unsure[0])} min`, runWorst: `${Math.ceil(run * unsure[1])} min` } : {}),
    ...(learning ? { learningModel: learning.model, learningRate: learning.rate } : {}),
    ...(rework ? { reworkAllowance: rework } : {}),
  }
}

/** The machine it needs; where it goes, and once it is there, when it is expected back. */
function placeOf({ capacity, days }: World, { kind, work, skill }: Step, state: string): Columns {
  if (kind === 'outside finish') {
    return { finisherId: get(capacity.finishers, work.split(',')[0]!), wait: 0, ...(state === 'waiting' ? { backOn: days.workday(3) } : {}) }
  }
  return ['machine', 'print'].includes(kind) && capacity.machines.has(skill) ? { machineId: get(capacity.machines, skill) } : {}
}

const inMinutes = (hours: number): number => Math.round((hours * 60) / GRAIN_MINUTES) * GRAIN_MINUTES

function stateOf(index: number, { done = 0, now }: Progress): string {
  if (index < done) return 'done'
  return index === done && now ? now : 'not started'
}

/** Pieces are finished before their assembly is put together; the rest stands in the build's table. */
export function addPredecessors(desk: Desk): void {
  for (const { parts } of desk.tables.parts) {
    for (const { n, into = [] } of parts) {
      for (const [parent] of into) addPredecessor(desk, lastOf(desk, `P${n}`), firstAssembling(desk, `P${parent}`))
    }
  }
  const byKey = new Map(desk.operations.map((one) => [one.key, one]))
  for (const [earlier, later] of desk.tables.predecessors.map((pair) => pair.split(' > '))) {
    addPredecessor(desk, get(byKey, earlier ?? ''), get(byKey, later ?? ''))
  }
}

function addPredecessor({ world: { rows }, buildId }: Desk, earlier: PlannedOperation, later: PlannedOperation): void {
  if (later.state !== 'not started' && earlier.state !== 'done') throw new Error(`${later.key} is begun before ${earlier.key} is finished`)
  later.after.add(earlier.id)
  rows.add(predecessor, { earlierId: earlier.id, laterId: later.id }, { buildId })
}

function lastOf({ operations }: Desk, thing: ThingKey): PlannedOperation {
  const last = operations.filter((one) => one.thing === thing).at(-1)
  if (!last) throw new Error(`${thing} has no operation`)
  return last
}

function firstAssembling({ operations }: Desk, thing: ThingKey): PlannedOperation {
  const own = operations.filter((one) => one.thing === thing)
  const found = own.find(({ step }) => ['assemble', 'fit'].includes(step.kind)) ?? own[0]
  if (!found) throw new Error(`${thing} has no operation`)
  return found
}
