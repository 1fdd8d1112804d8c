import { randomUUID } from 'node:crypto'
import type { CheckData, PointRow } from '../../web/checks/checkData.ts'
import { kindInWords } from '../../web/shared/buildKinds.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { CHECK_GROUPS } from '../calc/checks/checkPoints.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { arrivalsOf } from './arrivals.ts'
import { type Checked, type StoredAnswer } from './checked.ts'
import { cautionsOf, nameOf } from './shown.ts'
import { label } from '../shared/records/kind.ts'

export interface CheckAsked {
  readonly saved?: string | undefined
  readonly celsius?: string | undefined
  readonly problems?: readonly FieldProblem[]
}

/** The final check as its page shows it. */
export function checkData(checked: Checked, viewer: Viewer, { saved, celsius, problems = [] }: CheckAsked): CheckData {
  const { stored: { build, timeZone }, points, unsettled, signedAt } = checked
  const page = `/builds/${build.id}`
  const isDelivered = build.stage === 'delivered'
  const { finalCheck, vehicle: { make, model, year } } = build
  const next = unsettled.find(({ isOfRecords }) => !isOfRecords)
  return {
    trail: [{ name: nameOf(checked), href: page }, { name: 'Final check' }], number: label('B', build.number), title: build.title, kind: kindInWords(build.kind),
    vehicle: [make, model, year].filter(Boolean).join(' '), settled: `${points.length - unsettled.length} of ${points.length} settled`,
    cautions: cautionsOf(checked).map(({ signalWord, title, text }) => ({ signal: signalWord, title, text })),
    groups: CHECK_GROUPS.flatMap((name) => {
      const own = points.filter(({ group }) => group === name)
      return own.length === 0 ? [] : [{ name, open: own.filter(({ isSettled }) => !isSettled).length, rows: own.map((point) => toRow(point, page, timeZone)) }]
    }),
    answer: isDelivered ? null : { action: `${page}/check-results`, key: randomUUID() },
    arrivals: arrivalsOf(checked, viewer.units, celsius, `${page}/final-check`),
    signed: finalCheck && signedAt ? { name: finalCheck.signedName, when: momentIn(timeZone, signedAt), path: finalCheck.signature } : null,
    sign: isDelivered || signedAt ? null : { action: `${page}/check-signatures`, key: randomUUID(), version: finalCheck?.version ?? 0, missing: unsettled.map(({ title }) => title) },
    links: [{ name: 'Delivery', href: `${page}/delivery` }, { name: 'Intake', href: `${page}/intake` }, { name: 'Return to stock', href: `${page}/return-to-stock` }],
    saved: saved === undefined ? null : { what: saved === 'signature' ? 'the signature' : 'the answer', next: next && saved !== 'signature' ? { href: `${page}/final-check/${next.key}`, name: `Next: ${next.title}` } : null },
    problems,
  }
}

function toRow({ key, title, why, isSettled, isOfRecords, measures, words, answer, open }: Checked['points'][number], page: string, timeZone: string): PointRow {
  return {
    key, title, why, isSettled, words: open.length > 0 && !isSettled ? `${open.length} open` : words, href: `${page}/final-check/${key}`,
    found: open.length === 0 ? answer?.entered.value ?? '' : [...open.slice(0, 3), ...(open.length > 3 ? [`and ${open.length - 3} more`] : [])].join('; '), note: answer?.note ?? '', by: answer === null ? '' : byOf(answer, timeZone),
    isTickable: !isSettled && !isOfRecords && measures === null && open.length === 0 && key !== 'presets',
  }
}

export const byOf = ({ personName, at }: StoredAnswer, timeZone: string): string => `${personName}, ${momentIn(timeZone, at)}`
export const momentIn = (timeZone: string, at: Date): string => `${writeDay(calendarDateIn(timeZone, at))} ${clockTimeIn(timeZone, at)}`
