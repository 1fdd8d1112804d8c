import { randomUUID } from 'node:crypto'
import type { DifferencesData, MovedWork, TodayChange } from '../../web/schedule/differences.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { groupBy } from '../calc/grouping.ts'
import type { BuildDifference, WorkDifference } from '../calc/schedule/planDifference.ts'
import type { Call } from './calls.ts'
import { clockTimeIn } from '../shared/shopTime.ts'
import { whyMoved } from './causeWords.ts'
import { toMovedBuild, toPlaceWords, type PlaceWords } from './movedWords.ts'
import { chanceWords } from './planWords.ts'
import { dayWords, type Drawn } from './proposals.ts'
import { momentWords, toProposalData, type Stands } from './standingData.ts'

/** So many rows are read by nobody, and the page stays small. */
const MOST_ROWS = 120

interface Typed {
  readonly asked: readonly string[]
  readonly reason: string
  readonly problems: readonly FieldProblem[]
}

export function toDifferences(drawn: Drawn, { stands, calls }: { readonly stands: Stands, readonly calls: readonly Call[] }, { asked, reason, problems }: Typed = { asked: [], reason: '', problems: [] }): DifferencesData {
  const { proposal, content, difference } = drawn
  const { timeZone, inForce } = stands
  const words = toPlaceWords([...(proposal.base === null ? [] : [proposal.base.content]), content], timeZone)
  const summary = toProposalData(drawn, stands)
  const why = whyMoved(proposal, timeZone)
  const isDuller = ({ is }: WorkDifference): boolean => is === 'shorter'
  const work = difference?.work.filter((one) => !isDuller(one)) ?? []
  return {
    id: proposal.id, summary, made: momentWords(proposal.madeAt, timeZone), isFirst: inForce === null,
    blocked: summary.isSearching ? 'A better one is still being looked for. Wait for the search to end, or stop it on the page of the schedule.' : summary.spoiled.length > 0 ? `It no longer holds, because these have changed since it was made: ${summary.spoiled.join('; ')}. Plan again, and take what comes of it.` : '',
    leftOut: content.leftOut.map((one) => ({ build: content.builds.find(({ buildId }) => buildId === one.buildId)?.name ?? '', why: one.why })),
    today: todayOf(drawn, timeZone), takeKey: randomUUID(), asked, reason, problems,
    work: work.slice(0, MOST_ROWS).map((one) => toMoved(one, { drawn, words, why })), more: Math.max(0, work.length - MOST_ROWS),
    builds: endsOf(drawn).map((one) => ({ ...toMovedBuild(one, timeZone), ...chanceOf(drawn, one.buildId, timeZone) })),
    calls: calls.map(({ buildId, customer, phone }) => ({ customer, phone, why: callWords(drawn, buildId, timeZone) })),
  }
}

/** A chance that is another by as much is told even where the build ends when it did. */
const TOLD_FROM = 5

function endsOf({ content, difference, proposal: { base } }: Drawn): BuildDifference[] {
  const was = new Map(base?.content.builds.map((build) => [build.buildId, build]))
  const moved = new Map(difference?.builds.map((one) => [one.buildId, one]))
  return content.builds.flatMap(({ buildId, name, endsAt, dueAt, chances }): BuildDifference[] => {
    const before = was.get(buildId)
    const isOther = difference === null || moved.has(buildId) || before?.dueAt !== dueAt || Math.abs((chances?.kept ?? 0) - (before?.chances?.kept ?? chances?.kept ?? 0)) >= TOLD_FROM && chances !== null
    return isOther ? [{ buildId, name, dueAt, wasDueAt: before === undefined ? dueAt : before.dueAt, before: before?.endsAt ?? null, after: endsAt }] : []
  })
}

function chanceOf({ content, proposal: { base } }: Drawn, buildId: string, timeZone: string): { readonly in80: string, readonly kept: string } {
  const chances = content.builds.find((build) => build.buildId === buildId)?.chances ?? null
  const was = base?.content.builds.find((build) => build.buildId === buildId)?.chances?.kept ?? null
  if (chances === null) return { in80: '', kept: was === null ? '' : `was ${chanceWords(was)}` }
  return { in80: dayWords(chances.in80, timeZone), kept: chances.kept === null ? '' : `${chanceWords(chances.kept)}${was === null || was === chances.kept ? '' : `, was ${chanceWords(was)}`}` }
}

function callWords({ content }: Drawn, buildId: string, timeZone: string): string {
  const { name, endsAt, dueAt } = content.builds.find((build) => build.buildId === buildId)!
  if (endsAt === null) return `${name} cannot be planned to its end, and is promised for ${dayWords(dueAt!, timeZone)}`
  return `${name} would be ${toMovedBuild({ buildId, name, before: null, after: endsAt, dueAt }, timeZone).words}, on ${dayWords(endsAt, timeZone)}`
}

interface Around {
  readonly drawn: Drawn
  readonly words: PlaceWords
  readonly why: (operationId: string, isLonger?: boolean) => string
}

function toMoved({ is, before, after }: WorkDifference, { drawn: { content, proposal }, words, why }: Around): MovedWork {
  const { operationId, buildId, name } = (after ?? before)!
  const build = [...content.builds, ...(proposal.base?.content.builds ?? [])].find((one) => one.buildId === buildId)?.name ?? ''
  return {
    what: name, href: `/operations/${operationId}`, build, was: before === null ? 'not planned' : words(before), is: after === null ? 'not planned' : words(after),
    why: why(operationId, is === 'longer'), lateHref: after === null ? '' : `/schedule/late?operation=${operationId}`,
  }
}

function todayOf({ content, difference, proposal, away }: Drawn, timeZone: string): TodayChange[] {
  const names = new Map([...(proposal.base?.content.people ?? []), ...content.people].map(({ id, name }) => [id, name]))
  const clock = (instant: string | null): string => (instant === null ? 'not today' : `at ${clockTimeIn(timeZone, new Date(instant))}`)
  return [...groupBy(difference?.today ?? [], ({ personId }) => personId)].map(([personId, own]) => ({
    personId, person: names.get(personId) ?? 'Somebody who is there no longer', isAway: away.includes(personId),
    lines: own.map(({ operationId, name, before, after }) => ({ what: name, href: `/operations/${operationId}`, was: clock(before), is: clock(after) })),
  }))
}
