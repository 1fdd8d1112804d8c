import type { Working } from '../calc/amounts.ts'
import type { Slack } from '../calc/schedule/slack.ts'
import type { Workings } from '../shared/workings.ts'
import type { BuildOnPage } from './barsData.ts'
import { momentWords } from '../schedule/planWords.ts'

/** What the figures of the page open: s12 is the slack of row 12 to the end of the build, p12 that to the promise. */
export function barsWorkings(found: BuildOnPage): Workings {
  const { numbered, plan } = found
  return new Map(numbered.flatMap(({ number, work }) => ([['s', plan.toEnd, 'the end of the build'], ['p', plan.toPromise, 'the promise']] as const).flatMap(([letter, slacks, to]): [string, Working][] => {
    const slack = slacks.get(work.operationId)
    return slack === undefined ? [] : [[`${letter}${number}`, toWorking(`${number} ${work.name}: slack to ${to}`, Date.parse(work.endsAt), slack, found)]]
  })))
}

function toWorking(title: string, endMs: number, { latestEndMs, slackMs }: Slack, { open, openDays: { timeZone }, inForce }: BuildOnPage): Working {
  const from = Math.max(open.before(Date.parse(inForce.content.fromAt)), 0)
  const hours = (ms: number): Working['result'] => ({ kind: 'time', value: Math.round((open.before(ms) - from) / 1000) })
  return {
    title,
    inputs: [
      { label: `Latest end, ${momentWords(timeZone, latestEndMs)}`, source: 'worked back from the end over all that comes after it', amount: hours(latestEndMs) },
      { label: `Planned end, ${momentWords(timeZone, endMs)}`, source: 'plan in force', amount: hours(endMs) },
    ],
    result: { kind: 'time', value: Math.round(slackMs / 1000) },
    formula: 'hours the shop is open until the latest end − hours it is open until the planned end, both from the beginning of the plan',
    assumed: 'What comes after it keeps its hours, people, bay and order, and cures as long. Slack is shared along a chain: what one operation uses up is gone for those after it. Planners’ textbooks call it float.',
    source: 'backward pass of the critical path method, on the plan with its people, machines and bays',
  }
}
