import { counted } from '../../web/shared/text.ts'
import { findCycle } from '../calc/graph.ts'
import { LARGEST_RATE_THOUSANDTHS, LEARNING_MODELS, LEAST_RATE_THOUSANDTHS } from '../calc/estimate/learning.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { invalid } from '../shared/problems.ts'
import { check, choice, date, longText, quantity, reference, text, time, whole } from '../shared/records/field.ts'
import { defineKind, type Draft, type Values } from '../shared/records/kind.ts'
import { BENCH, EVERYBODY, MANAGERS } from '../shared/roles.ts'
import { findHold } from './heldStore.ts'
import { ratiosOf } from './ratioStore.ts'

export const OPERATION_KINDS = [
  'design', 'pattern', 'mock-up', 'cut', 'machine', 'print', 'weld', 'mold', 'laminate', 'cure', 'fill', 'sand', 'prime', 'paint',
  'foam', 'sew', 'wrap', 'damp', 'assemble', 'take out', 'fit', 'wire', 'tune', 'check', 'put back', 'outside finish',
] as const
export const OPERATION_STATES = ['not started', 'running', 'waiting', 'done'] as const

export const OPERATION_PLACES = ['in the vehicle', 'at the bench'] as const
export const ROLL_OUT = ['stays in', 'may roll out'] as const

const PLANNED = { changedBy: MANAGERS }

