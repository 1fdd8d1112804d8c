import { groupBy } from '../grouping.ts'

export const MARK_KINDS = ['done', 'not done', 'deviation', 'torque', 'signature'] as const
export type MarkKind = typeof MARK_KINDS[number]

/** One thing that somebody put down on a sheet. Marks are only ever added. */
export interface Mark {
  readonly id: string
  /** The number of a step; for a torque also which of its fasteners: "12" and "12.2". */
  readonly step: string
  readonly kind: MarkKind
  /** When it was put down, ms. */
  readonly atMs: number
  /** When it reached the shop, ms: decides where two were put down in the same moment. */
  readonly cameMs: number
  readonly who: string
  readonly torqueMnm: number | null
  readonly text: string
  readonly signedName: string
  readonly signature: string
}

export interface MarkedStep {
  readonly key: string
  readonly needs: readonly string[]
}

export interface StepProgress {
  readonly key: string
  readonly isDone: boolean
  /** The mark that made it so; null while nobody has ticked it. */
  readonly last: Mark | null
  /** What was still open when it was ticked. */
  readonly skipped: readonly string[]
  /** What it needs that is not done now. */
  readonly waitsFor: readonly string[]
  readonly deviations: readonly Mark[]
  /** The newest torque of each fastener, by its place in the step from 1. */
  readonly torques: ReadonlyMap<number, Mark>
}

/** The order in which marks were put down; the same for everybody, in whatever order they arrive. */
export function inOrder(marks: readonly Mark[]): Mark[] {
  return marks.toSorted((a, b) => a.atMs - b.atMs || a.cameMs - b.cameMs || (a.id < b.id ? -1 : 1))
}

const isTick = ({ kind }: Mark): boolean => kind === 'done' || kind === 'not done' || kind === 'signature'
const ticks = ({ kind }: Mark): boolean => kind !== 'not done'

/**
 * What is done on a sheet, from all that was put down on it: the newest tick of a step counts, and a
 * step ticked before what it needs says what was open then. Taking a tick back leaves both on the sheet.
 *
 * @example toProgress(steps, [tick('2'), tick('1')]) // step 2 says that 1 was open when it was ticked
 */
export function toProgress(steps: readonly MarkedStep[], marks: readonly Mark[]): StepProgress[] {
  const ordered = inOrder(marks)
  const done = new Set<string>()
  const skippedAt = new Map<string, readonly string[]>()
  const lastOf = new Map<string, Mark>()
  const needsOf = new Map(steps.map(({ key, needs }) => [key, needs]))
  for (const mark of ordered.filter(isTick)) {
    if (ticks(mark)) skippedAt.set(mark.step, (needsOf.get(mark.step) ?? []).filter(key => !done.has(key)))
    if (ticks(mark)) done.add(mark.step)
    else done.delete(mark.step)
    lastOf.set(mark.step, mark)
  }
  const others = groupBy(ordered.filter(mark => !isTick(mark)), ({ step }) => step.split('.')[0] ?? '')
  return steps.map(({ key, needs }) => {
    const own = others.get(key) ?? []
    return {
      key, isDone: done.has(key), last: lastOf.get(key) ?? null, skipped: done.has(key) ? skippedAt.get(key) ?? [] : [],
      waitsFor: needs.filter(need => !done.has(need)),
      deviations: own.filter(({ kind }) => kind === 'deviation'),
      torques: new Map(own.filter(({ kind }) => kind === 'torque').map(mark => [Number(mark.step.split('.')[1]), mark])),
    }
  })
}

/** How many steps are done. @example countDone([{ isDone: true }, { isDone: false }]) // 1 */
export const countDone = (steps: readonly Pick<StepProgress, 'isDone'>[]): number => steps.filter(({ isDone }) => isDone).length
