import type { FormPageData } from '../../web/records/form.tsx'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { FieldProblems } from '../shared/problems.ts'
import { nameOf } from '../shared/records/display.ts'
import { formOf } from '../shared/records/formData.ts'
import { readForm, type Body } from '../shared/records/submission.ts'
import type { Submitted } from '../shared/records/table.ts'
import { part, partUse } from './records.ts'

/** A piece as it was typed: the new part, and how many of it go into one of its assembly. */
export interface TypedPiece {
  readonly part: Submitted
  readonly each: number
}

interface PieceState {
  readonly typed?: Body
  readonly problems?: readonly FieldProblem[]
  readonly another?: boolean
}

/** The form of a new part that goes into an assembly: the part's own, and how many. */
export async function pieceForm(reads: Reads, assembly: Row, viewer: Viewer, { typed, problems = [], another }: PieceState): Promise<FormPageData> {
  const given = { zoneId: assembly.zoneId, quantity: '0', ...(another ? { _another: 'true' } : {}) }
  const form = await formOf(reads, part, viewer, { row: null, buildId: String(assembly.buildId), given, problems, ...(typed ? { typed } : {}) })
  const name = nameOf(part, assembly)
  return {
    ...form, title: `New piece of ${name}`, action: `/parts/${assembly.id}/pieces`, hidden: [], cancelHref: `/parts/${assembly.id}`, submit: 'Add piece',
    entries: [{
      name: 'each', label: `How many in one ${name}`, note: 'It counts through all assemblies above.', isRequired: true, entry: each.entry,
      value: typed ? String(typed.each ?? '') : '1', options: [],
    }, ...form.entries],
  }
}

/** What was typed, with all that is wrong at once. Throws FieldProblems. */
export function readPiece(body: Body, viewer: Viewer): TypedPiece {
  const checked = each.input(viewer).safeParse(body.each ?? '')
  const problems = checked.success ? [] : [{ field: 'each', message: checked.error.issues[0]?.message ?? 'This cannot be taken.' }]
  try {
    const submitted = readForm(part, viewer.role, true, body, viewer)
    if (checked.success) return { part: submitted, each: Number(checked.data.value) }
  } catch (error) {
    if (!(error instanceof FieldProblems)) throw error
    problems.push(...error.fields)
  }
  throw new FieldProblems(problems)
}

const each = needed(partUse.fields.quantity)

function needed<T>(value: T | undefined): T {
  if (value === undefined) throw new Error('a use in an assembly has no quantity')
  return value
}