export const operation = defineKind({
  name: 'operation', plural: 'operations', path: 'operations', model: 'operation', place: 'builds', isOfBuild: true,
  fields: {
    partId: reference('Made part', 'made part', { ...PLANNED, isListed: true, isFixed: true, note: 'An operation is on one made part, one equipment line or one factory part.' }),
    lineId: reference('Equipment', 'equipment line', { ...PLANNED, isListed: true, isFixed: true }),
    factoryPartId: reference('Factory part', 'factory part', { ...PLANNED, isListed: true, isFixed: true }),
    number: whole('Number', 1, 9_999, { ...PLANNED, note: 'Left empty: the next ten.' }),
    kind: choice('Kind', OPERATION_KINDS, PLANNED),
    work: text('What exactly', { ...PLANNED, isListed: true }),
    departmentId: reference('Department', 'department', { ...PLANNED, isRequired: true, isListed: true }),
    skillId: reference('Skill', 'skill', PLANNED),
    setUp: time('Set-up', { ...PLANNED, note: 'Once a batch. 0.5 h, 0:30 or 30 min.' }),
    run: time('Run', { ...PLANNED, isListed: true, note: 'For one piece, the first where later ones go faster; the most likely where you are unsure.' }),
    runBest: time('Run at best', { ...PLANNED, initial: null, note: 'Where you are unsure: when all goes well. The estimate takes (best + 4 × most likely + worst) ÷ 6.' }),
    runWorst: time('Run at worst', { ...PLANNED, initial: null, note: 'When all goes wrong. Both of these, or neither.' }),
    learningModel: choice('Later pieces go faster by', LEARNING_MODELS, { ...PLANNED, isRequired: false, note: 'Unit: each piece by itself falls to the rate with each doubling. Cumulative average: the average of all so far does.' }),
    learningRate: quantity('Learning rate', 'share', { ...PLANNED, least: LEAST_RATE_THOUSANDTHS, largest: LARGEST_RATE_THOUSANDTHS, note: '85 %: with each doubling of the pieces the time falls to 85 %.' }),
    reworkAllowance: quantity('Allowance for rework', 'share', { ...PLANNED, largest: 2_000, note: 'On top of set-up and run. Left empty: the department’s.' }),
    crew: whole('People at once', 1, 8, { ...PLANNED, isRequired: true, initial: 1 }),
    wait: time('Waiting that needs nobody', { ...PLANNED, note: 'Cure, drying. Of an outside finisher that is chosen below the days are counted by themselves.' }),
    personId: reference('Named person', 'person', PLANNED),
    place: choice('Where', OPERATION_PLACES, { ...PLANNED, isRequired: false, initial: '', note: 'Left open: as usual for its kind; work on factory parts and equipment is in the vehicle.' }),
    rollOut: choice('Afterwards the vehicle', ROLL_OUT, { ...PLANNED, isRequired: false, initial: '', note: 'Left open: it stays in after parts came out and while something cures in it.' }),
    isInOnePiece: check('In one piece', { ...PLANNED, note: 'Not stopped in the evening and gone on with in the morning.' }),
    machineId: reference('Machine', 'machine', PLANNED),
    finisherId: reference('Goes to', 'outside finisher', { ...PLANNED, note: 'After its own hours, such as packing.' }),
    backOn: date('Expected back', { note: 'Once it is away: the day the finisher named.' }),
    earliestOn: date('Not before', PLANNED),
    state: choice('State', OPERATION_STATES, { isListed: true, initial: 'not started' }),
    remaining: time('Remaining', { initial: null, note: 'The technician’s own figure, where it differs from the estimate.' }),
    visitId: reference('Service visit', 'service visit', { ...PLANNED, isFixed: true, note: 'Work after delivery: its hours are not the build’s.' }),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: BENCH,
  title: (row) => `${String(row.number)} ${String(row.kind)}${row.work ? `, ${String(row.work)}` : ''}`,
  orderBy: [{ partId: 'asc' }, { lineId: 'asc' }, { factoryPartId: 'asc' }, { number: 'asc' }],
  check: checkOperation,
  begin: (row) => (row ? { href: `/schedule/late?operation=${row.id}`, name: 'What if it is late', roles: EVERYBODY } : { href: '/schedule', name: 'Schedule', roles: MANAGERS }),
  holds: async (reads, row) => heldByHours(reads, row.id),
  bearing: { label: 'Accepted of our hours', of: ratiosOf },
  firstStep: { why: 'Hours are estimated and logged by operation.', example: '10 pattern 1.0 h; 20 laminate 2.5 h; cure 24 h.' },
})

async function heldByHours(reads: Reads | Write, operationId: string): Promise<string | null> {
  const entries = await reads.timeEntry.count({ where: { operationId } })
  return entries > 0 ? `${counted(entries, 'entry of hours stands', 'entries of hours stand')} on it. Set it done instead.` : null
}

async function checkOperation(write: Write, { id, before, values }: Draft): Promise<Values> {
  if (!before && (values.kind === undefined || values.departmentId === undefined)) {
    throw invalid('kind', 'Only a manager plans operations.')
  }
  const owners = ['partId', 'lineId', 'factoryPartId'].filter((name) => typeof values[name] === 'string')
  if (owners.length !== 1) throw invalid('partId', 'Choose one: a made part, an equipment line or a factory part.')
  const owner = String(owners[0])
  if (!before && !values.visitId) await refuseAfterDelivery(write, { owner, id: String(values[owner]) })
  checkTimes(values)
  if (typeof values.skillId === 'string') await checkSkill(write, values.skillId, String(values.departmentId))
  await refuseHeld(write, { id, before, values })
  if (typeof values.number === 'number') return {}
  const last = await write.operation.findFirst({
    where: { [owner]: values[owner], id: { not: id ?? '' } }, orderBy: { number: 'desc' }, select: { number: true },
  })
  return { number: Math.floor((last?.number ?? 0) / 10) * 10 + 10 }
}

/** What is done to a delivered vehicle is no work of the build: its hours would change what the build took. */
async function refuseAfterDelivery(write: Write, { owner, id }: { readonly owner: string, readonly id: string }): Promise<void> {
  const found = { where: { id }, select: { build: { select: { stage: true } } } } as const
  const thing = owner === 'partId' ? await write.fabricatedPart.findUnique(found) : owner === 'lineId' ? await write.equipmentLine.findUnique(found) : await write.factoryPart.findUnique(found)
  if (thing?.build.stage !== 'delivered') return
  throw invalid('visitId', 'The vehicle was delivered: what is done to it now belongs to a service visit, whose hours are kept apart from the build’s. Choose the visit, or enter it first.')
}

function checkTimes({ run, runBest, runWorst, learningModel, learningRate }: Values): void {
  const orNull = (value: unknown): number | null => (typeof value === 'number' ? value : null)
  const [best, likely, worst] = [orNull(runBest), orNull(run) ?? 0, orNull(runWorst)]
  if (best !== null && worst === null) throw invalid('runWorst', 'Run at worst is needed beside the one at best, or leave both empty.')
  if (worst !== null && best === null) throw invalid('runBest', 'Run at best is needed beside the one at worst, or leave both empty.')
  if (best !== null && best > likely) throw invalid('runBest', 'Run at best is no longer than Run, the most likely: lower it, or raise Run.')
  if (worst !== null && worst < likely) throw invalid('runWorst', 'Run at worst is no shorter than Run, the most likely: raise it, or lower Run.')
  const hasModel = typeof learningModel === 'string' && learningModel !== ''
  if (hasModel && typeof learningRate !== 'number') throw invalid('learningRate', 'A learning rate goes with it, as 85 %.')
  if (!hasModel && typeof learningRate === 'number') throw invalid('learningModel', 'Say of what the rate holds: unit or cumulative average. Or leave the rate empty.')
}

const BEGUN = ['running', 'done']

/** Nothing is begun, nor called done, whose finish the customer has not approved; what stood so before is left as it is. */
async function refuseHeld(write: Write, { id, before, values }: Pick<Draft, 'id' | 'before' | 'values'>): Promise<void> {
  const { partId, kind, state } = values
  if (typeof partId !== 'string' || !BEGUN.includes(String(state))) return
  if (before && before.state === state && before.kind === kind) return
  const hold = await findHold(write, { id, partId, kind: String(kind) })
  if (hold) throw invalid('state', hold.words, { href: hold.href, name: `Open ${hold.name}` })
}

async function checkSkill(write: Write, skillId: string, departmentId: string): Promise<void> {
  const skill = await write.skill.findUnique({ where: { id: skillId }, select: { departmentId: true, name: true } })
  if (skill && skill.departmentId !== departmentId) {
    throw invalid('skillId', `${skill.name} belongs to another department. Choose a skill of this one.`)
  }
}

export const predecessor = defineKind({
  name: 'predecessor', plural: 'predecessors', path: 'predecessors', model: 'operationPredecessor', place: 'builds', isOfBuild: true,
  fields: {
    earlierId: reference('To be finished first', 'operation', { heading: 'What waits for it', isRequired: true, isListed: true, isFixed: true }),
    laterId: reference('Before', 'operation', { heading: 'What it waits for', isRequired: true, isListed: true, isFixed: true }),
  },
  seenBy: EVERYBODY, changedBy: MANAGERS, title: () => 'must be finished first', titleBy: (nameIn) => `${nameIn('earlierId')} before ${nameIn('laterId')}`,
  check: refuseLoop,
  firstStep: { why: 'Beyond the order within one part.', example: 'Prime of the pod before wrap of the pillar.' },
})

async function refuseLoop(write: Write, { id, values }: Draft): Promise<undefined> {
  const earlierId = String(values.earlierId)
  const laterId = String(values.laterId)
  const first = await write.operation.findUniqueOrThrow({ where: { id: earlierId }, select: { buildId: true } })
  const stored = await write.operationPredecessor.findMany({ where: { buildId: first.buildId, removedAt: null } })
  const edges = [...stored.filter((one) => one.id !== id), { earlierId, laterId }].map((one) => ({ before: one.earlierId, after: one.laterId }))
  const ring = findCycle([...new Set(edges.flatMap((edge) => [edge.before, edge.after]))], edges)
  if (ring) throw invalid('laterId', `Each would wait for the other: ${await inWords(write, ring)}.`)
  return undefined
}

async function inWords(write: Write, ids: readonly string[]): Promise<string> {
  const rows = await write.operation.findMany({ where: { id: { in: [...ids] } }, select: { id: true, number: true, kind: true } })
  return ids.map((id) => rows.find((row) => row.id === id)).map((row) => `${row?.number ?? ''} ${row?.kind ?? ''}`).join(' → ')
}
