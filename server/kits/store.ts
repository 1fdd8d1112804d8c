import type { Actor } from '../shared/audit.ts'
import { audit, changesBetween } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { invalid, notFound } from '../shared/problems.ts'

// What is delivered stays on record as it was built.
const OPEN = { stage: { not: 'delivered' } }

const NEED = 'material need'

interface Line {
  readonly id: string
  readonly buildId: string
}

interface Part {
  readonly id: string
  readonly materialId: string
  readonly form: string
  readonly quantity: number
}

const PART = { id: true, materialId: true, form: true, quantity: true } as const

/**
 * A line's kit is another one now: what the old one brought goes unless somebody adjusted it, and the
 * new one's parts become needs of the line. What was left out of a kit stays left out when it comes back.
 */
export async function exchangeKit(write: Write, line: Line, before: string | null, after: string | null, actor: Actor): Promise<void> {
  if (before === after) return
  if (before !== null) await takeAway(write, { lineId: line.id, kitPart: { kitId: before } }, actor)
  if (after === null) return
  const parts = await write.kitPart.findMany({
    where: { kitId: after, removedAt: null, needs: { none: { lineId: line.id } } }, orderBy: { id: 'asc' }, select: PART,
  })
  for (const part of parts) await bring(write, line, part, actor)
}

/** A kit part is new, changed, taken away or back: the lines of open builds follow, adjusted ones stay as they are. */
export async function followKitPart(write: Write, partId: string, actor: Actor): Promise<void> {
  const { removedAt, kitId, ...part } = await write.kitPart.findUniqueOrThrow({ where: { id: partId }, select: { ...PART, kitId: true, removedAt: true } })
  const ofOpenLines = { kitPartId: partId, line: { kitId }, build: OPEN }
  if (removedAt !== null) return takeAway(write, ofOpenLines, actor)
  await adaptNeeds(write, ofOpenLines, part, actor)
  const lines = await write.equipmentLine.findMany({
    where: { kitId, build: OPEN, needs: { none: { kitPartId: partId } } }, orderBy: { id: 'asc' }, select: { id: true, buildId: true },
  })
  for (const line of lines) await bring(write, line, part, actor)
}

type Where = NonNullable<Parameters<Write['materialNeed']['findMany']>[0]>['where'] & object

async function adaptNeeds(write: Write, where: Where, { materialId, form, quantity }: Part, actor: Actor): Promise<void> {
  const values = { materialId, form, quantity }
  const needs = await write.materialNeed.findMany({ where: { ...where, isAdjusted: false, removedAt: null } })
  for (const need of needs) {
    const changes = changesBetween(need, values)
    if (changes.length === 0) continue
    await write.materialNeed.update({ where: { id: need.id }, data: { ...values, entered: '{}', version: { increment: 1 } } })
    await audit(write, actor, { action: 'changed', recordKind: NEED, recordId: need.id, changes })
  }
}

// Without its part of the kit it is no longer one that somebody left out.
async function takeAway(write: Write, where: Where, actor: Actor): Promise<void> {
  const needs = await write.materialNeed.findMany({ where: { ...where, isAdjusted: false, removedAt: null }, select: { id: true } })
  for (const { id } of needs) {
    await write.materialNeed.update({ where: { id }, data: { removedAt: actor.now, kitPartId: null, version: { increment: 1 } } })
    await audit(write, actor, { action: 'removed', recordKind: NEED, recordId: id })
  }
}

async function bring(write: Write, { id: lineId, buildId }: Line, { id: kitPartId, ...values }: Part, actor: Actor): Promise<void> {
  const { id } = await write.materialNeed.create({ data: { ...values, lineId, buildId, kitPartId }, select: { id: true } })
  await audit(write, actor, { action: 'created', recordKind: NEED, recordId: id, changes: changesBetween(null, { ...values, lineId }) })
}

/** One line leaves a part of its kit out, or takes it as the kit has it again. Returns the line. Throws a 404 where no kit brought the need. */
export async function changeKitState(write: Write, needId: string, state: 'as the kit' | 'left out', actor: Actor): Promise<{ lineId: string }> {
  const need = await write.materialNeed.findUnique({ where: { id: needId }, include: { kitPart: { select: { ...PART, removedAt: true } } } })
  if (!need?.kitPart || need.lineId === null) throw notFound('part of a kit in a line')
  const { removedAt: isGone, materialId, form, quantity } = need.kitPart
  if (state === 'as the kit' && isGone !== null) throw invalid('state', 'The kit no longer has this part. Leave it as it is here, or leave it out.')
  const values = state === 'left out' ? { removedAt: need.removedAt ?? actor.now, isAdjusted: true }
    : { materialId, form, quantity, entered: '{}', removedAt: null, isAdjusted: false }
  await write.materialNeed.update({ where: { id: needId }, data: { ...values, version: { increment: 1 } } })
  const action = state === 'left out' ? 'removed' : need.removedAt === null ? 'changed' : 'recovered'
  const { entered: _, removedAt: __, ...told } = { entered: '', ...values }
  await audit(write, actor, { action, recordKind: NEED, recordId: needId, changes: changesBetween(need, told) })
  return { lineId: need.lineId }
}
