import type { Working } from '../calc/amounts.ts'
import type { HoursData, HoursLine } from '../../web/hours/hours.tsx'
import type { NowData } from '../../web/now/now.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Workings } from '../shared/workings.ts'

/** What the sums of a person's hours open: a kind by its name, a day by its date. */
export function hoursWorkings({ name, from, to, days }: HoursData): Workings {
  const kinds = ['work', 'rework', 'waiting'] as const
  const dated = days.flatMap(({ date, lines }) => lines.map((line) => ({ line, source: `${writeDay(date)}, ${line.when}` })))
  return new Map([
    ...kinds.map((kind): [string, Working] => [kind,
      entriesWorking(`${name}: ${kind}, ${writeDay(from)} to ${writeDay(to)}`, dated.filter(({ line }) => line.kind === kind))]),
    ...days.map(({ date, lines }): [string, Working] => [date,
      entriesWorking(`${name}: ${writeDay(date)}`, lines.map((line) => ({ line, source: line.when })))]),
  ])
}

/** The hours of what runs, what remains of the operations that come next, and the sum of today. */
export function nowWorkings({ running, next, today }: Pick<NowData, 'running' | 'next' | 'today'>): Workings {
  return new Map([
    ...Object.entries(running?.workings ?? {}),
    ...next.flatMap(({ key, remaining }): [string, Working][] => (remaining === null ? [] : [[key, remaining]])),
    ['today', entriesWorking('Hours of today', today.map(({ when, what, kind, seconds }) => ({ line: { item: what, operation: '', kind, seconds }, source: when })))],
  ])
}

type Logged = Pick<HoursLine, 'item' | 'operation' | 'kind' | 'seconds'>

/** The sum of time entries, each with what it was on. */
export function entriesWorking(title: string, entries: readonly { readonly line: Logged, readonly source: string }[]): Working {
  return {
    title,
    inputs: entries.map(({ line, source }) => ({
      label: line.operation === '' ? line.item : `${line.item}, ${line.operation}`, source: line.kind === 'work' ? source : `${source}, ${line.kind}`, amount: { kind: 'time', value: line.seconds },
    })),
    result: { kind: 'time', value: entries.reduce((sum, { line }) => sum + line.seconds, 0) },
    formula: 'sum of the time entries', assumed: 'Of a corrected entry the correction counts.', source: 'common practice, no source',
  }
}
