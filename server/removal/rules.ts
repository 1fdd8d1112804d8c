import { findCycle } from '../calc/graph.ts'
import { movePart, tellOfForm } from '../custody/moveStore.ts'
import { audit, changesBetween, type Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { FieldProblems, invalid } from '../shared/problems.ts'
import { getKind, label, type Draft, type Values } from '../shared/records/kind.ts'
import { findReferred } from '../shared/records/table.ts'

export async function checkFastener(_write: Write, { values }: Draft): Promise<Values> {
  if (typeof values.torque === 'number' && String(values.torqueSource ?? '') === '') {
    throw invalid('torqueSource', 'A torque states where it stands, as the maker’s manual and page. Without a source leave the torque empty.')
  }
  return {}
}

/** A removal is made by whoever is signed in, now. */
export async function checkRemoval(write: Write, { before, values, actor }: Draft): Promise<Values> {
  if (before) return {}
  const part = await write.factoryPart.findUniqueOrThrow({ where: { id: String(values.factoryPartId) }, select: { state: true } })
  const isOut = !['fitted', 'loosened', 'altered', 'damaged'].includes(part.state)
  if (values.kind !== 'went back' && isOut) throw invalid('kind', `This part is ${part.state} already.`)
  return { at: actor.now, personId: actor.personId }
}

export const STATE_AFTER: Readonly<Record<string, string>> = { 'came out': 'out and stored', loosened: 'loosened', 'went back': 'fitted' }

/** The factory part is where its latest removal put it. */
export async function placeAfterRemoval(write: Write, row: Row, { before, actor }: Draft): Promise<void> {
  if (before && (before.binId === row.binId || !(await isStillThere(write, before)))) return
  await putWhere(write, row, actor, row.condition ? { condition: String(row.condition) } : {})
}

// Another bin written into an old removal moves nothing that has been moved since.
async function isStillThere(write: Write, { factoryPartId, kind, binId }: Row): Promise<boolean> {
  const part = await write.factoryPart.findUniqueOrThrow({ where: { id: String(factoryPartId) }, select: { state: true, binId: true } })
  return part.state === STATE_AFTER[String(kind)] && (kind === 'went back' || part.binId === binId)
}

/** A part that comes out or goes back moves; one that is only loosened stays where it is. */
export async function putWhere(write: Write, row: Row, actor: Actor, left: { readonly condition?: string } = {}): Promise<void> {
  const id = String(row.factoryPartId)
  const state = STATE_AFTER[String(row.kind)]
  if (!state) throw new Error(`no state follows ${String(row.kind)}`)
  const binId = row.binId as string | null
  if (row.kind === 'loosened') return changePart(write, actor, id, { state, binId, ...left })
  await movePart(write, actor, id, row.kind === 'went back' ? { kind: 'back in the vehicle' } : { kind: 'stored', binId }, { state, ...left })
}

const NEEDS_A_NAME: Readonly<Record<string, string>> = {
  'out with the customer': 'Handing over is recorded as a move, with who took it home and the signature.',
  'disposed with consent': 'Disposal is recorded as a move, with whose consent it has.',
}

/** Handing over and disposal name somebody, and no field of the part does. */
export async function checkFactoryPart(_write: Write, { before, values }: Draft): Promise<Values> {
  const words = NEEDS_A_NAME[String(values.state)]
  if (before && words && before.state !== values.state) {
    throw invalid('state', words, { href: `/factory-parts/${before.id}/custody`, name: 'Move this part' })
  }
  return {}
}

/** Where a part is by its own form is written down like any other move. */
export async function tellOfPart(write: Write, row: Row, { before, actor }: Draft): Promise<void> {
  const was = before ? { state: String(before.state), binId: before.binId as string | null, place: String(before.place) } : null
  await tellOfForm(write, actor, row.id, was)
}

interface PartChange {
  readonly state: string
  readonly binId?: string | null
  readonly condition?: string
}

/** What happens to a factory part through another record stands in its own history too. */
export async function changePart(write: Write, actor: Actor, id: string, change: PartChange): Promise<void> {
  const before = await write.factoryPart.findUniqueOrThrow({ where: { id }, select: { state: true, binId: true, condition: true } })
  await write.factoryPart.update({ where: { id }, data: { ...change, version: { increment: 1 } } })
  await audit(write, actor, { action: 'changed', recordKind: 'factory part', recordId: id, changes: changesBetween(before, { ...change }) })
}

/** A rule that is brought back must still make no ring with those recorded since. */
export async function checkRecoveredEdge(write: Write, row: Row, actor: Actor): Promise<void> {
  if (!row.removedAt) return
  try {
    await checkEdge(write, { id: row.id, before: row, values: row, actor })
  } catch (error) {
    if (error instanceof FieldProblems) throw invalid('id', error.fields.map(({ message }) => message).join(' '))
    throw error
  }
}

/** Refuses a ring of things that would each have to come out first, and names it. */
export async function checkEdge(write: Write, { id, values }: Draft): Promise<Values> {
  const beforeId = String(values.beforeId)
  const afterId = String(values.afterId)
  if (beforeId === afterId) throw invalid('afterId', 'A part does not stand in front of itself. Choose two different ones.')
  if (values.graph === 'going back') await refuseInstalled(write, [beforeId, afterId])
  const build = await findBuild(write, beforeId)
  const stored = await write.orderEdge.findMany({ where: { buildId: build, graph: String(values.graph), removedAt: null } })
  const others = stored.filter((edge) => edge.id !== id)
  if (others.some((edge) => edge.beforeId === beforeId && edge.afterId === afterId && edge.way === String(values.way ?? ''))) {
    throw invalid('afterId', 'This order is recorded already.')
  }
  const sameWay = others.filter((edge) => edge.way === '' || edge.way === String(values.way ?? ''))
  const edges = [...sameWay, { beforeId, afterId }].map((edge) => ({ before: edge.beforeId, after: edge.afterId }))
  const ring = findCycle([...new Set(edges.flatMap((edge) => [edge.before, edge.after]))], edges)
  if (ring) throw invalid('afterId', `Each would have to come out before the other: ${await inWords(write, ring)}.`)
  return {}
}

const THINGS = ['factory part', 'equipment line', 'made part'].map((name) => () => getKind(name))

async function findBuild(write: Write, id: string): Promise<string> {
  const found = await findReferred(write, THINGS.map((kind) => kind()), id)
  return String(found?.row.buildId ?? '')
}

async function refuseInstalled(write: Write, ids: readonly string[]): Promise<void> {
  const count = await write.factoryPart.count({ where: { id: { in: [...ids] } } })
  if (count < ids.length) throw invalid('graph', 'Going back is about factory parts alone.')
}

async function inWords(write: Write, ids: readonly string[]): Promise<string> {
  const names: string[] = []
  for (const id of ids) {
    const found = await findReferred(write, THINGS.map((kind) => kind()), id)
    names.push(found ? `${label(found.kind.number?.prefix ?? '', Number(found.row.number))} ${found.kind.title(found.row)}` : id)
  }
  return names.join(' → ')
}

export async function checkAlteration(write: Write, { values, actor }: Draft): Promise<Values> {
  if (values.isReversible === true && String(values.reversal ?? '') === '') {
    throw invalid('reversal', 'Say how it is reversed, or that it cannot be.')
  }
  if (values.consentOn && String(values.consentBy ?? '') === '') throw invalid('consentBy', 'Whose consent was that? A date alone is none.')
  const isOutsideNamed = String(values.outsideWork ?? '') !== ''
  if (!isOutsideNamed && (typeof values.outsideCost === 'number' || Number(values.outsideDays ?? 0) > 0)) {
    throw invalid('outsideWork', 'Say what the other firm has to do, or leave its cost and days empty.')
  }
  const partId = values.factoryPartId
  if (typeof partId === 'string' && !values.reversedOn) {
    const part = await write.factoryPart.findUnique({ where: { id: partId }, select: { state: true } })
    if (part?.state === 'fitted') await changePart(write, actor, partId, { state: 'altered' })
  }
  return {}
}
