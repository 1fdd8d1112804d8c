import type { Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { FieldProblems, HeldProblem, Problem } from '../shared/problems.ts'
import { loadShopFacts } from './facts.ts'
import type { Planner, Proposal } from './planner.ts'
import { keepPlan, loadPlanInForce } from './planStore.ts'
import { drawProposal } from './proposals.ts'
import { spoiledBy } from './spoiled.ts'

export interface Wanted {
  readonly proposal: string
  /** People who were asked, by id. */
  readonly asked: readonly string[]
  readonly reason: string
}

/** A proposal by its id. Throws a 409 where it is gone, as after a restart of the service. */
export function findProposal(planner: Planner, id: string): Proposal {
  const found = planner.proposals.find((one) => one.id === id)
  if (!found) throw new HeldProblem('That proposal is gone', 'It was taken, replaced by a newer one, or the service was started anew. The plan in force stands. Plan again and decide on what comes of it.', { href: '/schedule', name: 'To the schedule' })
  return found
}

/** Puts a proposal in force, in the transaction given. Refuses one that is not finished, is made from other facts, or changes the day of somebody who was not asked. */
export async function takeProposal(write: Write, reads: Reads, planner: Planner, { proposal: id, asked, reason }: Wanted, actor: Actor, timeZone: string): Promise<string> {
  const proposal = findProposal(planner, id)
  if (planner.searching === proposal.way) throw new Problem(409, 'Still being looked for', 'The proposal may still get better. Wait for the search to end, or stop it; then take what there is.')
  const inForce = await loadPlanInForce(write)
  if ((inForce?.id ?? null) !== (proposal.base?.id ?? null)) throw new Problem(409, 'Another plan is in force', 'Another plan was taken after this proposal was made. It stands, and nothing was changed. Plan again from it.')
  const { content, toAsk } = drawProposal(proposal, timeZone)
  const spoiled = spoiledBy({ ...proposal, content }, await loadShopFacts(reads, actor.now), timeZone)
  if (spoiled.length > 0) throw new Problem(409, 'Things have changed', `The proposal no longer holds. Since it was made these have changed: ${spoiled.join('; ')}. The plan in force stands, and nothing was changed. Plan again.`)
  const names = new Map(content.people.map((person) => [person.id, person.name]))
  const unasked = toAsk.filter((personId) => !asked.includes(personId))
  if (unasked.length > 0) {
    throw new FieldProblems(unasked.map((personId) => ({ field: `asked-${personId}`, message: `The plan changes the day of ${names.get(personId) ?? 'somebody who is there no longer'}. Ask first, then tick that you did.` })))
  }
  return keepPlan(write, { madeAt: proposal.madeAt, reason, print: proposal.print, content }, actor)
}
