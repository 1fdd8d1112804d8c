import { cautionsFor } from '../removal/cautions.ts'
import type { NumberedCaution, Trigger } from '../removal/cautions.ts'
import { closingSteps, listFeeds, openingSteps } from './checklistFrame.ts'
import { listRepairDrafts, listReinstallDrafts, listTakeOutDrafts } from './checklistWork.ts'
import type { SheetFastener } from '../removal/fastenerText.ts'
import type { RestorationPlan } from './restoration.ts'
import type { RestorationInput } from './restorationInput.ts'
import { triggersOfVehicle } from '../removal/triggers.ts'

export const CHECKLIST_PHASES = [
  'cautions', 'take out', 'repair', 'reinstall', 'reconnect and relearn', 'function test', 'signature',
] as const

export type ChecklistPhase = typeof CHECKLIST_PHASES[number]

/** A step before it has its number and its caution numbers. */
export interface ChecklistDraft {
  readonly phase: ChecklistPhase
  readonly zoneName: string
  readonly itemNumber: string
  /** What the step is about: a factory part, an installed item or an alteration; left out for the vehicle as a whole. */
  readonly thingId?: string
  readonly text: string
  readonly fasteners: readonly SheetFastener[]
  /** Where the part goes or comes from. */
  readonly place: string
  readonly notes: readonly string[]
  readonly triggers: readonly Trigger[]
}

export interface ChecklistStep extends Omit<ChecklistDraft, 'triggers'> {
  readonly number: number
  readonly cautionNumbers: readonly string[]
}

export interface Checklist {
  readonly cautions: readonly NumberedCaution[]
  readonly steps: readonly ChecklistStep[]
}

export interface ChecklistVehicle {
  /** Gasoline, diesel, hybrid, electric and the like. */
  readonly energy: string
  readonly batteryWaitS: number | null
  readonly highVoltageWaitS?: number | null
}

/** The return-to-stock sheet as a flat list: cautions first, then every step in order, numbered from 1. */
export function toChecklist(input: RestorationInput, plan: RestorationPlan, vehicle: ChecklistVehicle): Checklist {
  const work = [
    ...listTakeOutDrafts(input, plan),
    ...listRepairDrafts(input, plan),
    ...listReinstallDrafts(input, plan),
  ]
  const triggers = new Set([...triggersOfVehicle(vehicle.energy), ...work.flatMap(draft => draft.triggers)])
  const cautions = cautionsFor(triggers, vehicle)
  const drafts = [...openingSteps(cautions), ...listFeeds(input, plan), ...work, ...closingSteps(input, plan, cautions)]
    // The drafts of a phase stay in order; the phases come in theirs.
    .toSorted((a, b) => CHECKLIST_PHASES.indexOf(a.phase) - CHECKLIST_PHASES.indexOf(b.phase))
  return { cautions, steps: drafts.map((draft, index) => toStep(draft, index + 1, cautions)) }
}

function toStep(draft: ChecklistDraft, number: number, cautions: readonly NumberedCaution[]): ChecklistStep {
  const { triggers, ...step } = draft
  const cautionNumbers = cautions.filter(caution => triggers.includes(caution.trigger)).map(caution => caution.number)
  return { ...step, number, cautionNumbers }
}
