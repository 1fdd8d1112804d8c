import { randomUUID } from 'node:crypto'
import type { BuildHistoryData, BuildHistoryRow } from '../../web/history/buildHistory.tsx'
import { writeHours } from '../../web/shared/amount.ts'
import { writeDay } from '../../web/shared/day.ts'
import { counted } from '../../web/shared/text.ts'
import { groupBy } from '../calc/grouping.ts'
import type { LearnedRatio } from '../calc/estimate/hourHistory.ts'
import { formatQuantity } from '../calc/figures.ts'
import { scaleHalfAway } from '../calc/rounding.ts'
import { figuresOf } from '../builds/figures.ts'
import { loadBuild, type StoredBuild } from '../builds/store.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import type { Workings } from '../shared/workings.ts'
import { listCorrections, type StoredCorrection } from './correctionStore.ts'
import { loadLearned } from './learned.ts'
import { learnedWorkings } from './learnedWorkings.ts'
import { ratioText, worthOf } from './words.ts'

/** One kind of operation in one department of a build, what the shop's hours say of it, and what was accepted. */
export interface Offered {
  readonly key: string
  readonly kind: string
  readonly departmentId: string
  readonly department: string
  /** Operations of the build that it would change, and how many of them are still open. */
  readonly operations: number
  readonly open: number
  /** Person-seconds without rework, as typed. */
  readonly plainS: number
  readonly learned: LearnedRatio | null
  readonly accepted: StoredCorrection | null
}

export interface BuildHistory {
  readonly stored: StoredBuild
  readonly offered: readonly Offered[]
  readonly shop: LearnedRatio | null
}

export async function loadBuildHistory(reads: Reads, id: string): Promise<BuildHistory> {
  const stored = await loadBuild(reads, id)
  const { history } = await loadLearned(reads)
  const corrections = await listCorrections(reads, id)
  const departments = new Map(stored.departments.map(({ id: departmentId, name }) => [departmentId, name]))
  const groups = groupBy(figuresOf(stored).costing.operations, ({ operation }) => `${operation.departmentId} ${operation.kind}`)
  const offered = [...groups.values()].flatMap((own) => own.slice(0, 1).map(({ operation: { kind, departmentId } }) => ({
    kind, departmentId, department: departments.get(departmentId) ?? '', operations: own.length, open: own.filter(({ operation }) => operation.state !== 'done').length,
    plainS: own.reduce((sum, { plainS }) => sum + plainS, 0), learned: history.of(kind, departmentId),
    accepted: corrections.find((each) => each.kind === kind && each.departmentId === departmentId) ?? null,
  })))
  return {
    stored, shop: history.shop,
    offered: offered.filter(({ open, accepted }) => open > 0 || accepted !== null)
      .sort((one, other) => one.department.localeCompare(other.department, 'en') || one.kind.localeCompare(other.kind, 'en')).map((each, index) => ({ ...each, key: `k${index}` })),
  }
}

export function toBuildHistoryPage({ stored: { head, shop, people }, offered }: BuildHistory): BuildHistoryData {
  const isSettled = head.stage === 'delivered'
  const names = new Map(people.map(({ id, name }) => [id, name]))
  return {
    build: `${label('B', head.number)} ${head.title}`, buildHref: `/builds/${head.id}`, isSettled,
    rows: offered.map((each) => toRow(each, head.id, isSettled)),
    accepted: offered.flatMap(({ kind, department, accepted }) => (accepted === null ? [] : [
      `${kind}, ${department}: ${ratioText(accepted.ratio)} × from ${counted(accepted.records, 'record', 'records')}, accepted by ${names.get(accepted.acceptedById) ?? 'somebody who has left'} on ${writeDay(calendarDateIn(shop?.timeZone ?? 'UTC', accepted.createdAt))}.`,
    ])),
  }
}

function toRow({ key, kind, department, departmentId, operations, open, plainS, learned, accepted }: Offered, buildId: string, isSettled: boolean): BuildHistoryRow {
  const isNew = learned !== null && (accepted === null || accepted.ratio !== learned.ratio)
  return {
    key, kind, department, of: `${counted(operations, 'operation', 'operations')} here, ${open} open; ${writeHours(plainS)} h as typed${learned === null || learned.records === 0 ? '' : `, ${writeHours(scaleHalfAway(plainS, learned.ratio, 1000))} h at ${ratioText(learned.ratio)} ×`}`,
    learned: learned === null ? null : {
      ratio: `${ratioText(learned.ratio)} ×`, records: String(learned.records), low: ratioText(learned.low), high: ratioText(learned.high), worth: worthOf(learned.records),
      rework: formatQuantity(learned.reworkShare, 'share', 'metric'),
    },
    accepted: accepted === null ? '' : `× ${ratioText(accepted.ratio)} from ${counted(accepted.records, 'record', 'records')}`,
    accept: isNew && !isSettled && learned.records > 0 ? {
      name: `Accept ${ratioText(learned.ratio)} ×`,
      post: { action: `/builds/${buildId}/hour-corrections`, idempotencyKey: randomUUID(), values: [['kind', kind], ['departmentId', departmentId], ['ratio', String(learned.ratio)]] },
    } : undefined,
    takeBack: accepted !== null && !isSettled ? { action: `/builds/${buildId}/hour-corrections/${accepted.id}/taken-back`, idempotencyKey: randomUUID() } : undefined,
  }
}

export function buildHistoryWorkings({ offered, shop }: BuildHistory): Workings {
  return new Map(offered.flatMap(({ key, kind, department, learned }) => (learned === null ? [] : learnedWorkings(key, `${kind}, ${department}`, learned, shop))))
}
