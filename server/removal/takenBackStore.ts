import type { Actor, Change } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { invalid } from '../shared/problems.ts'
import { changePart, STATE_AFTER } from './rules.ts'

interface Standing {
  readonly state: string
  readonly binId: string | null
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
  await changePart(write, actor, String(row.factoryPartId), await findBefore(write, row))
}

async function placeAgain(write: Write, row: Row, actor: Actor): Promise<void> {
  const newest = await findNewest(write, row.factoryPartId)
  if (newest && newest.id !== row.id) {
    throw invalid('id', `Something has happened to this part since: it ${newest.kind}. Remove that one first, or enter anew what happened.`)
  }
  const state = STATE_AFTER[String(row.kind)]
  if (!state) throw new Error(`no state follows ${String(row.kind)}`)
  await changePart(write, actor, String(row.factoryPartId), { state, binId: row.kind === 'went back' ? null : (row.binId as string | null) })
}

/** As the part's own history tells it; where that is silent, as the removal before left it. */
async function findBefore(write: Write, row: Row): Promise<Standing> {
  const factoryPartId = String(row.factoryPartId)
  const earlier = await findNewest(write, factoryPartId)
  const fallback: Standing = {
    state: STATE_AFTER[earlier?.kind ?? 'went back'] ?? 'fitted', binId: earlier && earlier.kind !== 'went back' ? earlier.binId : null,
  }
  const entry = await write.auditEntry.findFirst({
    where: { recordKind: 'factory part', recordId: factoryPartId, action: 'changed', at: row.at as Date }, select: { changes: true },
  })
  if (!entry) return fallback
  const changes = JSON.parse(entry.changes) as Change[]
  const before = (field: string): Change | undefined => changes.find((change) => change.field === field)
  const part = await write.factoryPart.findUniqueOrThrow({ where: { id: factoryPartId }, select: { state: true, binId: true } })
  const [state, bin, condition] = [before('state'), before('binId'), before('condition')]
  return {
    state: state ? String(state.before) : part.state,
    binId: bin ? (bin.before as string | null) || null : part.binId,
    ...(condition ? { condition: String(condition.before ?? '') } : {}),
  }
}
