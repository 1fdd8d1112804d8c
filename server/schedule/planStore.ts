import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { planContentSchema, type PlanContent } from './planContent.ts'

/** The plan the shop works by. */
export interface PlanInForce {
  readonly id: string
  readonly takenAt: Date
  readonly takenById: string
  readonly madeAt: Date
  /** Why it was planned. */
  readonly reason: string
  /** Of what it was made from. */
  readonly print: string
  readonly content: PlanContent
}

/** The plan that was taken last; null as long as none was. Plans that were taken stay as they are. */
export async function loadPlanInForce(reads: Reads | Write): Promise<PlanInForce | null> {
  const stored = await reads.shopPlan.findFirst({ orderBy: [{ createdAt: 'desc' }, { id: 'desc' }] })
  if (stored === null) return null
  const { id, createdAt, madeAt, madeById, reason, print, content } = stored
  return { id, takenAt: createdAt, takenById: madeById, madeAt, reason, print, content: planContentSchema.parse(JSON.parse(content)) }
}

interface Taken {
  readonly madeAt: Date
  readonly reason: string
  readonly print: string
  readonly content: PlanContent
}

/** Puts a plan in force. */
export async function keepPlan(write: Write, { madeAt, reason, print, content }: Taken, actor: Actor): Promise<string> {
  const { id } = await write.shopPlan.create({
    data: { createdAt: actor.now, madeAt, madeById: actor.personId ?? '', reason, print, content: JSON.stringify(planContentSchema.parse(content)) },
  })
  await audit(write, actor, { action: 'took', recordKind: 'plan of the shop', recordId: id, changes: reason === '' ? [] : [{ field: 'Why', before: null, after: reason }] })
  return id
}

/** Who took a plan. */
export async function nameOfPerson(reads: Reads, id: string): Promise<string> {
  return (await reads.person.findUnique({ where: { id }, select: { name: true } }))?.name ?? 'somebody who has left'
}
