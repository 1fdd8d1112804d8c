import { randomUUID } from 'node:crypto'
import type { DifferencesData, MovedWork, TodayChange } from '../../web/schedule/differences.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { groupBy } from '../calc/grouping.ts'
import type { BuildDifference, WorkDifference } from '../calc/schedule/planDifference.ts'
import { clockTimeIn } from '../shared/shopTime.ts'
import { whyMoved } from './causeWords.ts'
import { toMovedBuild, toPlaceWords, type PlaceWords } from './movedWords.ts'
import type { Drawn } from './proposals.ts'
import { momentWords, toProposalData, type Stands } from './standingData.ts'

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
  const words = toPlaceWords([...(proposal.base === null ? [] : [proposal.base.content]), content], timeZone)
  const summary = toProposalData(drawn, stands)
  const why = whyMoved(proposal, timeZone)
  const isDuller = ({ is }: WorkDifference): boolean => is === 'shorter'
  const work = difference?.work.filter((one) => !isDuller(one)) ?? []
  return {
    id: proposal.id, summary, made: momentWords(proposal.madeAt, timeZone), isFirst: inForce === null,
    blocked: summary.isSearching ? 'A better one is still being looked for. Wait for the search to end, or stop it on the page of the schedule.' : summary.isStale ? 'Things have changed since it was made. Plan again, and take what comes of it.' : '',
    leftOut: content.leftOut.map((one) => ({ build: content.builds.find(({ buildId }) => buildId === one.buildId)?.name ?? '', why: one.why })),
    today: todayOf(drawn, timeZone), takeKey: randomUUID(), asked, reason, problems,
    work: work.slice(0, MOST_ROWS).map((one) => toMoved(one, { drawn, words, why })), more: Math.max(0, work.length - MOST_ROWS),
    builds: (difference?.builds ?? content.builds.map(({ buildId, name, endsAt, dueAt }): BuildDifference => ({ buildId, name, before: null, after: endsAt, dueAt }))).map((one) => toMovedBuild(one, timeZone)),
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
