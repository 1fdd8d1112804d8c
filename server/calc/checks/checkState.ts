import { isInside } from './checkLimits.ts'
import type { CheckPoint } from './checkPoints.ts'

export const OUTCOMES = ['right', 'not right', 'does not apply', 'let pass'] as const
export type Outcome = typeof OUTCOMES[number]

/** What somebody found at a point. */
export interface CheckAnswer {
  readonly outcome: Outcome
  /** mV, mA or µm, by the point. */
  readonly value: number | null
  readonly note: string
  /** What stood open in the records when it was let pass. */
  readonly letPass: readonly string[]
}

export interface CheckedPoint<Answer extends CheckAnswer> extends CheckPoint {
  readonly answer: Answer | null
  /** What the records show as open at this point. */
  readonly open: readonly string[]
  readonly isSettled: boolean
  /** As "not answered yet" or "2 open"; what stands in the way, or the outcome. */
  readonly words: string
}

/** Each point with its newest answer. `answers` are in the order they were given; `openOf` is what the records show, by key. */
export function settlePoints<Answer extends CheckAnswer>(
  points: readonly CheckPoint[], answers: readonly (Answer & { readonly point: string })[], openOf: Readonly<Record<string, readonly string[]>>,
): CheckedPoint<Answer>[] {
  const newest = new Map(answers.map((answer) => [answer.point, answer]))
  return points.map((point) => {
    const answer = newest.get(point.key) ?? null
    const open = openOf[point.key] ?? []
    return { ...point, answer, open, ...standing(point, answer, open) }
  })
}

function standing({ isOfRecords }: CheckPoint, answer: CheckAnswer | null, open: readonly string[]): Pick<CheckedPoint<CheckAnswer>, 'isSettled' | 'words'> {
  const isLetPass = answer?.outcome === 'let pass' && open.every((item) => answer.letPass.includes(item))
  if (open.length > 0) return isLetPass ? { isSettled: true, words: 'let pass' } : { isSettled: false, words: open.join('; ') }
  if (isOfRecords) return { isSettled: true, words: 'right by the records' }
  if (answer === null) return { isSettled: false, words: 'not answered yet' }
  return { isSettled: answer.outcome !== 'not right', words: answer.outcome }
}

/** An answer as somebody wants to give it. */
export type GivenAnswer = Omit<CheckAnswer, 'letPass'> & { readonly mayLetPass: boolean }

export interface AnswerProblem {
  readonly field: 'outcome' | 'value' | 'note'
  readonly message: string
}

/** Why an answer cannot stand at a point, or null. `open` is what the records show there; `limitWords` writes the limit. */
export function refuseAnswer(point: CheckPoint, { outcome, value, note, mayLetPass }: GivenAnswer, open: readonly string[], limitWords: string): AnswerProblem | null {
  if (outcome === 'let pass' && !mayLetPass) return { field: 'outcome', message: 'Only a manager lets a point pass. Say “not right” and what is wrong, and fetch one.' }
  if (point.isOfRecords && outcome !== 'let pass') return { field: 'outcome', message: 'This point is settled by the records. Settle what is open there; a manager may let it pass.' }
  if (outcome !== 'right' && note === '') return { field: 'note', message: NEEDED[outcome] }
  if (outcome !== 'right') return null
  if (open.length > 0) return { field: 'outcome', message: `The records say otherwise: ${open.join('; ')}. Settle that there, or a manager lets it pass.` }
  if (point.key === 'presets' && note === '') return { field: 'note', message: 'Note what was set, or where the file of the presets is kept.' }
  if (point.measures === null) return null
  if (value === null) return { field: 'value', message: 'Enter what was measured, with its unit.' }
  if (point.limit !== null && !isInside(value, point.limit)) return { field: 'value', message: `That is not ${limitWords}. Say “not right”, or a manager lets it pass and says why.` }
  return null
}

const NEEDED: Readonly<Record<Exclude<Outcome, 'right'>, string>> = {
  'not right': 'Say what is not right.', 'does not apply': 'Say why it does not apply.', 'let pass': 'Say why it is let pass.',
}

/** A fault code as it was read. */
export interface ReadCode {
  readonly code: string
  readonly unit: string
  readonly readAt: string
  readonly clearedOn: string | null
}

/**
 * Codes read at the final check that were not there at intake and are not cleared, each once.
 *
 * @example newCodes([{ code: 'U0100', unit: '', readAt: 'final check', clearedOn: null }]) // ['U0100']
 */
export function newCodes(codes: readonly ReadCode[]): string[] {
  const nameOf = ({ code, unit }: ReadCode): string => (unit === '' ? code : `${code} (${unit})`)
  const before = new Set(codes.filter(({ readAt }) => readAt === 'intake').map(nameOf))
  const now = codes.filter(({ readAt, clearedOn }) => readAt === 'final check' && clearedOn === null).map(nameOf)
  return [...new Set(now.filter((name) => !before.has(name)))]
}
