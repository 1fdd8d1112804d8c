import { isInVehicle, toPartLabel } from '../calc/removal/factoryParts.ts'
import type { StepProgress } from '../calc/restoration/sheetProgress.ts'
import type { VehicleState } from '../restoration/store.ts'
import { getKind } from '../shared/records/kind.ts'
import { changeRecord, createRecord, getRecord } from '../shared/records/table.ts'
import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import type { FrozenContent } from './content.ts'

/** One record that the end of a sheet changes. */
export interface RecordChange {
  readonly kind: 'alteration' | 'went back' | 'came out' | 'loosened' | 'equipment line' | 'made part'
  readonly id: string
  readonly words: string
}

/** What the records still say otherwise than the sheet, as far as it was done: nothing that was not ticked is assumed. */
export function listRecordChanges({ sheet, plan }: FrozenContent, progress: readonly StepProgress[], { input }: Pick<VehicleState, 'input'>): RecordChange[] {
  const doneKeys = new Set(progress.filter(({ isDone }) => isDone).map(({ key }) => key))
  const isDone = (phase: string, id: string): boolean =>
    sheet.checklist.steps.some((step) => step.phase === phase && step.thingId === id && doneKeys.has(String(step.number)))
  const isBack = (id: string): boolean => isDone('reinstall', id)
  const isOut = (id: string): boolean => isDone('take out', id) && !isBack(id)
  const undone = new Set(plan.undone.filter(({ byId }) => isDone('repair', byId) || isBack(byId)).map(({ alterationId }) => alterationId))
  const depths = new Map(plan.takeOut.map(({ id, depth }) => [id, depth]))

  return [
    ...input.alterations.filter(({ id, isReversed }) => undone.has(id) && !isReversed)
      .map(({ id, number, what }): RecordChange => ({ kind: 'alteration', id, words: `${number} ${what}: reversed` })),
    ...input.factoryParts.filter((part) => isBack(part.id) && part.state !== 'fitted')
      .map((part): RecordChange => ({ kind: 'went back', id: part.id, words: `${toPartLabel(part)}: ${part.state} → fitted` })),
    ...input.factoryParts.filter((part) => isOut(part.id) && isInVehicle(part)).flatMap((part): RecordChange[] => {
      const isLoose = depths.get(part.id) === 'loosened'
      if (isLoose && part.state === 'loosened') return []
      return [{ kind: isLoose ? 'loosened' : 'came out', id: part.id, words: `${toPartLabel(part)}: ${part.state} → ${isLoose ? 'loosened' : 'out and stored'}` }]
    }),
    ...input.installedItems.filter(({ id, isFitted }) => isFitted && isOut(id) && depths.get(id) !== 'loosened')
      .map(({ id, kind, number, name }): RecordChange => ({ kind: kind === 'equipment' ? 'equipment line' : 'made part', id, words: `${number} ${name}: no longer fitted` })),
  ]
}

/** Brings the records to where the sheet says the vehicle is. All of it or nothing: it runs in one transaction. */
export async function bringRecords(write: Write, buildId: string, changes: readonly RecordChange[], from: { readonly number: string, readonly today: string }, actor: Actor): Promise<void> {
  for (const { kind, id } of changes) {
    if (kind === 'went back' || kind === 'came out' || kind === 'loosened') {
      const values = { factoryPartId: id, kind, binId: null, condition: '', note: `By the sheet ${from.number}.` }
      await createRecord(write, getKind('removal'), buildId, { values, entered: {} }, actor)
      continue
    }
    const record = getKind(kind)
    const { version } = await getRecord(write, record, id)
    await changeRecord(write, record, id, version, { values: kind === 'alteration' ? { reversedOn: from.today } : { isFitted: false }, entered: {} }, actor)
  }
}
