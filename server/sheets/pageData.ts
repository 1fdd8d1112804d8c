import { randomUUID } from 'node:crypto'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { SheetPageData, StoppedStep } from '../../web/sheets/sheetData.ts'
import { countDone, type Mark } from '../calc/restoration/sheetProgress.ts'
import { listDifferences } from '../calc/restoration/sheetDifferences.ts'
import { toRestoration } from '../restoration/result.ts'
import { loadVehicleState } from '../restoration/store.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { Problem } from '../shared/problems.ts'
import { BENCH } from '../shared/roles.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { hashesOf } from './paper.ts'
import { groupsOf, progressOf, type Group } from './progress.ts'
import { toShownStep } from './shownStep.ts'
import { getSheet, listMarks, listStanding, type StoredSheet } from './store.ts'

interface Wanted {
  /** Which part of the sheet, from 1; without it the first with something left to do. */
  readonly part?: number | undefined
  /** Or the part that this step stands in. */
  readonly step?: string | undefined
  readonly stopped?: StoppedStep
}

/** A frozen sheet as it is worked by. Throws a 404. */
export async function sheetPageData(reads: Reads, id: string, viewer: Viewer, { part, step: key, stopped }: Wanted = {}): Promise<SheetPageData> {
  const sheet = await getSheet(reads, id)
  const [marks, { timeZone }, differences] = await Promise.all([listMarks(reads, id), shopOf(reads), differencesOf(reads, sheet)])
  const { content } = sheet
  const progress = progressOf(content, marks)
  const groups = groupsOf(content.sheet.checklist)
  const holding = groups.findIndex(({ steps }) => steps.some(({ number }) => String(number) === key))
  const index = holding >= 0 ? holding : findPart(groups, progress.filter(({ isDone }) => isDone).map((own) => own.key), part)
  const here = groups[index] ?? { name: '', steps: [] }
  const standing = await listStanding(reads, sheet.buildId, hashesOf(sheet))
  const writeMoment = (at: number): string => `${writeDay(calendarDateIn(timeZone, new Date(at)))} ${clockTimeIn(timeZone, new Date(at))}`
  const byOf = (mark: Mark): string => `${mark.who}, ${writeMoment(mark.atMs)}`
  const href = (number: number): string => `/restorations/${id}?part=${number}`
  const done = new Map(progress.map((step) => [step.key, step]))
  return {
    trail: trailOf(sheet), id, number: sheet.number, title: sheet.title, done: countDone(progress), count: progress.length,
    frozen: writeDay(calendarDateIn(timeZone, sheet.createdAt)), hash: sheet.contentHash, closed: closedWords(sheet), differences,
    cautions: content.sheet.checklist.cautions.map(({ signalWord, title, text, number }) => ({ signal: signalWord, title, text, number })),
    groups: groups.map(({ name, steps }, at) => ({ name, href: href(at + 1), count: steps.length, done: countDone(steps.map(({ number }) => done.get(String(number)) ?? { isDone: false })), isHere: at === index })),
    here: { name: here.name, steps: here.steps.flatMap((step) => {
      const own = done.get(String(step.number))
      return own ? [toShownStep({ step, progress: own, pictures: (content.pictures[step.thingId ?? ''] ?? []).filter(({ hash }) => standing.has(hash)), photoAt: (hash) => `/restorations/${id}/photos/${hash}`, byOf, id: randomUUID() })] : []
    }) },
    nextHref: index + 1 < groups.length ? href(index + 2) : '', action: `/restorations/${id}/marks`,
    links: [{ name: 'As it prints', href: `/restorations/${id}/sheet` }, { name: 'PDF, A4', href: `/restorations/${id}/sheet.pdf` }, { name: 'PDF, Letter', href: `/restorations/${id}/sheet.pdf?paper=Letter` }, { name: 'All marks', href: `/restorations/${id}/history` }],
    closing: sheet.closedOn === null && BENCH.includes(viewer.role) ? { href: `/restorations/${id}/closings/new` } : null,
    ...(stopped === undefined ? {} : { stopped }),
  }
}

export const trailOf = ({ content, buildId, buildName, number }: StoredSheet): SheetPageData['trail'] => [
  { name: `${content.sheet.titleBlock.build} ${buildName}`, href: `/builds/${buildId}` }, { name: 'Sheets', href: `/builds/${buildId}/restorations` }, { name: number },
]

export const closedWords = ({ closedOn, outcome, note }: Pick<StoredSheet, 'closedOn' | 'outcome' | 'note'>): string =>
  (closedOn === null ? '' : `Closed on ${writeDay(closedOn)}: ${outcome}${note === '' ? '.' : `. ${note}`}`)

function findPart(groups: readonly Group[], doneKeys: readonly string[], wanted: number | undefined): number {
  if (wanted !== undefined && wanted >= 1 && wanted <= groups.length) return wanted - 1
  const open = groups.findIndex(({ steps }) => steps.some(({ number }) => !doneKeys.includes(String(number))))
  return open === -1 ? Math.max(0, groups.length - 1) : open
}

/** What the sheet would say otherwise if it were drawn now; nothing once it is closed, since closing changes the records. */
export async function differencesOf(reads: Reads, { content, buildId, closedOn }: StoredSheet): Promise<string[]> {
  if (closedOn !== null) return []
  const { sheet: { verdict, checklist, factoryOptions }, asked } = content
  try {
    const state = await loadVehicleState(reads, buildId)
    const now = toRestoration(state, asked)
    if ('sentence' in now) return [now.sentence]
    return listDifferences(
      { checklist, factoryOptions, verdict: verdict.kind, partsToBuy: verdict.partsToBuy },
      { checklist: now.checklist, factoryOptions: state.vehicle.factoryOptions, verdict: now.verdict.kind, partsToBuy: now.verdict.partsToBuy },
    )
  } catch (error) {
    if (error instanceof Problem && error.status === 404) return ['A factory part that this sheet was made for is no longer in the records.']
    throw error
  }
}

