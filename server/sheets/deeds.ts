import type { Viewer } from '../../web/shared/viewer.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { loadShopHead, loadVehicleState } from '../restoration/store.ts'
import type { RestorationAsked } from '../restoration/result.ts'
import { sheetNumber, toContent } from './content.ts'
import { readMark, type SentMark } from './markInput.ts'
import { addMark, createSheet, getSheet, latestOwn, listPictures, listSheets, nextNumber, noteBegun } from './store.ts'

/** Freezes the sheet for these parts as the vehicle is recorded at this moment; returns its id. */
export async function freeze(write: Write, buildId: string, asked: RestorationAsked, viewer: Viewer, actor: Actor): Promise<string> {
  const state = await loadVehicleState(write, buildId)
  const [shop, pictures, number, sheets] = [await loadShopHead(write), await listPictures(write, buildId), await nextNumber(write, buildId), await listSheets(write, buildId)]
  const content = toContent({ state, shop, viewer, asked, number, replaces: '', pictures })
  const earlier = sheets.find(({ title, closedOn }) => closedOn === null && title === content.sheet.scope.slice(0, 500))
  const titleBlock = { ...content.sheet.titleBlock, replaces: earlier?.number ?? '', number: sheetNumber(state.build.number, number) }
  return createSheet(write, buildId, number, { ...content, sheet: { ...content.sheet, titleBlock } }, actor)
}

export interface Outcome {
  readonly id: string
  readonly state: 'new' | 'there already' | 'refused'
  /** Why it was refused; '' otherwise. */
  readonly message: string
}

/** Puts marks down, in the order they were sent. One that cannot be taken keeps no other from being taken. */
export async function putDown(write: Write, sheetId: string, sent: readonly SentMark[], today: string, actor: Actor): Promise<Outcome[]> {
  const { content } = await getSheet(write, sheetId)
  const latest = await latestOwn(write, sheetId, actor.personId ?? '')
  const outcomes: Outcome[] = []
  const told: string[] = []
  let inBatch = 0
  for (const one of sent) {
    const read = readMark(one, content, actor.now)
    if ('refused' in read) {
      outcomes.push({ id: one.id, state: 'refused', message: read.refused })
      continue
    }
    // A phone sends one after the other; a slow network must not turn a tick and its taking back around.
    const atMs = Math.max(read.mark.atMs, (latest.get(one.step) ?? 0) + 1, inBatch + 1)
    inBatch = atMs
    const isNew = await addMark(write, sheetId, { ...read.mark, atMs }, actor)
    if (isNew) latest.set(one.step, atMs)
    if (isNew) told.push(`${one.step} ${one.kind}`)
    outcomes.push({ id: one.id, state: isNew ? 'new' : 'there already', message: '' })
  }
  if (told.length > 0) {
    await noteBegun(write, sheetId, today)
    await audit(write, actor, { action: `put down: ${told.join(', ')}`, recordKind: 'restoration sheet', recordId: sheetId })
  }
  return outcomes
}

