import { randomUUID } from 'node:crypto'
import type { PointData, PointForm } from '../../web/checks/checkData.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import type { Working } from '../calc/amounts.ts'
import { newCodes, OUTCOMES } from '../calc/checks/checkState.ts'
import { formatQuantity } from '../calc/figures.ts'
import { gainWorking } from '../calc/gainTarget.ts'
import { Refusal } from '../calc/refusal.ts'
import { FieldProblems, notFound } from '../shared/problems.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { Checked } from './checked.ts'
import { limitInWords, readMeasured, unitOf } from './measured.ts'
import { byOf } from './pageData.ts'
import { cautionsAt, nameOf } from './shown.ts'

export interface PointAsked {
  readonly typed?: Readonly<Partial<Record<keyof PointForm['values'], string>>>
  readonly problems?: readonly FieldProblem[]
  /** Codes read on the vehicle, for the point that compares them. */
  readonly codes?: readonly { readonly code: string, readonly unit: string, readonly words: string, readonly readAt: string, readonly readOn: string, readonly clearedOn: string | null }[]
}

/** One point as its page shows it. Throws a 404. */
export function pointData(checked: Checked, key: string, viewer: Viewer, { typed, problems = [], codes = [] }: PointAsked): PointData {
  const { stored: { build, timeZone }, points, answers } = checked
  const point = points.find((one) => one.key === key)
  if (!point) throw notFound('point of this final check')
  const page = `/builds/${build.id}`
  const mayChange = build.stage !== 'delivered' && (!point.isOfRecords || (point.open.length > 0 && MANAGERS.includes(viewer.role)))
  const values = { outcome: '', value: '', power: '', load: '', note: '', ...lastTyped(checked, key), ...typed }
  return {
    trail: [{ name: nameOf(checked), href: page }, { name: 'Final check', href: `${page}/final-check` }, { name: point.title }],
    title: point.title, group: point.group, how: point.how, why: point.why, words: point.open.length > 0 && !point.isSettled ? `${point.open.length} open` : point.words,
    limit: limitInWords(point, viewer.units), limitSource: point.limit?.source ?? '', open: point.open,
    cautions: cautionsAt(checked, key).map(({ signalWord, title, text }) => ({ signal: signalWord, title, text })),
    codes: key === 'fault-codes' ? toCodes(codes) : null,
    addCodeHref: build.stage === 'delivered' ? '' : `/fault-codes/new?${new URLSearchParams({ build: build.id, readAt: 'final check', readOn: viewer.today }).toString()}`,
    given: answers.filter((answer) => answer.point === key).toReversed().map((answer) => ({
      outcome: answer.outcome, note: [answer.note, answer.letPass.join('; ')].filter((text) => text !== '').join(': '), by: byOf(answer, timeZone),
      found: [answer.entered.value, answer.entered.limit && `limit: ${answer.entered.limit}`].filter(Boolean).join(', '),
    })),
    target: point.measures === 'gain' ? targetOf(values) : null,
    form: !mayChange ? null : {
      action: `${page}/check-results`, key: randomUUID(), point: key, values, problems, isGain: point.measures === 'gain', cancelHref: `${page}/final-check`,
      measures: point.measures === null ? null : { unit: unitOf(point.measures, viewer.units) },
      outcomes: point.isOfRecords ? ['let pass'] : OUTCOMES.filter((outcome) => outcome !== 'let pass' || MANAGERS.includes(viewer.role)),
    },
  }
}

// Power and load stay from answer to answer; the load of the catalog is where one begins.
function lastTyped({ points, stored: { build } }: Checked, key: string): { power?: string, load?: string } {
  const point = points.find((one) => one.key === key)
  if (point?.measures !== 'gain') return {}
  const { power, load } = point.answer?.entered ?? {}
  const smallest = build.lines.find(({ id }) => id === point.lineId)?.item?.resistance ?? null
  return { ...(power === undefined ? {} : { power }), load: load ?? (smallest === null ? '' : formatQuantity(smallest, 'resistance', 'metric')) }
}

function targetOf({ power, load }: PointForm['values']): Working | null {
  try {
    const [mw, mohm] = [readMeasured('power', 'Power', power, 'power', 'W').value, readMeasured('load', 'Load', load, 'resistance', 'Ω').value]
    return mw === null || mohm === null ? null : gainWorking(mw, mohm)
  } catch (error) {
    // What cannot be read gets its message beside the field when the answer is saved.
    if (error instanceof Refusal || error instanceof FieldProblems) return null
    throw error
  }
}

function toCodes(codes: NonNullable<PointAsked['codes']>): NonNullable<PointData['codes']> {
  const fresh = newCodes(codes)
  const nameOfCode = ({ code, unit }: { code: string, unit: string }): string => (unit === '' ? code : `${code} (${unit})`)
  return codes.filter(({ readAt }) => readAt === 'intake' || readAt === 'final check').map((one) => ({
    code: nameOfCode(one), words: one.words, isNew: one.readAt === 'final check' && one.clearedOn === null && fresh.includes(nameOfCode(one)),
    when: `${one.readAt}, ${writeDay(one.readOn)}${one.clearedOn === null ? '' : `; cleared ${writeDay(one.clearedOn)}`}`,
  }))
}
