import { writeDay } from '../../web/shared/day.ts'
import { daysBetween } from '../calc/calendar.ts'
import { comparePlans, type ComparedPlan, type PlanDifference } from '../calc/schedule/planDifference.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import { toPlanContent, type PlanContent } from './planContent.ts'
import type { Proposal } from './planner.ts'

/** What a plan means for what was promised. */
export interface Lateness {
  readonly late: number
  /** Calendar days after the day promised, all builds together. */
  readonly daysLate: number
  /** Builds that cannot be planned to their end, so that nobody knows whether they are late. */
  readonly noEnd: number
}

/** A proposal with what it would change of the plan in force. */
export interface Drawn {
  readonly proposal: Proposal
  readonly content: PlanContent
  /** Null where there is no plan in force. */
  readonly difference: PlanDifference | null
  readonly lateness: Lateness
  readonly moved: number
  /** Whose today it changes, by id: those who are there to be asked, and those who are away for the rest of it. */
  readonly toAsk: readonly string[]
  readonly away: readonly string[]
}

export function drawProposal(proposal: Proposal, timeZone: string): Drawn {
  const content = toPlanContent(proposal)
  const { base, facts, before } = proposal
  const dayEndsAt = new Date(facts.fromMs + (before?.midnights[0] ?? 0) * facts.tickMs).toISOString()
  const difference = base && comparePlans(toCompared(base.content), toCompared(content), dayEndsAt)
  const changed = [...new Set(difference?.today.map(({ personId }) => personId) ?? [])]
  const isThere = (personId: string): boolean => facts.people.some(({ id, hours }) => id === personId && hours.some(({ fromMs }) => fromMs < Date.parse(dayEndsAt)))
  return {
    proposal, content, difference, lateness: latenessOf(content, timeZone),
    moved: difference?.work.filter(({ is }) => is === 'moved').length ?? 0,
    toAsk: changed.filter(isThere), away: changed.filter((personId) => !isThere(personId)),
  }
}

export function latenessOf({ builds }: PlanContent, timeZone: string): Lateness {
  const late = builds.flatMap(({ endsAt, dueAt }) => (endsAt !== null && dueAt !== null && endsAt > dueAt ? [daysBetween(dayOf(dueAt, timeZone), dayOf(endsAt, timeZone))] : []))
  return { late: late.length, daysLate: late.reduce((sum, days) => sum + days, 0), noEnd: builds.filter(({ endsAt }) => endsAt === null).length }
}

export const toCompared = ({ fromAt, builds, work, leftOut }: PlanContent): ComparedPlan => ({ fromAt, builds, leftOut, work: work.map(({ stands, ...one }) => ({ ...one, isRunning: stands === 'running' })) })

/** The day on which something ends: what ends at midnight ended the day before. */
export const dayOf = (instant: string, timeZone: string): string => calendarDateIn(timeZone, new Date(Date.parse(instant) - 1))
export const dayWords = (instant: string, timeZone: string): string => writeDay(dayOf(instant, timeZone))
