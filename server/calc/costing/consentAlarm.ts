import type { Working } from '../amounts.ts'
import { scaleHalfAway } from '../rounding.ts'

export type ConsentState = 'inside' | 'near' | 'forecast over' | 'over'

export interface ConsentInput {
  /** What the customer has agreed to in writing. */
  readonly limitMinor: number
  /** How far the forecast may pass it without asking, in thousandths of it; 0 unless the shop says otherwise. */
  readonly allowedThousandths?: number
  /** Charged by now if all stopped here. */
  readonly reachedMinor: number
  readonly forecastMinor: number
  /** What the forecast is summed from, to be shown with it. */
  readonly forecast?: Working
  /** Accepted on papers that hold what the forecast began with: near only once it has grown, or so much is charged. */
  readonly isOnPaper?: boolean
  /** From this share of the limit on the forecast is near it. */
  readonly nearThousandths?: number
}

export interface ConsentAlarm {
  readonly state: ConsentState
  readonly words: string
  /** What is agreed, with what is allowed on top, less the forecast; below zero when that is over. */
  readonly leftMinor: number
  readonly working: Working
}

export const NEAR_THOUSANDTHS = 900
const WHOLE = 1_000

const WORDS: Readonly<Record<ConsentState, string>> = {
  inside: 'Inside what the customer has agreed to.',
  near: 'Near the limit of what the customer has agreed to. Ask before it is exceeded.',
  'forecast over': 'The forecast is over what the customer has agreed to. Ask for consent in writing before going on.',
  over: 'Over what the customer has agreed to. Stop and ask for consent in writing; local law decides what may be charged.',
}

/**
 * Warns before the agreed limit is reached, from the forecast, not from what is already charged.
 * Exactly at the limit is not over it. Minor units.
 *
 * Source: common practice, no source; local law decides.
 * @example consentAlarm({ limitMinor: 1000, reachedMinor: 200, forecastMinor: 950 }).state // 'near'
 */
export function consentAlarm(input: ConsentInput): ConsentAlarm {
  const { limitMinor, allowedThousandths = 0, reachedMinor, forecastMinor, forecast, isOnPaper = false, nearThousandths = NEAR_THOUSANDTHS } = input
  const reachesMinor = scaleHalfAway(limitMinor, WHOLE + allowedThousandths, WHOLE)
  const isNear = (amount: number): boolean => BigInt(amount) * 1000n >= BigInt(reachesMinor) * BigInt(nearThousandths)
  const state = reachedMinor > reachesMinor ? 'over'
    : forecastMinor > reachesMinor ? 'forecast over'
      : (isOnPaper ? forecastMinor > limitMinor || isNear(reachedMinor) : isNear(forecastMinor)) ? 'near' : 'inside'
  return {
    state, words: WORDS[state], leftMinor: reachesMinor - forecastMinor,
    working: {
      title: 'Left of what the customer has agreed to',
      inputs: [
        { label: 'Agreed', source: 'consent', amount: { kind: 'money', value: limitMinor } },
        ...(allowedThousandths === 0 ? [] : [{ label: 'Allowed on top without asking', source: 'settings of the shop', amount: { kind: 'share' as const, value: allowedThousandths } }]),
        ...forecast?.inputs ?? [],
        { label: 'Forecast', source: forecast ? 'sum of the lines above' : 'costing', amount: { kind: 'money', value: forecastMinor } },
        { label: 'Charged by now if all stopped', source: 'costing', amount: { kind: 'money', value: reachedMinor } },
        { label: 'Near from', source: 'share of what is agreed', amount: { kind: 'share', value: nearThousandths } },
      ],
      result: { kind: 'money', value: reachesMinor - forecastMinor },
      formula: allowedThousandths === 0 ? 'agreed − forecast' : 'agreed × (1 + allowed on top) − forecast',
      assumed: [forecast?.assumed ?? '', isOnPaper ? 'What was accepted is what the forecast began with: it is near once it has grown, or once that share is charged.' : '', 'Equipment and material count in full from the start. Local law decides when consent is needed.'].filter((words) => words !== '').join(' '),
      source: 'common practice, no source',
    },
  }
}
