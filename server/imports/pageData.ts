import { randomUUID } from 'node:crypto'
import type { DryRunData } from '../../web/imports/dryRun.tsx'
import type { ImportsData } from '../../web/imports/imports.tsx'
import type { PlannedLine } from '../../web/imports/plannedTable.tsx'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import type { Encoding } from '../shared/csv/decode.ts'
import { nameOf, showValue, type Titles } from '../shared/records/display.ts'
import { getKind, label, type RecordKind } from '../shared/records/kind.ts'
import { listRecords } from '../shared/records/table.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { fieldsFor } from './columns.ts'
import { countOf, LARGEST_FILE_BYTES, MOST_ROWS, type Plan } from './importing.ts'
import type { Names } from './names.ts'
import { loadAllNames } from './opened.ts'
import type { PlannedRow } from './plan.ts'
import { exchangedKinds, type ImportBody } from './requests.ts'

const MOST_SHOWN = 300
const SEPARATOR_NAMES = [{ value: 'comma', label: 'comma' }, { value: 'semicolon', label: 'semicolon' }, { value: 'tab', label: 'tab' }] as const

export async function importsData(
  reads: Reads, viewer: Viewer, typed: Partial<ImportBody>, problems: readonly FieldProblem[],
): Promise<Omit<ImportsData, 'saved' | 'savedHref' | 'withoutPassword'>> {
  const build = getKind('build')
  const builds = await listRecords(reads, build)
  return {
    kinds: exchangedKinds().map((kind) => ({
      path: kind.path, name: kind.plural, exportHref: kind.isOfBuild ? null : `/exports/${kind.path}`, knownBy: knownBy(kind, viewer),
    })),
    builds: [...builds].reverse().map((row) => ({ value: row.id, label: nameOf(build, row) })),
    values: { kind: typed.kind ?? '', build: typed.build ?? '', text: typed.text ?? '' },
    problems,
    key: randomUUID(),
    limit: `${(LARGEST_FILE_BYTES / 1_000_000).toLocaleString('en-US')} MB, ${MOST_ROWS.toLocaleString('en-US')} rows`,
  }
}

function knownBy(kind: RecordKind, viewer: Viewer): string {
  const fields = fieldsFor(kind, viewer)
  const key = (kind.knownBy ?? []).map((name) => (fields[name]?.label ?? name).toLowerCase()).join(' and ')
  return kind.number ? `their number, else by ${key}` : key
}

export async function dryRunData(reads: Reads, viewer: Viewer, plan: Plan, encoding: Encoding | null, stale: string | null): Promise<DryRunData> {
  const { asked: { kind, buildId, text }, separator, columns, sample, faults, fingerprint } = plan
  const fields = fieldsFor(kind, viewer)
  const names = await loadAllNames(reads, kind, buildId)
  const build = buildId ? (await listRecords(reads, getKind('build'))).find(({ id }) => id === buildId) : undefined
  const told = plan.rows.filter(({ action }) => action !== 'skip')
  const shown = [...told].sort(errorsFirst).slice(0, MOST_SHOWN).sort((one, other) => one.line - other.line)
  return {
    kindName: kind.name, plural: kind.plural, buildName: build ? nameOf(getKind('build'), build) : null,
    columns: columns.map(({ index, letter, heading, field, remark }) => ({ index, letter, heading, field: field ?? '', remark, sample: (sample[index] ?? '').slice(0, 80) })),
    fields: [...(kind.number ? [{ value: 'number', label: 'Number' }] : []), ...Object.entries(fields).map(([value, field]) => ({ value, label: field.label }))],
    separator, separators: SEPARATOR_NAMES, encoding, faults, stale,
    counts: { rows: plan.rows.length, create: countOf(plan, 'create'), change: countOf(plan, 'change'), skip: countOf(plan, 'skip'), error: countOf(plan, 'error') },
    lines: shown.map((row) => lineOf(kind, row, viewer, titlesIn(names))),
    unshown: unshown(plan, told.length - shown.length),
    hidden: [['kind', kind.path], ['build', buildId ?? ''], ['readSeparator', separator]],
    text, key: randomUUID(), fingerprint,
  }
}

const errorsFirst = (one: PlannedRow, other: PlannedRow): number => Number(other.action === 'error') - Number(one.action === 'error')

function titlesIn(names: ReadonlyMap<string, Names>): Titles {
  return new Map([...names.values()].flatMap((one) => [...one.all]))
}

function lineOf(kind: RecordKind, row: PlannedRow, viewer: Viewer, titles: Titles): PlannedLine {
  const whole: Row = { id: '', version: 0, removedAt: null, entered: '{}', ...row.target, ...row.submitted.values }
  const number = row.target ? Number(row.target.number) : row.number
  const values = row.changes.flatMap(({ field: name, before, after }) => {
    const field = kind.fields[name]
    if (!field) return []
    const show = (value: unknown, of: Row): string => showValue(field, value, viewer, titles, of)
    const isNew = row.action === 'create'
    const stored = row.submitted.values[name] ?? after
    return [{ label: field.label, before: isNew ? null : show(before, { ...whole, ...row.target }) || null, after: show(stored, whole) }]
  })
  return {
    line: row.line, action: row.action,
    number: kind.number && number !== null ? label(kind.number.prefix, number) : '',
    title: row.target || row.action === 'create' ? kind.title(whole) : (kind.knownBy ?? []).map((name) => row.given[name] ?? '').join(' ').trim(),
    values: row.action === 'create' ? values.filter(({ after }) => after !== '' && after !== 'no') : values,
    problems: row.problems.map(({ message }) => message), remark: row.remark,
  }
}

function unshown(plan: Plan, rest: number): string[] {
  const same = plan.rows.filter(({ action, remark }) => action === 'skip' && remark === 'the same as in the shop')
  const again = plan.rows.filter(({ action, remark }) => action === 'skip' && remark !== 'the same as in the shop')
  return [
    ...(rest > 0 ? [`And ${rest.toLocaleString('en-US')} more rows, not shown one by one.`] : []),
    ...(same.length > 0 ? [`Skip, because they are the same as in the shop: ${linesOf(same)}.`] : []),
    ...(again.length > 0 ? [`Skip, because they say the headings again: ${linesOf(again)}.`] : []),
  ]
}

/** Lines in short, as "lines 2 to 14, 17". */
function linesOf(rows: readonly PlannedRow[]): string {
  const runs: { from: number; to: number; count: number }[] = []
  rows.forEach(({ line }, index) => {
    const last = runs.at(-1)
    const before = rows[index - 1]
    if (last && before && line - before.line === 1) Object.assign(last, { to: line, count: last.count + 1 })
    else runs.push({ from: line, to: line, count: 1 })
  })
  const words = runs.slice(0, 40).map(({ from, to }) => (from === to ? String(from) : `${from} to ${to}`)).join(', ')
  return `${rows.length === 1 ? 'line' : 'lines'} ${words}${runs.length > 40 ? ' …' : ''}`
}
