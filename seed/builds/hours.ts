import { after, type Moment } from '../diary.ts'
import type { Random } from '../random.ts'
import { get, type World } from '../world.ts'
import type { Worker } from '../people.ts'
import type { Desk } from './addBuild.ts'
import type { PlannedOperation } from './operations.ts'
import type { BuildTables } from './tables.ts'

// What sanding and wiring take beside the plan: the demo's shop has the habits of most.
const RATIOS: Readonly<Record<string, number>> = { sand: 1.25, fill: 1.1, laminate: 1.1, wire: 1.12, design: 0.9, cut: 0.95 }
const GRAIN_MINUTES = 5
const RUNNING_SHARE = 0.55

export interface Remark {
  readonly kind: 'rework' | 'waiting'
  readonly minutes: number
  readonly why: string
}

/** How long the people of a build take, and what goes wrong. */
export interface Habits {
  minutesOf(one: PlannedOperation): number
  remarksOn(one: PlannedOperation): readonly Remark[]
}

/** What the tables of a build tell, and the demo's usual ratios. */
export function tabledHabits({ random }: World, remarks: BuildTables['remarks']): Habits {
  return {
    minutesOf: (one) => minutesLogged(random, one),
    remarksOn: (one) => remarks.filter(({ at }) => at === one.key),
  }
}

/** The hours of all that is finished or begun, day by day, by people who have the skill; each after what goes before it. */
export function logHours(desk: Desk): void {
  const begun = desk.operations.filter(({ state }) => state !== 'not started')
  const freeFrom = new Map<string, Moment>()
  const log = (one: PlannedOperation): Moment => {
    const known = freeFrom.get(one.id)
    if (known) return known
    const from = begun.filter(({ id }) => one.after.has(id)).map(log).reduce(later, { day: one.from, minute: 0 })
    const free = after(logOperation(desk, one, from), one.step.wait)
    freeFrom.set(one.id, free)
    return free
  }
  for (const one of [...begun].sort((first, second) => first.from - second.from)) log(one)
}

const later = (one: Moment, other: Moment): Moment =>
  one.day > other.day || (one.day === other.day && one.minute >= other.minute) ? one : other

function logOperation({ world, habits, buildId }: Desk, one: PlannedOperation, from: Moment): Moment {
  const minutes = habits.minutesOf(one)
  const remarks = habits.remarksOn(one)
  let end = from
  for (const worker of crewFor(world, one, from)) {
    for (const piece of world.diary.place(worker.id, from, minutes)) {
      addEntry(world, buildId, { operationId: one.id, worker, kind: 'work', startedAt: piece.startedAt, minutes: piece.minutes, why: '' })
      end = piece.end
    }
    for (const remark of remarks) end = logRemark(world, buildId, one, worker, remark, end)
  }
  return end
}

function logRemark(world: World, buildId: string, one: PlannedOperation, worker: Worker, remark: Remark, from: Moment): Moment {
  const pieces = world.diary.place(worker.id, from, remark.minutes)
  for (const { startedAt, minutes } of pieces) {
    addEntry(world, buildId, { operationId: one.id, worker, kind: remark.kind, startedAt, minutes, why: remark.why })
  }
  return pieces.at(-1)?.end ?? from
}

interface Entry {
  readonly operationId: string
  readonly worker: Worker
  readonly kind: string
  readonly startedAt: Date
  readonly minutes: number
  readonly why: string
}

export function addEntry({ rows }: World, buildId: string, { operationId, worker, kind, startedAt, minutes, why }: Entry): void {
  const writtenAt = new Date(startedAt.getTime() + minutes * 60_000)
  rows.plain('timeEntry', {
    id: rows.newId(writtenAt), createdAt: writtenAt, buildId, operationId, personId: worker.id, enteredById: worker.id,
    kind, startedAt, seconds: minutes * 60, why,
  })
}

function minutesLogged(random: Random, { step, minutes, state }: PlannedOperation): number {
  const share = (RATIOS[step.kind] ?? 1) * (0.86 + random() * 0.3) * (state === 'running' ? RUNNING_SHARE : 1)
  return Math.max(GRAIN_MINUTES, Math.round((minutes * share) / GRAIN_MINUTES) * GRAIN_MINUTES)
}

/** Those with the skill who have most room on that day. */
function crewFor({ people, diary }: World, { step }: PlannedOperation, from: Moment): Worker[] {
  const able = [...people.values()].filter(({ skills }) => skills.includes(step.skill))
  const others = [...people.values()].filter((worker) => !able.includes(worker) && worker.skills.includes('fitting'))
  const byRoom = able.sort((first, second) => diary.filled(first.id, from.day) - diary.filled(second.id, from.day))
  return [...byRoom, ...others].slice(0, step.crew)
}

/** Somebody sees that an entry is wrong and says so; the first one stays. */
export function correctEntry(desk: Desk, signInName: string, seconds: number, why: string): void {
  const { world: { rows, people, days } } = desk
  const { id } = get(people, signInName)
  const wrong = rows.find('timeEntry', (entry) => entry.personId === id && entry.buildId === desk.buildId && Number(entry.seconds) > seconds)
  const at = days.at(days.workday(-1), '16:50')
  rows.plain('timeEntry', { ...wrong, id: rows.newId(at), createdAt: at, seconds, why, correctsId: wrong.id, enteredById: id })
}

/** Somebody is at it as the demo opens. */
export function startTimer({ world, buildId, operations }: Desk, signInName: string, key: string, minutesAgo: number): void {
  const running = operations.find((one) => one.key === key)
  if (!running) throw new Error(`the demo’s tables know no operation ${key}`)
  world.rows.plain('timer', {
    personId: get(world.people, signInName).id, buildId, operationId: running.id, kind: 'work', startedAt: world.days.minutesAgo(minutesAgo),
  })
}
