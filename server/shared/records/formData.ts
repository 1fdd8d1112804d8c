import { randomUUID } from 'node:crypto'
import type { FormEntry, FormPageData } from '../../../web/records/form.tsx'
import type { FieldProblem, Viewer } from '../../../web/shared/viewer.ts'
import type { Reads } from '../database/database.ts'
import type { Row } from '../database/delegate.ts'
import { choicesFor, entryText, nameOf, trailOf, type Choice } from './display.ts'
import type { Field } from './field.ts'
import type { RecordKind } from './kind.ts'
import { writtenFields, type Body } from './submission.ts'

interface FormState {
  /** The record that is changed, or null for a new one. */
  readonly row: Row | null
  readonly buildId: string | null
  /** What the address of a new form brings along, as the zone that a part goes into. */
  readonly given?: Body
  /** What was typed when the form is shown again. */
  readonly typed?: Body
  readonly problems?: readonly FieldProblem[]
}

/** All that a form shows, whether fresh, filled from a record or shown again as it was typed. */
export async function formOf(reads: Reads, kind: RecordKind, viewer: Viewer, state: FormState): Promise<FormPageData> {
  const { row, buildId, typed, problems = [] } = state
  const choices = await choicesFor(reads, kind, buildId)
  const entries = writtenFields(kind, viewer.role, row === null).map(([name, field]): FormEntry => ({
    name,
    label: field.label,
    note: field.note,
    isRequired: field.isRequired,
    entry: field.entry,
    value: valueOf(name, field, viewer, state),
    options: optionsOf(field, choices.get(name)),
  }))
  const place = { buildId } as unknown as Row
  return {
    place: kind.place as FormPageData['place'],
    trail: await trailOf(reads, kind, row ?? place),
    title: row ? nameOf(kind, row) : `New ${kind.name}`,
    action: row ? `/${kind.path}/${row.id}` : `/${kind.path}`,
    key: typeof typed?._key === 'string' ? typed._key : randomUUID(),
    version: row ? versionShown(typed, row) : null,
    hidden: kind.isOfBuild && buildId && !row ? [['buildId', buildId]] : [],
    entries,
    problems,
    submit: row ? 'Save' : `Add ${kind.name}`,
    cancelHref: row ? `/${kind.path}/${row.id}` : kind.isOfBuild && buildId ? `/builds/${buildId}` : `/${kind.path}`,
    another: row ? null : Boolean(typed?._another ?? state.given?._another),
  }
}

// Shown again, a form keeps the version it was read at: else a mended entry could overwrite unseen.
function versionShown(typed: Body | undefined, row: Row): number {
  const given = Number(typed?._version)
  return Number.isInteger(given) && given > 0 ? given : row.version
}

function valueOf(name: string, field: Field, viewer: Viewer, { row, given, typed }: FormState): string | readonly string[] {
  if (typed) return textOf(typed[name])
  if (row) return entryText(name, field, row, viewer)
  if (given?.[name] !== undefined) return textOf(given[name])
  return entryText(name, field, { [name]: field.initial, id: '', version: 0, removedAt: null, entered: '{}' }, viewer)
}

const textOf = (raw: unknown): string | readonly string[] => (Array.isArray(raw) ? raw.map(String) : String(raw ?? ''))

function optionsOf(field: Field, choices: readonly Choice[] | undefined): readonly Choice[] {
  const { entry } = field
  if (entry.as === 'choice' || entry.as === 'checks') return entry.choices.map((one) => ({ value: one, text: entry.words?.[one] ?? one }))
  return choices ?? []
}
