import { randomUUID } from 'node:crypto'
import type { DifferencesData, MovedBuild, MovedWork, TodayChange } from '../../web/schedule/differences.tsx'
import { counted } from '../../web/shared/text.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { daysBetween } from '../calc/calendar.ts'
import { groupBy } from '../calc/grouping.ts'
import type { BuildDifference, PlannedHere, WorkDifference } from '../calc/schedule/planDifference.ts'
import { clockTimeIn } from '../shared/shopTime.ts'
import { whyMoved } from './causeWords.ts'
import { dayOf, dayWords, type Drawn } from './proposals.ts'
import type { Stands } from './standingData.ts'
import { momentWords, toProposalData } from './standingData.ts'

/** So many rows are read by nobody, and the page stays small. */
const MOST_ROWS = 120

interface Typed {
  readonly asked: readonly string[]
  readonly reason: string
  readonly problems: readonly FieldProblem[]
}

export function toDifferences(drawn: Drawn, stands: Stands, { asked, reason, problems }: Typed = { asked: [], reason: '', problems: [] }): DifferencesData {
  const { proposal, content, difference } = drawn
  const { timeZone, inForce } = stands
  const words = toPlaceWords(drawn, timeZone)
  const summary = toProposalData(drawn, stands)
  const why = whyMoved(proposal, timeZone)
  const isDuller = ({ is }: WorkDifference): boolean => is === 'shorter'
  const work = difference?.work.filter((one) => !isDuller(one)) ?? []
  return {
    id: proposal.id, summary, made: momentWords(proposal.madeAt, timeZone), isFirst: inForce === null,
    blocked: summary.isSearching ? 'A better one is still being looked for. Wait for the search to end, or stop it on the page of the schedule.' : summary.isStale ? 'Things have changed since it was made. Plan again, and take what comes of it.' : '',
    today: todayOf(drawn, timeZone), takeKey: randomUUID(), asked, reason, problems,
    work: work.slice(0, MOST_ROWS).map((one) => toMoved(one, { drawn, words, why })), more: Math.max(0, work.length - MOST_ROWS),
    builds: (difference?.builds ?? content.builds.map(({ buildId, name, endsAt, dueAt }): BuildDifference => ({ buildId, name, before: null, after: endsAt, dueAt }))).map((one) => toMovedBuild(one, timeZone)),
  }
}

type PlaceWords = (one: PlannedHere) => string

/** “Tue 3 Mar 2031, 08:00 to 12:00, Lee, Bay 2”. */
function toPlaceWords({ proposal: { base }, content }: Drawn, timeZone: string): PlaceWords {
  const names = new Map([...(base?.content.people ?? []), ...(base?.content.bays ?? []), ...content.people, ...content.bays].map(({ id, name }) => [id, name]))
  return ({ startsAt, endsAt, personIds, bayId }) => {
    const [from, to] = [new Date(startsAt), new Date(endsAt)]
    const lastDay = dayOf(endsAt, timeZone)
    const ends = lastDay === dayOf(new Date(from.getTime() + 1).toISOString(), timeZone) ? clockTimeIn(timeZone, to) : `${dayWords(endsAt, timeZone)}, ${clockTimeIn(timeZone, to)}`
    return [`${momentWords(from, timeZone)} to ${ends}`, ...personIds.map((id) => names.get(id) ?? ''), ...(bayId === null ? [] : [names.get(bayId) ?? ''])].filter((part) => part !== '').join(', ')
  }
}

interface Around {
  readonly drawn: Drawn
  readonly words: PlaceWords
  readonly why: (operationId: string) => string
}

function toMoved({ is, before, after }: WorkDifference, { drawn: { content, proposal }, words, why }: Around): MovedWork {
  const { operationId, buildId, name } = (after ?? before)!
  const build = [...content.builds, ...(proposal.base?.content.builds ?? [])].find((one) => one.buildId === buildId)?.name ?? ''
  return {
    what: name, href: `/operations/${operationId}`, build, was: before === null ? 'not planned' : words(before), is: after === null ? 'not planned' : words(after),
    why: is === 'longer' ? 'begins as planned; its own hours are more than were planned' : why(operationId), lateHref: after === null ? '' : `/schedule/late?operation=${operationId}`,
  }
}

function todayOf({ content, difference, proposal }: Drawn, timeZone: string): TodayChange[] {
  const names = new Map([...(proposal.base?.content.people ?? []), ...content.people].map(({ id, name }) => [id, name]))
  const clock = (instant: string | null): string => (instant === null ? 'not today' : `at ${clockTimeIn(timeZone, new Date(instant))}`)
  return [...groupBy(difference?.today ?? [], ({ personId }) => personId)].map(([personId, own]) => ({
    personId, person: names.get(personId) ?? 'Somebody who is there no longer',
    lines: own.map(({ operationId, name, before, after }) => ({ what: name, href: `/operations/${operationId}`, was: clock(before), is: clock(after) })),
  }))
}

function toMovedBuild({ buildId, name, before, after, dueAt }: BuildDifference, timeZone: string): MovedBuild {
  const day = (instant: string | null): string => (instant === null ? 'not known' : dayWords(instant, timeZone))
  const isLate = after !== null && dueAt !== null && after > dueAt
  const wasLate = before !== null && dueAt !== null && before > dueAt
  const days = after === null || dueAt === null ? 0 : daysBetween(dayOf(dueAt, timeZone), dayOf(after, timeZone))
  const words = dueAt === null ? 'no date promised' : after === null ? 'part of it cannot be planned' : isLate ? `${counted(days, 'day', 'days')} late${wasLate ? ', late by the plan in force too' : ''}` : wasLate ? 'kept again' : 'kept'
  return { name, href: `/builds/${buildId}`, was: before === null ? 'not planned' : day(before), is: day(after), promised: dueAt === null ? 'no date' : dayWords(dueAt, timeZone), words, isLate }
}
