import { whereaboutsOf } from '../calc/removal/custody.ts'
import { isInVehicle, type FactoryPartState } from '../calc/removal/factoryParts.ts'
import { findCycle } from '../calc/graph.ts'
import { standingAfter, type RemovalKind } from '../calc/removal/partStanding.ts'
import { tellOfForm } from '../custody/moveStore.ts'
import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { FieldProblems, invalid } from '../shared/problems.ts'
import { getKind, label, type Draft, type Values } from '../shared/records/kind.ts'
import { findReferred } from '../shared/records/table.ts'
import { changePart, putPart, type PartChange } from './placingStore.ts'
import { ringAcross } from './ringAcross.ts'

export async function checkFastener(_write: Write, { values }: Draft): Promise<Values> {
  if (typeof values.torque === 'number' && String(values.torqueSource ?? '') === '') {
    throw invalid('torqueSource', 'A torque states where it stands, as the maker’s manual and page. Without a source leave the torque empty.')
  }
  return {}
}

/** A removal is made by whoever is signed in, now. */
export async function checkRemoval(write: Write, { before, values, actor }: Draft): Promise<Values> {
  const kind = values.kind as RemovalKind
  // The screws of what is only loosened may lie in a bin; of what stays nothing does.
  if (values.binId && kind === 'stays') throw invalid('binId', 'It stays in the vehicle and lies in no bin: leave the bin empty.')
  if (before) return {}
  const part = await write.factoryPart.findUniqueOrThrow({ where: { id: String(values.factoryPartId) }, select: { state: true, binId: true, place: true } })
  refuseAbsent(kind, part)
  if (kind === 'came out' && ['damaged', 'altered'].includes(part.state) && !values.binId && part.place === '') {
    throw invalid('binId', `It is ${part.state}, and counts as in the vehicle until it lies somewhere: choose a bin.`)
  }
  return { at: actor.now, personId: actor.personId }
}

// What lies on the shelf can still break or be cut there.
function refuseAbsent(kind: RemovalKind, { state, binId, place }: { readonly state: string, readonly binId: string | null, readonly place: string }): void {
  const isHere = isInVehicle({ state: state as FactoryPartState, place: binId ?? place })
  if (kind === 'went back' || isHere) return
  const isInShop = ['out and stored', 'damaged', 'altered'].includes(state)
  if (!isInShop || (kind !== 'altered' && kind !== 'broke')) throw invalid('kind', `This part is ${state} already.`)
}

/** The factory part is where its latest removal put it; a bin that is corrected later moves it only while nothing else has happened. */
export async function placeAfterRemoval(write: Write, row: Row, { before, actor }: Draft): Promise<void> {
  const id = String(row.factoryPartId)
  if (before) {
    const isMeant = before.binId !== row.binId && row.kind !== 'loosened' && await isStillThere(write, before)
    if (isMeant) await putPart(write, actor, id, { binId: row.binId as string | null, place: '' })
    return
  }
  await putPart(write, actor, id, { ...await standingOf(write, row), ...(row.condition ? { condition: String(row.condition) } : {}) })
}

// Another bin written into an old removal moves nothing that has been moved since.
async function isStillThere(write: Write, { id, factoryPartId, binId }: Row): Promise<boolean> {
  const newest = await write.removal.findFirst({ where: { factoryPartId: String(factoryPartId), removedAt: null }, orderBy: [{ at: 'desc' }, { id: 'desc' }], select: { id: true } })
  const part = await write.factoryPart.findUniqueOrThrow({ where: { id: String(factoryPartId) }, select: { state: true, binId: true, place: true } })
  const isHere = ['in the vehicle', 'stored'].includes(whereaboutsOf(part))
  return newest?.id === id && isHere && part.binId === binId
}

/** How the part of a removal stands after it. */
export async function standingOf(write: Write, row: Row): Promise<PartChange> {
  const part = await write.factoryPart.findUniqueOrThrow({ where: { id: String(row.factoryPartId) }, select: { state: true, binId: true, place: true, stays: true } })
  const binId = row.binId as string | null
  const after = standingAfter({ ...part, state: part.state as FactoryPartState }, { kind: row.kind as RemovalKind, binId })
  return { ...after, place: binId !== null || row.kind === 'went back' ? '' : part.place }
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
  const stored = await write.orderEdge.findMany({ where: { buildId: build, removedAt: null } })
  const all = stored.filter((edge) => edge.id !== id)
  const others = all.filter(({ graph }) => graph === values.graph)
  if (others.some((edge) => edge.beforeId === beforeId && edge.afterId === afterId && edge.way === String(values.way ?? ''))) {
    throw invalid('afterId', 'This order is recorded already.')
  }
  const sameWay = others.filter((edge) => edge.way === '' || edge.way === String(values.way ?? ''))
  const edges = [...sameWay, { beforeId, afterId }].map((edge) => ({ before: edge.beforeId, after: edge.afterId }))
  const ring = findCycle([...new Set(edges.flatMap((edge) => [edge.before, edge.after]))], edges)
  if (ring) throw invalid('afterId', `Each would have to come out before the other: ${await inWords(write, ring)}.`)
  const across = ringAcross(all, { graph: String(values.graph), kind: String(values.kind), beforeId, afterId, way: String(values.way ?? '') })
  if (across) {
    throw invalid('afterId', `With the rules as found and as built together each would have to come out before the other: ${await inWords(write, across)}. Change the one that no longer holds first.`)
  }
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
