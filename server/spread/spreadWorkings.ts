import type { AmountKind, Working, WorkingInput } from '../calc/amounts.ts'
import { sumOf } from '../calc/grouping.ts'
import { roundHalfAway } from '../calc/rounding.ts'
import { CASES } from '../calc/estimate/spread.ts'
import type { UnsureOperation } from '../calc/estimate/unsureLabor.ts'
import type { Workings } from '../shared/workings.ts'
import type { Sized, Spreads } from './spreads.ts'

export const CHANCES = [['50', 'even chance', 0.5], ['80', '80 in 100', 0.8], ['90', '90 in 100', 0.9]] as const

/** What the figures of the page open: h80 are the hours with rework that 80 in 100 cases stay below, w of those without, p the price. */
export function spreadWorkings({ withRework, withoutRework, price, togetherThousandths }: Spreads, showsMoney: boolean): Workings {
  const sides = [
    ['h', 'Person-hours with rework', 'time', withRework], ['w', 'Person-hours without rework', 'time', withoutRework],
    ...(showsMoney ? [['p', 'Price', 'money', price] as const] : []),
  ] as const
  return new Map([...sides.flatMap(([letter, title, kind, sized]) => CHANCES.map(([key, words, share]): [string, Working] =>
    [`${letter}${key}`, workingOf(`${title}, ${words}`, kind, sized, { share, togetherThousandths })])), ...sharesOf(withRework)])
}

interface Asked {
  readonly share: number
  readonly togetherThousandths: number
}

// A working says where a figure comes from; hundreds of operations would hide that.
const MOST_TOLD = 40

function workingOf(title: string, kind: AmountKind, { labor, spread }: Sized, { share, togetherThousandths }: Asked): Working {
  const byShare = labor.unsure.toSorted((one, other) => other.shareThousandths - one.shareThousandths)
  const [told, rest] = [byShare.slice(0, MOST_TOLD), byShare.slice(MOST_TOLD)]
  return {
    title,
    inputs: [
      { label: 'What nobody is unsure of', source: 'estimate', amount: { kind, value: roundHalfAway(labor.sure) } },
      ...told.flatMap((one) => inputsOf(one, kind)),
      ...(rest.length === 0 ? [] : [{ label: `${rest.length} more with a smaller share, even chance of each`, source: 'as those above', amount: { kind, value: roundHalfAway(sumOf(rest, ({ quantile }) => quantile(0.5))) } } as const]),
    ],
    result: { kind, value: spread.percentile(share) },
    formula: `the value that ${share * 100} in 100 of ${CASES.toLocaleString('en-US')} evenly drawn cases stay below; in each case every operation lies between its best and its worst by beta-PERT, or as closed operations of its kind did (P${share * 100})`,
    assumed: `Any two operations go wrong together in ${togetherThousandths / 10} of 100. What has neither three values nor closed operations of its kind is taken as estimated. Percentiles of a sum are not the sum of percentiles.`,
    source: 'beta-PERT; the sum by drawing cases with a common factor, common practice, no source',
  }
}

function inputsOf({ label, three, records, quantile }: UnsureOperation, kind: AmountKind): WorkingInput[] {
  const amount = (value: number): WorkingInput['amount'] => ({ kind, value: roundHalfAway(value) })
  if (three === null) {
    const source = `${records} closed operations`
    return [{ label: `${label}, even chance`, source, amount: amount(quantile(0.5)) }, { label: `${label}, 90 in 100`, source, amount: amount(quantile(0.9)) }]
  }
  return [
    { label: `${label}, at best`, source: 'three values, all pieces and people', amount: amount(three.bestS) },
    { label: `${label}, most likely`, source: 'three values', amount: amount(three.likelyS) },
    { label: `${label}, at worst`, source: 'three values', amount: amount(three.worstS) },
  ]
}

function sharesOf({ labor: { unsure } }: Sized): [string, Working][] {
  const deviation = (variance: number): Working['result'] => ({ kind: 'time', value: roundHalfAway(Math.sqrt(variance)) })
  const all = sumOf(unsure, ({ variance }) => variance)
  return unsure.map(({ operationId, label, three, variance, shareThousandths }) => [`s${operationId}`, {
    title: `${label}: share of the spread`,
    inputs: [
      { label: 'Its standard deviation', source: `${three === null ? 'closed operations' : 'beta-PERT'}, all pieces and people`, amount: deviation(variance) },
      { label: 'That of all together', source: 'as if nothing went wrong together', amount: deviation(all) },
    ],
    result: { kind: 'share', value: shareThousandths }, formula: '(its deviation ÷ that of all)²', assumed: '', source: 'variance of the beta distribution, or of closed operations; the share common practice, no source',
  }])
}
