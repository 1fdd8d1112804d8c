import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import type { DepartmentRow } from '../../web/settings/usualDepartments.tsx'
import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { FieldProblems } from '../shared/problems.ts'
import { readForm, type Body } from '../shared/records/submission.ts'
import { createRecord, type Submitted } from '../shared/records/table.ts'
import { department, skill } from './records.ts'

// Common practice, no source. Rates are the shop's own, so none stands here.
const USUAL: readonly (readonly [name: string, skills: string])[] = [
  ['Wood room', 'fabrication, machining'],
  ['Laminating corner', 'laminating'],
  ['Upholstery', 'upholstery'],
  ['Paint and body', 'paint and body'],
  ['Electrics', 'wiring, tuning'],
  ['Fitting', 'disassembly, fitting'],
]

/** The rows of the form: what was typed, else the usual names with rates left open. */
export function departmentRows(typed: Body | null): DepartmentRow[] {
  return USUAL.map(([name, skills], index) => {
    const of = (field: string, usual: string): string => (typed ? String(typed[`${field}-${index}`] ?? '') : usual)
    return { index, name: of('name', name), costRate: of('costRate', ''), sellRate: of('sellRate', ''), skills: of('skills', skills) }
  })
}

interface Entered {
  readonly department: Submitted
  readonly skills: readonly string[]
}

/** The departments whose rates were typed. Throws FieldProblems by row. */
export function readDepartments(typed: Body, viewer: Viewer): Entered[] {
  const problems: FieldProblem[] = []
  const meant = departmentRows(typed).filter(({ name, costRate, sellRate }) => name.trim() !== '' && `${costRate}${sellRate}`.trim() !== '')
  const entered = meant.flatMap(({ index, skills, ...row }): Entered[] => {
    try {
      const words = skills.split(',').map((word) => word.trim()).filter((word) => word !== '')
      return [{ department: readForm(department, viewer.role, true, row, viewer), skills: words }]
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      problems.push(...error.fields.map(({ field, message }) => ({ field: `${field}-${index}`, message: `${row.name}: ${message}` })))
      return []
    }
  })
  if (problems.length > 0) throw new FieldProblems(problems)
  if (entered.length === 0) throw new FieldProblems([{ field: 'costRate-0', message: 'Type what an hour costs and is sold for in at least one department.' }])
  return entered
}

export async function addDepartments(write: Write, entered: readonly Entered[], viewer: Viewer, actor: Actor): Promise<void> {
  for (const { department: submitted, skills } of entered) {
    const { id } = await createRecord(write, department, null, submitted, actor)
    for (const name of skills) await createRecord(write, skill, null, readForm(skill, viewer.role, true, { name, departmentId: id }, viewer), actor)
  }
}
