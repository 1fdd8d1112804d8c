import type { FieldProblem, Role } from '../../../web/shared/viewer.ts'
import { FieldProblems, invalid } from '../problems.ts'
import type { EntryContext, Field } from './field.ts'
import type { RecordKind } from './kind.ts'
import type { Submitted } from './table.ts'

export type Body = Readonly<Record<string, unknown>>

/** The fields a role may see. */
export function seenFields(kind: RecordKind, role: Role): [string, Field][] {
  return Object.entries(kind.fields).filter(([, field]) => field.seenBy.includes(role))
}

/** The fields a role may write, in a new record or in one that stands. */
export function writtenFields(kind: RecordKind, role: Role, isNew: boolean): [string, Field][] {
  return seenFields(kind, role).filter(([, field]) => (field.changedBy ?? kind.changedBy).includes(role) && (isNew || !field.isFixed))
}

/** All fields of a form, those left out as empty: a form sends everything it shows. */
export function readForm(kind: RecordKind, role: Role, isNew: boolean, body: Body, context: EntryContext): Submitted {
  return read(writtenFields(kind, role, isNew), (name) => body[name] ?? '', context)
}

/** The fields that the API was sent; a new record needs its required ones too. */
export function readJson(kind: RecordKind, role: Role, isNew: boolean, body: Body, context: EntryContext): Submitted {
  const fields = writtenFields(kind, role, isNew)
  const known = new Set(fields.map(([name]) => name))
  const strange = Object.keys(body).find((name) => !known.has(name) && name !== 'buildId')
  if (strange !== undefined) throw invalid(strange.slice(0, 60), `A ${kind.name} has no such field that you may write.`)
  const sent = fields.filter(([name]) => isNew || name in body)
  return read(sent, (name, field) => (name in body ? body[name] : field.initial), context)
}

function read(fields: [string, Field][], raw: (name: string, field: Field) => unknown, context: EntryContext): Submitted {
  const values: Record<string, unknown> = {}
  const entered: Record<string, string> = {}
  const problems: FieldProblem[] = []
  for (const [name, field] of fields) {
    const checked = field.input(context).safeParse(raw(name, field))
    if (!checked.success) {
      problems.push({ field: name, message: checked.error.issues[0]?.message ?? 'This cannot be taken.' })
      continue
    }
    values[name] = checked.data.value
    if (checked.data.entered !== undefined) entered[name] = checked.data.entered
  }
  if (problems.length > 0) throw new FieldProblems(problems)
  return { values, entered }
}
