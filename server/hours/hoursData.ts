import { writeHours } from '../../web/shared/amount.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { HoursData, HoursDay, HoursLine } from '../../web/hours/hours.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { addDays } from '../calc/calendar.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { dayIn, whenIn } from './days.ts'
import { nameOperation } from './operationName.ts'
import { findEntry, listBench, listEffective, listSuperseded, namesOfPeople, type LoggedEntry } from './store.ts'

const DAYS_SHOWN = 28

export interface HoursAsked {
  readonly person?: string | undefined
  readonly until?: string | undefined
  readonly logged?: string | undefined
}

/** Four weeks of a person's hours; managers see everybody's, others their own. */
export async function hoursData(reads: Reads, viewer: Viewer, asked: HoursAsked): Promise<HoursData> {
  const isManager = MANAGERS.includes(viewer.role)
  const personId = asked.person ?? viewer.personId
  if (personId !== viewer.personId && !isManager) throw notFound('person')
  const { timeZone } = await shopOf(reads)
  const to = asked.until ?? viewer.today
  const from = addDays(to, 1 - DAYS_SHOWN)
  const [entries, superseded, names, bench, logged] = await Promise.all([
    listEffective(reads, personId, dayIn(timeZone, from).from, dayIn(timeZone, to).to), listSuperseded(reads, personId),
    namesOfPeople(reads), isManager ? listBench(reads) : [], asked.logged ? findEntry(reads, asked.logged) : null,
  ])
  const name = names.get(personId)
  if (name === undefined) throw notFound('person')
  const history = new HistoryOf([...superseded, ...entries], names, timeZone)
  const addressOf = (until: string): string => new URLSearchParams({ person: personId, until }).toString()
  return {
    name, from, to,
    days: toDays(entries.map((entry) => [calendarDateIn(timeZone, entry.startedAt), toLine(entry, timeZone, history)])),
    logHref: personId === viewer.personId ? '/hours/new' : `/hours/new?person=${personId}`,
    address: addressOf(to),
    earlierHref: `/hours?${addressOf(addDays(from, -1))}`, laterHref: to < viewer.today ? `/hours?${addressOf(addDays(to, DAYS_SHOWN))}` : null,
    people: isManager ? { personId, options: withOwn(bench, personId, name).map((one) => ({ value: one.id, label: one.name })) } : undefined,
    saved: logged?.personId === personId ? { what: `${writeHours(logged.seconds, 2)} h ${logged.kind}`, csrfToken: viewer.csrfToken } : undefined,
  }
}

// Somebody who left still has hours to look at.
function withOwn(bench: readonly { id: string; name: string }[], id: string, name: string) {
  return bench.some((one) => one.id === id) ? bench : [{ id, name }, ...bench]
}

function toDays(lines: readonly (readonly [date: string, line: HoursLine])[]): HoursDay[] {
  const dates = [...new Set(lines.map(([date]) => date))]
  return dates.map((date) => ({ date, lines: lines.filter(([own]) => own === date).map(([, line]) => line) }))
}

function toLine(entry: LoggedEntry, timeZone: string, history: HistoryOf): HoursLine {
  const { operation, build } = { operation: entry.operation, build: entry.operation.build }
  return {
    ...nameOperation(operation), build: `${label('B', build.number)} ${build.title}`, when: whenIn(timeZone, entry),
    kind: entry.kind as HoursLine['kind'], seconds: entry.seconds, why: entry.why,
    before: history.before(entry), correctHref: `/hours/${entry.id}/correction`,
  }
}

/** Entries and their corrections in words. */
export class HistoryOf {
  readonly #byId: ReadonlyMap<string, LoggedEntry>
  readonly #names: ReadonlyMap<string, string>
  readonly #timeZone: string

  constructor(entries: readonly LoggedEntry[], names: ReadonlyMap<string, string>, timeZone: string) {
    this.#byId = new Map(entries.map((entry) => [entry.id, entry]))
    this.#names = names
    this.#timeZone = timeZone
  }

  /** What stood in the place of an entry, the latest first. */
  before(entry: LoggedEntry): string[] {
    const earlier = entry.correctsId === null ? undefined : this.#byId.get(entry.correctsId)
    if (!earlier) return []
    return [`was ${this.#figures(earlier)}${dayIfOther(earlier, entry, this.#timeZone)}, corrected by ${this.#by(entry)}`, ...this.before(earlier)]
  }

  /** The whole chain up to an entry, the first one first. */
  written(entry: LoggedEntry): string[] {
    const earlier = entry.correctsId === null ? undefined : this.#byId.get(entry.correctsId)
    const day = writeDay(calendarDateIn(this.#timeZone, entry.startedAt))
    const { item, operation } = nameOperation(entry.operation)
    const why = entry.why === '' ? '' : `, ${entry.why}`
    return [...(earlier ? this.written(earlier) : []), `${day}: ${this.#figures(entry)} on ${item}, ${operation}${why}. Written by ${this.#by(entry)}.`]
  }

  #figures({ seconds, kind }: LoggedEntry): string {
    return `${writeHours(seconds, 2)} h ${kind}`
  }

  #by({ enteredById, createdAt }: LoggedEntry): string {
    return `${this.#names.get(enteredById) ?? 'somebody'}, ${writeDay(calendarDateIn(this.#timeZone, createdAt))} ${clockTimeIn(this.#timeZone, createdAt)}`
  }
}

function dayIfOther(earlier: LoggedEntry, entry: LoggedEntry, timeZone: string): string {
  const day = calendarDateIn(timeZone, earlier.startedAt)
  return day === calendarDateIn(timeZone, entry.startedAt) ? '' : ` on ${writeDay(day)}`
}
