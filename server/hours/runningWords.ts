import type { Working } from '../calc/amounts.ts'
import { findRunningOver } from '../calc/costing/runningOver.ts'
import { writeHours } from '../../web/shared/amount.ts'
import type { RunningWork } from '../../web/now/now.tsx'
import type { BenchFigures } from './benchFigures.ts'
import type { BenchOperation } from './nowStore.ts'

/** Hours as they are said: short times with two decimals, so that none reads as nothing. */
const inHours = (seconds: number): string => `${writeHours(seconds, seconds < 360 ? 2 : 1)} h`

/** What is left of the estimate while the timer runs, and whether somebody has to say what is still to do. Nothing where no figures can be made. */
export function stillToDo({ state, remaining }: BenchOperation, figures: BenchFigures | undefined, elapsedS: number): Pick<RunningWork, 'leftWords' | 'asksLeft'> {
  if (figures === undefined || figures.refusal !== '') return { leftWords: '', asksLeft: false }
  const { estimateS } = figures
  // A figure of one's own was said at some time before: what has run since is not added to it.
  const loggedS = remaining === null ? figures.loggedS + elapsedS : figures.loggedS
  const leftS = remaining ?? Math.max(estimateS - loggedS, 0)
  const over = findRunningOver({
    operation: { state }, remainingSource: remaining === null ? 'estimate less logged' : 'technician',
    figures: { estimatedS: estimateS, loggedS, forecastS: loggedS + leftS },
  })
  const byEstimate = leftS === 0 ? `the estimate of ${inHours(estimateS)} is used up` : `${inHours(leftS)} remaining of ${inHours(estimateS)}`
  const words = remaining === null ? byEstimate : `${inHours(leftS)} remaining, by the figure that was said`
  if (over === null) return { leftWords: words, asksLeft: false }
  const overWords = over.state === 'over' ? `over by ${inHours(over.overS)}` : ''
  if (remaining !== null) return { leftWords: `${words}: ${overWords}`, asksLeft: false }
  return { leftWords: `${overWords === '' ? words : overWords}: say what is still to do`, asksLeft: true }
}

/** How the two hours of the running operation come about; nothing where no figures can be made. */
export function runningWorkings(figures: BenchFigures | undefined, elapsedS: number, since: string): RunningWork['workings'] {
  if (!figures?.estimate) return undefined
  const time = (label: string, source: string, value: number): Working['inputs'][number] => ({ label, source, amount: { kind: 'time', value } })
  return {
    estimate: figures.estimate,
    logged: {
      title: 'Person-hours on this operation', inputs: [time('Logged by everybody', 'time entries', figures.loggedS), time('Running now', `since ${since}`, elapsedS)],
      result: { kind: 'time', value: figures.loggedS + elapsedS }, formula: 'work + rework, logged and running',
      assumed: 'Of a corrected entry the correction counts. Waiting is not in it.', source: 'common practice, no source',
    },
  }
}
