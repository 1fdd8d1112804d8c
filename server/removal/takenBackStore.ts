import { moveBetween, whereaboutsOf } from '../calc/custody.ts'
import { movePart } from '../custody/moveStore.ts'
import type { Actor, Change } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { invalid } from '../shared/problems.ts'
import { changePart, putWhere, STATE_AFTER } from './rules.ts'

interface Standing {
  readonly state: string
  readonly binId: string | null
  readonly place: string
  readonly condition?: string
}

const findNewest = (reads: Reads | Write, factoryPartId: unknown) => reads.removal.findFirst({
  where: { factoryPartId: String(factoryPartId), removedAt: null }, orderBy: [{ at: 'desc' }, { id: 'desc' }], select: { id: true, kind: true, at: true, binId: true },
})

/** What stands in the way of taking a removal away: only the newest can go, while the part still is where it put it. */
export async function holdRemoval(reads: Reads | Write, row: Row): Promise<string | null> {
  const newest = await findNewest(reads, row.factoryPartId)
  if (newest && newest.id !== row.id) return `Something has happened to this part since: it ${newest.kind}. Remove that one first.`
  const part = await reads.factoryPart.findUniqueOrThrow({ where: { id: String(row.factoryPartId) }, select: { state: true } })
  const wanted = STATE_AFTER[String(row.kind)]
  return part.state === wanted ? null
    : `The part is ${part.state} now, by its own form. Set its state to “${String(wanted)}” there first, or leave this as it is.`
}

/** The factory part goes back to where it was before, or again to where the removal put it. */
export async function replaceAfterRemoval(write: Write, row: Row, actor: Actor): Promise<void> {
  if (row.removedAt) return placeAgain(write, row, actor)
  const id = String(row.factoryPartId)
  const { state, binId, place, ...left } = await findBefore(write, row)
  const part = await write.factoryPart.findUniqueOrThrow({ where: { id }, select: { state: true, binId: true, place: true } })
  const [from, to] = [whereaboutsOf(part), whereaboutsOf({ state, binId, place })]
  if (from === to) return changePart(write, actor, id, { state, binId, ...left })
  await movePart(write, actor, id, { kind: moveBetween(from, to), binId, place, note: 'The removal was taken back.' }, { state, ...left })
}

async function placeAgain(write: Write, row: Row, actor: Actor): Promise<void> {
  const newest = await findNewest(write, row.factoryPartId)
  if (newest && newest.id !== row.id) {
    throw invalid('id', `Something has happened to this part since: it ${newest.kind}. Remove that one first, or enter anew what happened.`)
  }
  await putWhere(write, row, actor)
}

/** As the part's own history tells it; where that is silent, as the removal before left it. */
async function findBefore(write: Write, row: Row): Promise<Standing> {
  const factoryPartId = String(row.factoryPartId)
  const earlier = await findNewest(write, factoryPartId)
  const fallback: Standing = {
    state: STATE_AFTER[earlier?.kind ?? 'went back'] ?? 'fitted', binId: earlier && earlier.kind !== 'went back' ? earlier.binId : null, place: '',
  }
  const entry = await write.auditEntry.findFirst({
    where: { recordKind: 'factory part', recordId: factoryPartId, action: 'changed', at: row.at as Date }, select: { changes: true },
  })
  if (!entry) return fallback
  const changes = JSON.parse(entry.changes) as Change[]
  const before = (field: string): Change | undefined => changes.find((change) => change.field === field)
  const part = await write.factoryPart.findUniqueOrThrow({ where: { id: factoryPartId }, select: { state: true, binId: true, place: true } })
  const [state, bin, place, condition] = [before('state'), before('binId'), before('place'), before('condition')]
  return {
    state: state ? String(state.before) : part.state,
    binId: bin ? (bin.before as string | null) || null : part.binId,
    place: place ? String(place.before ?? '') : part.place,
    ...(condition ? { condition: String(condition.before ?? '') } : {}),
  }
}
