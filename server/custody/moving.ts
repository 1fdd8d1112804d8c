import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { checkMove, readNumbers, type MoveBody } from './moveAsked.ts'
import { listBins, listMoved, moveParts } from './moveStore.ts'

/** Checks a move against the parts as they are in the open write, and makes it. Returns the ids of the moves. Throws FieldProblems. */
export async function moveAsAsked(write: Write, buildId: string, body: MoveBody, actor: Actor): Promise<string[]> {
  const parts = await listMoved(write, buildId, readNumbers(body.parts, 'F') ?? [])
  const { binId } = checkMove(body, parts, await listBins(write, buildId))
  return moveParts(write, actor, parts.map(({ id }) => id), { ...whatCounts(body), binId })
}

/** What was typed for another kind of move is left out. */
function whatCounts({ kind, place, toWhom, signedName, signature, note }: MoveBody) {
  if (kind === 'handed to the customer') return { kind, place, signedName, signature, note, toWhom: signedName }
  if (kind === 'disposed with consent') return { kind, toWhom, note }
  return { kind, place: kind === 'missing' ? '' : place, note }
}
