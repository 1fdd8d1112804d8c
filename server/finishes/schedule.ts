import { findHolds, findUnfinished, heldKinds } from '../calc/finishHold.ts'
import { groupBy } from '../calc/grouping.ts'
import type { FinishRow, ScheduleData, SchedulePart } from '../../web/finishes/schedule.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { addHref } from '../builds/links.ts'
import type { StoredBuild } from '../builds/store.ts'
import { label } from '../shared/records/kind.ts'
import type { StoredFinish } from './store.ts'

type Part = StoredBuild['parts'][number]
type Operations = StoredBuild['operations']

/** The finish schedule of a build as a sheet, part by part. */
export function toSchedule(stored: StoredBuild, finishes: readonly StoredFinish[], viewer: Viewer): ScheduleData {
  const operations = stored.operations.filter(({ removedAt }) => removedAt === null)
  const used = finishes.filter(({ partId }) => stored.parts.some(({ id }) => id === partId))
  const holds = findHolds(operations, used)
  const without = new Set(findUnfinished(operations, used))
  const byPart = groupBy(used, ({ partId }) => partId)
  const add = (partId: string): string | undefined => addHref(viewer.role, 'finish', stored.head.id, { partId })
  return {
    titleBlock: titleBlockOf(stored, viewer),
    parts: stored.parts.flatMap((part) => toPart(stored, part, byPart.get(part.id) ?? [], operations)),
    without: stored.parts.filter(({ id }) => without.has(id)).map((part) => ({
      name: nameOf(part), href: `/parts/${part.id}`, addHref: add(part.id), operations: openFinishing(operations, part.id),
    })),
    waiting: used.filter(({ sampleState }) => sampleState !== 'approved').length, stopped: holds.size,
    addHref: addHref(viewer.role, 'finish', stored.head.id),
    backHref: `/builds/${stored.head.id}`,
  }
}

const nameOf = ({ number, name }: Part): string => `${label('P', number)} ${name}`

function openFinishing(operations: Operations, partId: string): string {
  return operations.filter((operation) => operation.partId === partId && operation.state !== 'done' && heldKinds('other', [operation.kind]).length > 0)
    .map(({ number, kind }) => `${number} ${kind}`).join(', ')
}

function toPart({ zones }: StoredBuild, part: Part, finishes: readonly StoredFinish[], operations: Operations): SchedulePart[] {
  if (finishes.length === 0) return []
  const zone = zones.find(({ id }) => id === part.zoneId)
  return [{
    name: nameOf(part), href: `/parts/${part.id}`, zone: zone ? `zone ${zone.number} ${zone.name}` : '',
    finishes: finishes.map((finish) => toRow(finish, operations.filter(({ partId }) => partId === part.id))),
  }]
}

function toRow(finish: StoredFinish, own: Operations): FinishRow {
  const held = heldKinds(finish.kind, own.map(({ kind }) => kind))
  const laid = own.filter(({ kind }) => held.includes(kind))
  const isApproved = finish.sampleState === 'approved'
  return {
    number: label('S', finish.number), href: `/finishes/${finish.id}`, kind: finish.kind, material: finish.material,
    color: finish.color, code: finish.code, grain: finish.grain, thread: finish.thread, supplier: finish.supplier, batch: finish.batch,
    sample: finish.sampleState, decided: decidedWords(finish), note: finish.note,
    laidOnBy: laid.map(({ number, kind, state }) => `${number} ${kind}, ${state}`).join('; '),
    holds: isApproved ? '' : laid.filter(({ state }) => state !== 'done').map(({ number, kind }) => `${number} ${kind}`).join(', '),
  }
}

function decidedWords({ approvedBy, approvedOn, refusal }: StoredFinish): string {
  return [approvedBy, approvedOn === null ? '' : writeDay(approvedOn), refusal].filter((word) => word !== '').join(', ')
}

function titleBlockOf({ head, shop }: StoredBuild, viewer: Viewer): ScheduleData['titleBlock'] {
  const number = label('B', head.number)
  return {
    owner: viewer.shopName, ownerMore: shop?.address.replaceAll('\n', ', ') ?? '',
    title: 'Finish schedule', subtitle: `${head.title}, ${head.vehicle.make} ${head.vehicle.model}`,
    documentType: 'Schedule', number: number.replace('B', 'S'), revision: '–', dateOfIssue: viewer.today, language: 'en',
    createdBy: viewer.name, approvedBy: '', build: number, replaces: '',
  }
}
