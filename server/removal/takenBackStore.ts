import type { Actor, Change } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { invalid } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { putPart, type PartChange } from './placingStore.ts'
import { standingOf } from './rules.ts'

const findNewest = (reads: Reads | Write, factoryPartId: unknown) => reads.removal.findFirst({
  where: { factoryPartId: String(factoryPartId), removedAt: null }, orderBy: [{ at: 'desc' }, { id: 'desc' }], select: { id: true, kind: true, binId: true },
})

const NAMED: Readonly<Record<string, string>> = { altered: 'was altered', stays: 'was said to stay', loosened: 'was loosened' }
const happened = (kind: string): string => NAMED[kind] ?? kind

/** What stands in the way of taking a removal away: only the newest can go, while the part still is where it put it. */
export async function holdRemoval(reads: Reads | Write, row: Row): Promise<string | null> {
  const newest = await findNewest(reads, row.factoryPartId)
  if (newest && newest.id !== row.id) return `Something has happened to this part since: it ${happened(newest.kind)}. Remove that one first.`
  const part = await reads.factoryPart.findUniqueOrThrow({ where: { id: String(row.factoryPartId) }, select: { state: true } })
  const wanted = await findStateAfter(reads, row)
  if (wanted !== null && part.state !== wanted) {
    return `The part is ${part.state} now, by its own form. Set its state to “${wanted}” there first, or leave this as it is.`
  }
  return row.kind === 'altered' ? alterationInTheWay(reads, row) : null
}

async function alterationInTheWay(reads: Reads | Write, row: Row): Promise<string | null> {
  const told = await reads.alteration.findFirst({ where: { factoryPartId: String(row.factoryPartId), removedAt: null, reversedOn: null }, orderBy: { number: 'desc' }, select: { number: true, what: true } })
  return told ? `${label('X', told.number)} ${told.what} says how it was altered. Remove that alteration first.` : null
}

/** The factory part goes back to where it was before, or again to where the removal put it. */
export async function replaceAfterRemoval(write: Write, row: Row, actor: Actor): Promise<void> {
  if (row.removedAt) return placeAgain(write, row, actor)
  await putPart(write, actor, String(row.factoryPartId), await findBefore(write, row), 'The removal was taken back.')
}

async function placeAgain(write: Write, row: Row, actor: Actor): Promise<void> {
  const newest = await findNewest(write, row.factoryPartId)
  if (newest && newest.id !== row.id) {
    throw invalid('id', `Something has happened to this part since: it ${happened(newest.kind)}. Remove that one first, or enter anew what happened.`)
  }
  await putPart(write, actor, String(row.factoryPartId), await standingOf(write, row))
}

/** What the request that wrote the removal changed in its factory part; null where no history tells. */
async function findChanges(reads: Reads | Write, row: Row): Promise<Change[] | null> {
  const made = await reads.auditEntry.findFirst({ where: { recordKind: 'removal', recordId: row.id, action: 'created' }, select: { requestId: true } })
  const entry = made && await reads.auditEntry.findFirst({
    where: { recordKind: 'factory part', recordId: String(row.factoryPartId), action: 'changed', requestId: made.requestId }, orderBy: { id: 'asc' }, select: { changes: true },
  })
  return entry ? JSON.parse(entry.changes) as Change[] : null
}

// Of a removal without a history only the plain cases are known.
const USUAL_STATE: Readonly<Record<string, string>> = { 'came out': 'out and stored', loosened: 'loosened', 'went back': 'fitted' }

/** The state that the removal put its part into; null where it left it as it was. */
async function findStateAfter(reads: Reads | Write, row: Row): Promise<string | null> {
  const changes = await findChanges(reads, row)
  if (!changes) return USUAL_STATE[String(row.kind)] ?? null
  const state = changes.find(({ field }) => field === 'state')
  return state ? String(state.after) : null
}

const PUT_BACK = ['state', 'binId', 'place', 'stays', 'condition']

/** As the part's own history tells it; where that is silent, as the removal before left it. */
async function findBefore(write: Write, row: Row): Promise<PartChange> {
  const changes = await findChanges(write, row)
  if (changes) return Object.fromEntries(changes.filter(({ field }) => PUT_BACK.includes(field)).map(({ field, before }) => [field, before]))
  const earlier = await findNewest(write, row.factoryPartId)
  const isInBin = earlier !== null && earlier.kind !== 'went back'
  return { state: USUAL_STATE[earlier?.kind ?? 'went back'] ?? 'fitted', binId: isInBin ? earlier.binId : null, place: '' }
}
