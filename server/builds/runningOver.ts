import type { Costing } from '../calc/costing/costing.ts'
import { findRunningOver } from '../calc/costing/runningOver.ts'
import type { OperationCosting } from '../calc/costing/costRows.ts'
import { writeHours } from '../../web/shared/amount.ts'

type Judged = Parameters<typeof findRunningOver>[0]

/** Hours as they are said: short times with two decimals, so that none reads as nothing. */
const inHours = (seconds: number): string => `${writeHours(seconds, seconds < 360 ? 2 : 1)} h`

/** Two different times never read alike. */
function apart(one: number, other: number): [string, string] {
  const [first, second] = [inHours(one), inHours(other)]
  return first === second ? [`${writeHours(one, 2)} h`, `${writeHours(other, 2)} h`] : [first, second]
}

/** That an operation runs over, or will unless somebody looks, in words; empty where all is well. */
export function runningOverInWords(judged: Judged): string {
  const { forecastS, estimatedS } = judged.figures
  const found = findRunningOver(judged)
  if (found === null) return ''
  const [comes, estimated] = apart(forecastS, estimatedS)
  if (found.state === 'over') return `over by ${inHours(found.overS)}: comes to ${comes}, estimated ${estimated}`
  const remaining = found.leftS === 0 ? `the estimate of ${inHours(estimatedS)} is used up` : `${inHours(found.leftS)} remaining of ${inHours(estimatedS)}`
  return `${remaining}, and nobody has said more`
}

/** Operations of a build that run over, in their order. */
export function listRunningOver({ operations }: Pick<Costing, 'operations'>): { readonly costing: OperationCosting, readonly words: string }[] {
  return operations.map((costing) => ({ costing, words: runningOverInWords(costing) })).filter(({ words }) => words !== '')
}
