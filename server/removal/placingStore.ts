import { moveBetween, whereaboutsOf } from '../calc/removal/custody.ts'
import { movePart } from '../custody/moveStore.ts'
import { audit, changesBetween, type Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'

export interface PartChange {
  readonly state?: string
  readonly binId?: string | null
  readonly place?: string
  readonly condition?: string
  readonly stays?: boolean
}

/** What happens to a factory part through another record stands in its own history too. */
export async function changePart(write: Write, actor: Actor, id: string, change: PartChange): Promise<void> {
  const before = await write.factoryPart.findUniqueOrThrow({ where: { id }, select: { state: true, binId: true, place: true, condition: true, stays: true } })
  await write.factoryPart.update({ where: { id }, data: { ...change, version: { increment: 1 } } })
  await audit(write, actor, { action: 'changed', recordKind: 'factory part', recordId: id, changes: changesBetween(before, { ...change }) })
}

/** Changes how a part stands; where it comes to lie somewhere else, that is written down as a move as well. */
export async function putPart(write: Write, actor: Actor, id: string, change: PartChange, note = ''): Promise<void> {
  const part = await write.factoryPart.findUniqueOrThrow({ where: { id }, select: { state: true, binId: true, place: true, stays: true } })
  const { condition, ...after } = { ...part, ...change }
  const [from, to] = [whereaboutsOf(part), whereaboutsOf(after)]
  const isMoved = from !== to || (to === 'stored' && (part.binId !== after.binId || part.place !== after.place))
  if (!isMoved) return changePart(write, actor, id, change)
  const { state, binId, place, stays } = after
  await movePart(write, actor, id, { kind: moveBetween(from, to), binId, place, note }, { state, stays, ...(condition === undefined ? {} : { condition }) })
}
