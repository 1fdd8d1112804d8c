import type { Checklist, ChecklistStep } from '../calc/restoration/checklist.ts'
import { toProgress, type Mark, type StepProgress } from '../calc/restoration/sheetProgress.ts'
import type { FrozenContent } from './content.ts'

/** What stands on a sheet and what was put down on it, step by step. */
export function progressOf({ sheet, needs }: FrozenContent, marks: readonly Mark[]): StepProgress[] {
  const steps = sheet.checklist.steps.map(({ number }) => ({ key: String(number), needs: (needs[String(number)] ?? []).map(String) }))
  return toProgress(steps, marks)
}

export interface Group {
  /** As "Take out: Front doors". */
  readonly name: string
  readonly steps: readonly ChecklistStep[]
}

const PHASE_NAMES: Readonly<Record<ChecklistStep['phase'], string>> = {
  'cautions': 'Before you begin', 'take out': 'Take out', 'repair': 'Repair', 'reinstall': 'Put back',
  'reconnect and relearn': 'Reconnect and relearn', 'function test': 'Function tests', 'signature': 'Signatures',
}

/** Steps that follow each other in one phase and zone, in the order of the sheet. */
export function groupsOf({ steps }: Pick<Checklist, 'steps'>): Group[] {
  const groups: { name: string, steps: ChecklistStep[] }[] = []
  for (const step of steps) {
    const name = step.zoneName === '' ? PHASE_NAMES[step.phase] : `${PHASE_NAMES[step.phase]}: ${step.zoneName}`
    const last = groups.at(-1)
    if (last?.name === name) last.steps.push(step)
    else groups.push({ name, steps: [step] })
  }
  return groups
}
