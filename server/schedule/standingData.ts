import { randomUUID } from 'node:crypto'
import type { ProposalData, StandingData } from '../../web/schedule/scheduleData.ts'
import { writeHours } from '../../web/shared/amount.ts'
import { writeDay } from '../../web/shared/day.ts'
import { counted } from '../../web/shared/text.ts'
import { listOverloads, type Overload } from '../calc/schedule/overload.ts'
import type { ShopFacts } from '../calc/schedule/shopProblem.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { loadShopFacts } from './facts.ts'
import { whyNoPlan } from './impossibleWords.ts'
import type { Planner, Way } from './planner.ts'
import type { PlanContent } from './planContent.ts'
import { loadPlanInForce, nameOfPerson, type PlanInForce } from './planStore.ts'
import { changedSince, printOf } from './prints.ts'
import { loadHolidayRegion } from './store.ts'
import { drawProposal, latenessOf, type Drawn, type Lateness } from './proposals.ts'
import { spoiledBy } from './spoiled.ts'

/** The plan in force, what it stands on now, and what is proposed. */
export interface Stands {
  readonly planner: Planner
  readonly facts: ShopFacts
  readonly print: string
  readonly timeZone: string
  readonly inForce: PlanInForce | null
  readonly takenBy: string
  /** Whose public holidays are kept; empty where nobody’s. */
  readonly region: string
  readonly drawn: readonly Drawn[]
}

export async function loadStands(reads: Reads, planner: Planner, now: Date): Promise<Stands> {
  const [inForce, { timeZone }, facts] = [await loadPlanInForce(reads), await shopOf(reads), await loadShopFacts(reads, now)]
  return {
    planner, facts, inForce, timeZone, region: await loadHolidayRegion(reads), print: printOf(facts), takenBy: inForce === null ? '' : await nameOfPerson(reads, inForce.takenById),
    drawn: planner.proposals.map((proposal) => drawProposal(proposal, timeZone)),
  }
}

export const changedOf = ({ inForce, facts }: Pick<Stands, 'inForce' | 'facts'>) =>
  (inForce === null ? { changed: [], goneOn: [] } : changedSince(inForce.print, facts, new Map(inForce.content.builds.map(({ buildId, name }) => [buildId, name]))))

export const WAY_NAMES: Readonly<Record<Way, string>> = { 'least change': 'With the least change', 'anew': 'Everything anew' }
const proposalHref = (id: string): string => `/schedule/proposals/${id}`

export function toStanding(stands: Stands): StandingData {
  const { planner, facts, inForce, timeZone, takenBy, drawn } = stands
  const isNothingToPlan = facts.builds.length === 0
  const post = (action: string, way?: Way) => ({ action, idempotencyKey: randomUUID(), ...(way === undefined ? {} : { values: [['way', way] as const] }) })
  return {
    inForce: inForce && { at: momentWords(inForce.takenAt, timeZone), by: takenBy, reason: inForce.reason, late: latenessWords(latenessOf(inForce.content, timeZone)), ...changedOf(stands), overrun: overrunIn(inForce.content, facts) },
    proposals: drawn.map((one) => toProposalData(one, stands)), failure: planner.failure, overloaded: listOverloads(facts).map((one) => overloadWords(one, timeZone)),
    noPlan: reasonsFor(stands), isNothingToPlan,
    change: inForce === null || isNothingToPlan ? null : post('/schedule/plan', 'least change'), anew: isNothingToPlan ? null : post('/schedule/plan', 'anew'), stop: planner.searching === null ? null : post('/schedule/stop'),
  }
}

/** Work that would take longer than the plan has it, by more than a quarter hour each. */
function overrunIn({ work }: PlanContent, { builds, tickMs }: ShopFacts): string[] {
  const planned = new Map(work.map((one) => [one.operationId, one]))
  return builds.flatMap((build) => build.work.flatMap(({ id, name, remainingS, runningS = 0 }) => {
    const own = planned.get(id)
    const hours = own?.hours.reduce((sum, { fromAt, toAt }) => sum + (Date.parse(toAt) - Date.parse(fromAt)) / 1000, 0) ?? 0
    const plannedS = hours * Math.max(1, own?.personIds.length ?? 0)
    return own === undefined || remainingS - runningS <= plannedS + tickMs / 1000 ? [] : [`${build.name.split(' ')[0]} ${name}: ${writeHours(remainingS)} h, planned ${writeHours(plannedS)} h`]
  }))
}

const overloadWords = ({ dueMs, skill, dueS, thereS }: Overload, timeZone: string): string => `By ${writeDay(calendarDateIn(timeZone, new Date(dueMs)))} ${writeHours(dueS)} h ${skill === null ? 'of work' : `of ${skill}`} are due, and those who can do it are there ${writeHours(thereS)} h until then.`

/** Why nothing could be planned, in sentences; empty where something was, or where nobody tried. */
export function reasonsFor({ planner: { noPlan }, print, timeZone }: Pick<Stands, 'planner' | 'print' | 'timeZone'>): readonly string[] {
  // What nobody has tried since it changed may well fit now.
  if (noPlan === null || noPlan.facts.builds.length === 0 || printOf(noPlan.facts) !== print) return []
  const why = whyNoPlan(noPlan, timeZone)
  return why.length > 0 ? why : ['No plan was found that holds all of it within the next half year.']
}

export function toProposalData({ proposal, content, lateness, moved, toAsk, away }: Drawn, { planner, facts, timeZone, inForce }: Stands): ProposalData {
  const { delay, leastDelay } = content
  const names = new Map([...content.people, ...(inForce?.content.people ?? [])].map(({ id, name }) => [id, name]))
  return {
    name: inForce === null ? 'A first plan' : WAY_NAMES[proposal.way], href: proposalHref(proposal.id),
    late: `${lateness.late}${lateness.noEnd === 0 ? '' : `; ${noEndWords(lateness.noEnd)}`}`, daysLate: String(lateness.daysLate), moved: inForce === null ? '' : counted(moved, 'operation', 'operations'),
    today: inForce === null ? '' : toAsk.length + away.length === 0 ? 'nobody' : [...toAsk.map((id) => names.get(id) ?? ''), ...away.map((id) => `${names.get(id) ?? ''} (away)`)].join(', '), tries: counted(proposal.tries, 'further plan', 'further plans'),
    proof: delay === 0 ? `Nothing that has a date${lateness.noEnd === 0 ? '' : ' and can be planned to its end'} is late.` : delay <= leastDelay ? 'No plan can be less late.' : 'A plan that is less late may exist.',
    isSearching: planner.searching === proposal.way,
    spoiled: (proposal.base?.id ?? null) === (inForce?.id ?? null) ? spoiledBy({ ...proposal, content }, facts, timeZone) : ['the plan in force'],
  }
}

export const latenessWords = ({ late, daysLate, noEnd }: Lateness): string => [
  late === 0 ? `By it nothing that has a date${noEnd === 0 ? '' : ' and can be planned to its end'} is late.` : `By it ${counted(late, 'build is', 'builds are')} late, ${counted(daysLate, 'day', 'days')} in all.`,
  ...(noEnd === 0 ? [] : [`${counted(noEnd, 'build', 'builds')} cannot be planned to the end: see Not planned.`]),
].join(' ')

const noEndWords = (builds: number): string => `${builds} without an end`

export const momentWords = (at: Date, timeZone: string): string => `${writeDay(calendarDateIn(timeZone, at))}, ${clockTimeIn(timeZone, at)}`
