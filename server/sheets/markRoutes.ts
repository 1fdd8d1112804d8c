import { randomUUID } from 'node:crypto'
import { z } from 'zod'
import { SheetPage } from '../../web/sheets/sheet.tsx'
import { inWords } from '../../web/sheets/step.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import type { StoppedStep } from '../../web/sheets/sheetData.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { markSchema, type SentMark } from './markInput.ts'
import { putDown, type Outcome } from './deeds.ts'
import { sheetPageData } from './pageData.ts'
import { progressOf } from './progress.ts'
import { getSheet, listMarks } from './store.ts'

const LARGEST_FORM_TEXT = 1000
const formBody = z.looseObject({
  id: z.uuid().catch(() => randomUUID()), step: z.string().max(20), kind: markSchema.shape.kind, anyway: z.string().max(5).optional(),
  text: z.string().max(LARGEST_FORM_TEXT).default(''), signedName: z.string().max(200).default(''), signature: z.string().max(20_000).default(''),
})
type FormBody = z.infer<typeof formBody>

/** What the form of one step puts down: its tick, and each torque that was entered with it. */
function marksIn(body: FormBody): SentMark[] {
  const torques = Object.entries(body).flatMap(([name, typed]) => {
    const place = /^torque_(\d{1,2})$/.exec(name)?.[1]
    return place !== undefined && typeof typed === 'string' && typed.trim() !== '' ? [{ place, typed: typed.slice(0, 60) }] : []
  })
  const common = { age: 0, torque: '', text: '', signedName: '', signature: '' }
  return [
    ...torques.map(({ place, typed }): SentMark => ({ ...common, id: randomUUID(), step: `${body.step}.${place}`, kind: 'torque', torque: typed })),
    ...(body.kind === 'torque' ? [] : [{ ...common, id: body.id, step: body.step, kind: body.kind, text: body.text, signedName: body.signedName, signature: body.signature }]),
  ]
}

/** Ticks by the form of a step, as they are made without the script. */
export function registerMarks(app: App, shell: Shell): void {
  const { database } = shell

  app.post('/restorations/:id/marks', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, body: formBody } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    const { body } = request
    const warning = await warningFor(id, body)
    const stop = async (stopped: StoppedStep) => sendPage(reply.status(warning === '' ? 422 : 409), SheetPage({ viewer, data: await sheetPageData(database.reads, id, viewer, { step: body.step, stopped }) }))
    const typed = Object.fromEntries(Object.entries(body).filter((entry): entry is [string, string] => typeof entry[1] === 'string'))
    if (warning !== '') return stop({ key: body.step, warning, problems: [], typed })
    const sent = marksIn(body)
    try {
      await answerOnce(database, { ...askedOf(request), key: body.id, body: sent.map(({ id: _, ...mark }) => mark) }, async (write) => {
        refuse(await putDown(write, id, sent, viewer.today, actorOf(request, shell)), sent)
        return { status: 303 }
      })
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return stop({ key: body.step, warning: '', problems: error.fields, typed })
    }
    return reply.redirect(`/restorations/${id}?step=${body.step}#s${body.step}`, 303)
  })

  async function warningFor(id: string, { kind, step, anyway }: FormBody): Promise<string> {
    if ((kind !== 'done' && kind !== 'signature') || anyway === 'yes') return ''
    const { content } = await getSheet(database.reads, id)
    const own = progressOf(content, await listMarks(database.reads, id)).find(({ key }) => key === step)
    return own && own.waitsFor.length > 0 ? `Not ticked yet: ${inWords(own.waitsFor)} should be done first. If it was done otherwise, say so in words and tick it all the same.` : ''
  }
}

// On a form nothing is written unless all of it can be.
function refuse(outcomes: readonly Outcome[], sent: readonly SentMark[]): void {
  const problems = outcomes.filter(({ state }) => state === 'refused').map(({ id, message }): FieldProblem => {
    const mark = sent.find((one) => one.id === id)
    return { field: mark?.kind === 'torque' ? `torque_${mark.step.split('.')[1] ?? ''}` : 'text', message }
  })
  if (problems.length > 0) throw new FieldProblems(problems)
}
