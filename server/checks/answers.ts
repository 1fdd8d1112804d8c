import { limitsOf } from '../calc/checks/checkLimits.ts'
import type { CheckPoint } from '../calc/checks/checkPoints.ts'
import { refuseAnswer, type Outcome } from '../calc/checks/checkState.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { invalid, notFound, Problem } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { checkOf, type Checked } from './checked.ts'
import { gainLimit, kindOf, limitInWords, readMeasured, unitOf } from './measured.ts'
import { addResult, beginCheck, storeSignature } from './store.ts'

export const CHECK = 'final check'

export interface Given {
  readonly point: string
  readonly outcome: Outcome
  readonly value: string | number
  readonly power: string | number
  readonly load: string | number
  readonly note: string
}

type Answerer = Pick<Viewer, 'role' | 'units'>

/** Stores what somebody found at one point, beside what was found before. */
export async function answerPoint(write: Write, buildId: string, given: Given, actor: Actor, by: Answerer): Promise<void> {
  const checked = await checkOf(write, buildId)
  refuseDelivered(checked)
  await store(write, buildId, checked, given, actor, by)
}

/** Stores that all of these are right: points at which nothing is measured. */
export async function answerRight(write: Write, buildId: string, keys: readonly string[], actor: Actor, by: Answerer): Promise<void> {
  if (keys.length === 0) throw invalid('right', 'Tick what was looked at and is right.')
  const checked = await checkOf(write, buildId)
  refuseDelivered(checked)
  for (const point of keys) await store(write, buildId, checked, { point, outcome: 'right', value: '', power: '', load: '', note: '' }, actor, by)
}

async function store(write: Write, buildId: string, { points, stored }: Checked, given: Given, actor: Actor, { role, units }: Answerer): Promise<void> {
  const point = points.find(({ key }) => key === given.point)
  if (!point) throw notFound('point of this final check')
  const typed = readTyped(point, given, units)
  const limit = point.measures === 'gain' ? gainLimit(typed.power.value, typed.load.value, limitsOf(stored.limits)) : point.limit
  const held = { ...point, limit }
  const limitWords = limitInWords(held, units)
  const problem = refuseAnswer(held, { outcome: given.outcome, value: typed.value.value, note: given.note, mayLetPass: MANAGERS.includes(role) }, point.open, limitWords)
  if (problem) throw invalid(problem.field, `${point.title}: ${problem.message}`)
  const entered = { value: typed.value.text, power: typed.power.text, load: typed.load.text, limit: limitWords, open: given.outcome === 'let pass' ? point.open.join('\n') : '' }
  const finalCheckId = await beginCheck(write, buildId)
  await addResult(write, finalCheckId, {
    point: point.key, lineId: point.lineId, outcome: given.outcome, value: typed.value.value, note: given.note, at: actor.now, personId: actor.personId ?? '',
    entered: Object.fromEntries(Object.entries(entered).filter(([, text]) => text !== '')),
  })
  const said = [given.outcome, typed.value.text, given.note].filter((word) => word !== '').join(', ')
  await audit(write, actor, { action: 'answered', recordKind: CHECK, recordId: finalCheckId, changes: [{ field: point.title, before: point.answer?.outcome ?? null, after: said }] })
}

function readTyped(point: CheckPoint, { value, power, load }: Given, units: Viewer['units']) {
  const { measures } = point
  const nothing = { value: null, text: '' }
  if (measures === null) return { value: nothing, power: nothing, load: nothing }
  const isGain = measures === 'gain'
  return {
    value: readMeasured('value', 'Measured', value, kindOf(measures), unitOf(measures, units)),
    power: isGain ? readMeasured('power', 'Rated power of one channel', power, 'power', 'W') : nothing,
    load: isGain ? readMeasured('load', 'Nominal load of that channel', load, 'resistance', 'Ω') : nothing,
  }
}

/** Signs a check whose points are all settled. */
export async function signCheck(write: Write, buildId: string, { name, signature, version }: { name: string, signature: string, version: number | null }, actor: Actor): Promise<void> {
  const checked = await checkOf(write, buildId)
  refuseDelivered(checked)
  const { unsettled, stored: { build } } = checked
  if (build.finalCheck?.signedAt) throw new Problem(409, 'Signed already', `${build.finalCheck.signedName} signed this final check. A new answer takes that back.`)
  if (unsettled.length > 0) throw new Problem(409, 'Not ready to be signed', `Still open: ${unsettled.map(({ title }) => title).join('; ')}. Settle that first, then sign.`)
  if (version !== null && build.finalCheck !== null && build.finalCheck.version !== version) throw new Problem(409, 'Changed in the meantime', 'Somebody answered a point since this page was opened. Read it again, then sign.')
  const id = await beginCheck(write, buildId)
  await storeSignature(write, id, { signedName: name, signature, signedAt: actor.now })
  await audit(write, actor, { action: 'signed', recordKind: CHECK, recordId: id, changes: [{ field: 'Signed by', before: null, after: name }] })
}

function refuseDelivered({ stored: { build } }: Checked): void {
  if (build.stage === 'delivered') throw new Problem(409, 'Delivered already', `${label('B', build.number)} was delivered with this final check, and it stays as it is. What is found later belongs to a service visit.`)
}
