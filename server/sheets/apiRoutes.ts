import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { answerOnce } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { getKind } from '../shared/records/kind.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { getRecord } from '../shared/records/table.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { countDone } from '../calc/restoration/sheetProgress.ts'
import { freeze, putDown } from './deeds.ts'
import { markSchema } from './markInput.ts'
import { differencesOf } from './pageData.ts'
import { progressOf } from './progress.ts'
import { getSheet, listMarks, listSheets, type StoredSheet } from './store.ts'

const MOST_MARKS = 200

const facts = z.object({ id: z.string(), number: z.string(), title: z.string(), createdAt: z.string(), contentHash: z.string().describe('SHA-256 of all that stands on it'), closedOn: z.string().nullable(), outcome: z.string() })
const torque = z.union([z.object({ mNm: z.int(), source: z.string() }), z.string()])
const stepSchema = z.object({
  key: z.string(), phase: z.string(), zoneName: z.string(), itemNumber: z.string(), text: z.string(), place: z.string(), notes: z.array(z.string()), cautionNumbers: z.array(z.string()),
  fasteners: z.array(z.object({ text: z.string(), torque })), needs: z.array(z.string()).describe('Steps that come first'),
  isDone: z.boolean(), by: z.string(), at: z.string().nullable(), skipped: z.array(z.string()).describe('Steps that were open when it was ticked'),
})
const sheetSchema = facts.extend({
  buildId: z.string(), done: z.int(), count: z.int(), differences: z.array(z.string()).describe('What it would say otherwise if drawn now'),
  cautions: z.array(z.object({ number: z.string(), signalWord: z.string(), title: z.string(), text: z.string() })), steps: z.array(stepSchema),
}).meta({ id: 'RestorationSheet' })
const storedMark = z.object({ id: z.string(), step: z.string(), kind: z.string(), at: z.string(), who: z.string(), torque: z.int().nullable().describe('mN·m'), text: z.string(), signedName: z.string() }).meta({ id: 'SheetMark' })
const progressSchema = z.object({
  items: z.array(z.object({ id: z.string(), state: z.enum(['new', 'there already', 'refused']), message: z.string() })),
  done: z.int(), count: z.int(), steps: z.array(z.object({ key: z.string(), isDone: z.boolean(), by: z.string(), at: z.string().nullable(), waitsFor: z.array(z.string()) })),
})
const newSheet = z.looseObject({ parts: z.union([z.literal('all'), z.array(z.uuid()).min(1).max(500)]).optional(), as: z.enum(['recorded', 'planned']).optional() })

/** Frozen sheets and what is put down on them, under /api. */
export function registerSheetApi(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: EVERYBODY }
  const tags = ['restoration sheets']

  app.get('/api/builds/:id/restorations', {
    config, schema: { tags, summary: 'List the frozen sheets of a build', params: idParams, response: { 200: z.object({ items: z.array(facts) }), ...problemAnswers } },
  }, async (request) => {
    await getRecord(database.reads, getKind('build'), request.params.id)
    return { items: (await listSheets(database.reads, request.params.id)).map((sheet) => ({ ...sheet, createdAt: sheet.createdAt.toISOString() })) }
  })

  app.post('/api/builds/:id/restorations', {
    config, schema: { tags, summary: 'Freeze the return-to-stock sheet of all or some factory parts', params: idParams, body: newSheet, response: { 201: sheetSchema, ...problemAnswers } },
  }, async (request, reply) => {
    const { parts = 'all', as } = request.body
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      const id = await freeze(write, request.params.id, { parts, basis: as }, viewerOn(request), actorOf(request, shell))
      return { status: 201, location: `/api/restorations/${id}`, body: { id } }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(await sheetJson(database.reads, (answer.body as { id: string }).id))
  })

  app.get('/api/restorations/:id', {
    config, schema: { tags, summary: 'A frozen sheet with what is done on it', params: idParams, response: { 200: sheetSchema, ...problemAnswers } },
  }, (request) => sheetJson(database.reads, request.params.id))

  app.get('/api/restorations/:id/marks', {
    config, schema: { tags, summary: 'All that was put down on a sheet, in order', params: idParams, response: { 200: z.object({ items: z.array(storedMark) }), ...problemAnswers } },
  }, async (request) => {
    await getSheet(database.reads, request.params.id)
    const marks = await listMarks(database.reads, request.params.id)
    return { items: marks.map(({ id, step, kind, atMs, who, torqueMnm, text, signedName }) => ({ id, step, kind, at: new Date(atMs).toISOString(), who, torque: torqueMnm, text, signedName })) }
  })

  app.post('/api/restorations/:id/marks', {
    config,
    schema: {
      tags, summary: 'Put marks down on a sheet', params: idParams, body: z.object({ marks: z.array(markSchema).max(MOST_MARKS) }), response: { 200: progressSchema, ...problemAnswers },
      description: 'Marks are only ever added; the newest tick of a step counts. Sent again with the same id a mark adds nothing. A step ticked before what it needs is taken, and says what was open. An empty list asks for the state alone.',
    },
  }, async (request) => {
    const { id } = request.params
    const { marks } = request.body
    // Each mark's own id makes repeating it harmless, so no answer is kept.
    const items = marks.length === 0 ? [] : await database.write((write) => putDown(write, id, marks, viewerOn(request).today, actorOf(request, shell)))
    const sheet = await getSheet(database.reads, id)
    const progress = progressOf(sheet.content, await listMarks(database.reads, id))
    return {
      items, done: countDone(progress), count: progress.length,
      steps: progress.map(({ key, isDone, last, waitsFor }) => ({ key, isDone, by: last?.signedName || (last?.who ?? ''), at: last ? new Date(last.atMs).toISOString() : null, waitsFor: [...waitsFor] })),
    }
  })
}

async function sheetJson(reads: Reads, id: string): Promise<z.infer<typeof sheetSchema>> {
  const sheet = await getSheet(reads, id)
  const [marks, differences] = await Promise.all([listMarks(reads, id), differencesOf(reads, sheet)])
  const progress = progressOf(sheet.content, marks)
  const { checklist } = sheet.content.sheet
  return {
    ...factsOf(sheet), buildId: sheet.buildId, done: countDone(progress), count: progress.length, differences,
    cautions: checklist.cautions.map(({ number, signalWord, title, text }) => ({ number, signalWord, title, text })),
    steps: checklist.steps.map(({ number, phase, zoneName, itemNumber, text, place, notes, cautionNumbers, fasteners }, index) => {
      const own = progress[index]
      return {
        key: String(number), phase, zoneName, itemNumber, text, place, notes: [...notes], cautionNumbers: [...cautionNumbers], fasteners: fasteners.map((one) => ({ text: one.text, torque: one.torque })),
        needs: (sheet.content.needs[String(number)] ?? []).map(String), isDone: own?.isDone ?? false, by: own?.last?.signedName || (own?.last?.who ?? ''),
        at: own?.last ? new Date(own.last.atMs).toISOString() : null, skipped: [...own?.skipped ?? []],
      }
    }),
  }
}

const factsOf = ({ id, number, title, createdAt, contentHash, closedOn, outcome }: StoredSheet): z.infer<typeof facts> =>
  ({ id, number, title, createdAt: createdAt.toISOString(), contentHash, closedOn, outcome })
