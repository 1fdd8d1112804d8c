import { randomUUID } from 'node:crypto'
import type { EntryFormData } from '../../web/hours/entryForm.tsx'
import { writeHours } from '../../web/shared/amount.ts'
import type { Option } from '../../web/shared/entries.tsx'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import type { Body } from '../shared/records/submission.ts'
import { MANAGERS } from '../shared/roles.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import { CORRECTION_FIELDS, ENTRY_FIELDS } from './forms.ts'
import { buildOfOperation, lastBuildOf, listBuilds, listOperations } from './formStore.ts'
import { HistoryOf } from './hoursData.ts'
import { inOneLine } from './operationName.ts'
import { listBench, listSuperseded, namesOfPeople, type LoggedEntry } from './store.ts'

/** What the address of a new form brings along. */
export interface NewAsked {
  readonly build?: string | undefined
  readonly operationId?: string | undefined
  readonly person?: string | undefined
}

interface Again {
  readonly typed: Body
  readonly problems: readonly FieldProblem[]
}

/** The form for hours after the fact, fresh or shown again as it was typed. */
export async function newFormData(reads: Reads, viewer: Viewer, asked: NewAsked, again?: Again): Promise<EntryFormData> {
  const operationId = text(again?.typed.operationId) || (asked.operationId ?? '')
  const [buildId, builds, bench] = await Promise.all([
    findBuild(reads, viewer, asked.build ?? text(again?.typed.build), operationId), listBuilds(reads), MANAGERS.includes(viewer.role) ? listBench(reads) : [],
  ])
  const fresh = { operationId, date: viewer.today, time: '', kind: 'work', why: '', personId: asked.person ?? viewer.personId }
  return {
    label: 'Log hours', title: 'Hours afterward', whose: '', action: '/hours/new', key: keyOf(again), hidden: [['build', buildId]],
    typed: again ? typedAgain(again.typed) : fresh, timeNote: ENTRY_FIELDS.time.note, operations: await operationOptions(reads, buildId),
    people: bench.map(toOption), builds: { buildId, options: builds.map(({ id, number, title }) => ({ value: id, label: `${label('B', number)} ${title}` })) }, problems: again?.problems ?? [],
    submit: 'Log these hours', cancelHref: '/hours', written: [],
  }
}

/** The form that corrects an entry, filled with what stands there now. */
export async function correctionFormData(reads: Reads, viewer: Viewer, entry: LoggedEntry, again?: Again): Promise<EntryFormData> {
  const [{ timeZone }, superseded, names, operations] = await Promise.all([
    shopOf(reads), listSuperseded(reads, entry.personId), namesOfPeople(reads), operationOptions(reads, entry.buildId),
  ])
  const stands = {
    operationId: entry.operationId, date: calendarDateIn(timeZone, entry.startedAt), time: writeHours(entry.seconds, 2), kind: entry.kind, why: entry.why,
    personId: entry.personId,
  }
  return {
    label: 'Correct hours', title: inOneLine(entry.operation), whose: entry.personId === viewer.personId ? '' : entry.person.name,
    action: `/hours/${entry.id}/correction`, key: keyOf(again), hidden: [], typed: again ? typedAgain(again.typed) : stands,
    timeNote: CORRECTION_FIELDS.time.note, operations, people: [], problems: again?.problems ?? [], submit: 'Write the correction',
    cancelHref: entry.personId === viewer.personId ? '/hours' : `/hours?person=${entry.personId}`,
    written: new HistoryOf([...superseded, entry], names, timeZone).written(entry),
  }
}

const text = (raw: unknown): string => (typeof raw === 'string' ? raw : '')
const keyOf = (again: Again | undefined): string => text(again?.typed._key) || randomUUID()
const toOption = ({ id, name }: { id: string; name: string }): Option => ({ value: id, label: name })

function typedAgain(typed: Body): EntryFormData['typed'] {
  return {
    operationId: text(typed.operationId), date: text(typed.date), time: text(typed.time), kind: text(typed.kind), why: text(typed.why),
    personId: text(typed.personId),
  }
}

// Whoever logs afterward mostly means the build they were on last.
async function findBuild(reads: Reads, viewer: Viewer, asked: string, operationId: string): Promise<string> {
  if (asked !== '') return asked
  const found = operationId === '' ? await lastBuildOf(reads, viewer.personId) : await buildOfOperation(reads, operationId)
  return found ?? ''
}

async function operationOptions(reads: Reads, buildId: string): Promise<Option[]> {
  const operations = await listOperations(reads, buildId)
  return operations.map((operation) => ({ value: operation.id, label: inOneLine(operation) }))
    .toSorted((a, b) => a.label.localeCompare(b.label, 'en', { numeric: true }))
}
