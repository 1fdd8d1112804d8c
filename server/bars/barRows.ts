import type { BarRow, BuildPlan } from '../../web/schedule/barsData.ts'
import { writeHours } from '../../web/shared/amount.ts'
import type { OpenTime } from '../calc/schedule/openTime.ts'
import type { Slack } from '../calc/schedule/slack.ts'
import { groupBy } from '../calc/grouping.ts'
import type { PlanContent, PlannedWork } from '../schedule/planContent.ts'
import type { Barred } from './barsStore.ts'
import type { BuildInPlan } from './buildInPlan.ts'
import { spanWords } from '../schedule/planWords.ts'

export interface NumberedWork {
  readonly number: number
  readonly work: PlannedWork
}

export interface WorkGroup {
  readonly zone: string
  readonly rows: readonly NumberedWork[]
}

/** Zone by zone as on the vehicle, thing by thing as they are begun, numbered through. */
export function groupWork(work: readonly PlannedWork[], { operations }: Barred): WorkGroup[] {
  const zoneOf = ({ operationId }: PlannedWork) => operations.get(operationId)?.zone ?? null
  const itemOf = ({ name }: PlannedWork): string => name.split(', Op ')[0] ?? name
  const byZone = [...groupBy(work, (one) => zoneOf(one)?.number ?? 0)].toSorted(([one], [other]) => one - other)
  let number = 0
  return byZone.map(([place, own]) => ({
    zone: place === 0 ? 'No zone' : `Zone ${place} · ${zoneOf(own[0]!)!.name}`,
    rows: [...groupBy(own, itemOf).values()].flat().map((one) => ({ number: number += 1, work: one })),
  }))
}

interface Around {
  readonly content: PlanContent
  readonly plan: BuildInPlan
  readonly barred: Barred
  readonly open: OpenTime
  readonly timeZone: string
  readonly numbers: ReadonlyMap<string, number>
  readonly machines: readonly { readonly id: string, readonly name: string }[]
}

const ms = (instant: string): number => Date.parse(instant)

export function toGroups(groups: readonly WorkGroup[], around: Around): BuildPlan['groups'] {
  return groups.map(({ zone, rows }) => ({ zone, rows: rows.map((row) => toRow(row, around)) }))
}

function toRow({ number, work }: NumberedWork, around: Around): BarRow {
  const { plan, barred, timeZone } = around
  const logged = barred.loggedS.get(work.operationId) ?? 0
  return {
    number, name: work.name, href: `/operations/${work.operationId}`, isOnChain: plan.chain.has(work.operationId),
    when: spanWords(timeZone, ms(work.startsAt), ms(work.endsAt)), who: whoWords(work, around), after: afterWords(work, around),
    slack: slackCell(plan.toEnd.get(work.operationId), `s${number}`), toPromise: slackCell(plan.toPromise.get(work.operationId), `p${number}`),
    logged: [barred.operations.get(work.operationId)?.state === 'done' ? 'done' : '', logged === 0 ? '' : `${writeHours(logged)} h`].filter((words) => words !== '').join(', '),
  }
}

const slackCell = (slack: Slack | undefined, how: string): BarRow['slack'] => (slack === undefined ? null : { text: `${writeHours(Math.round(slack.slackMs / 1000))} h`, how })

function whoWords({ personIds, bayId, machineId, leavesAt = null, dueBackAt }: PlannedWork, { content: { people, bays }, machines, timeZone }: Around): string {
  const nameOf = (rows: readonly { readonly id: string, readonly name: string }[], id: string): string => rows.find((row) => row.id === id)?.name ?? 'what is gone'
  return [
    ...personIds.map((id) => nameOf(people, id)), ...(machineId === null ? [] : [nameOf(machines, machineId)]), ...(bayId === null ? [] : [nameOf(bays, bayId)]),
    ...(dueBackAt === null ? [] : [`outside${leavesAt === null ? '' : ` from ${spanWords(timeZone, ms(leavesAt), ms(leavesAt))}`}, back ${spanWords(timeZone, ms(dueBackAt), ms(dueBackAt))}`]),
  ].join(', ')
}

/** What must be finished first, and who or what only comes free then. */
function afterWords(work: PlannedWork, { content, plan, open, numbers, machines }: Around): string {
  const byId = new Map(content.work.map((one) => [one.operationId, one]))
  const first = work.after.flatMap(({ operationId }) => numbers.get(operationId) ?? []).toSorted((one, other) => one - other)
  const held = (plan.taking.get(work.operationId) ?? []).filter(({ before }) => open.before(ms(byId.get(before)!.endsAt)) === open.before(ms(work.startsAt)))
  const names = new Map([...content.people, ...content.bays, ...machines].map(({ id, name }) => [id, name]))
  const taken = [...groupBy(held, ({ takenId }) => takenId)].map(([id, links]) => {
    const last = byId.get(links.at(-1)!.before)!
    const number = numbers.get(last.operationId)
    const elsewhere = content.builds.find(({ buildId }) => buildId === last.buildId)?.name.split(' ')[0] ?? 'another build'
    return `${names.get(id) ?? 'what is gone'} from ${number ?? elsewhere}`
  })
  return [first.join(', '), ...taken].filter((words) => words !== '').join('; ')
}
