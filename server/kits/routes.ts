import { z } from 'zod'
import { KitPage } from '../../web/kits/kit.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { recordData } from '../shared/records/pageData.ts'
import { registerRecords } from '../shared/records/register.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { getRecord } from '../shared/records/table.ts'
import { BENCH, EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { kitData } from './kitData.ts'
import { kit, kitPart } from './records.ts'
import { changeKitState } from './store.ts'

const savedQuery = z.object({ saved: z.enum(['created', 'changed', 'removed', 'recovered']).optional().catch(undefined), how })
const state = z.enum(['as the kit', 'left out'], 'Say one of: as the kit, left out.')

export function registerKits(app: App, shell: Shell): void {
  registerRecords(app, shell, [kit, kitPart])
  registerKit(app, shell)
  registerStates(app, shell)
}

function registerKit(app: App, { database: { reads } }: Shell): void {
  app.get('/kits/:id', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: savedQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const row = await getRecord(reads, kit, request.params.id)
    const data = await kitData(reads, row.id, viewer)
    if (request.query.how !== undefined) {
      return sendWorking(reply, viewer, { workings: data.workings, how: request.query.how, place: 'stock', trail: [{ name: kit.title(row), href: `/kits/${row.id}` }] })
    }
    const record = await recordData(reads, kit, row, viewer, request.query.saved ?? null)
    return sendPage(reply, KitPage({ viewer, data: { record, kit: data } }))
  })
}

/** One line takes a part of its kit differently, or as the kit has it again. */
function registerStates(app: App, shell: Shell): void {
  const { database } = shell

  app.post('/material-needs/:id/kit-states', { config: { roles: BENCH }, schema: { hide: true, params: idParams, body: z.looseObject({ state }) } }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      const { lineId } = await changeKitState(write, request.params.id, request.body.state, actorOf(request, shell))
      return { status: 303, location: `/equipment-lines/${lineId}?saved=changed` }
    })
    return reply.redirect(answer.location ?? '/builds', 303)
  })

  app.post('/api/material-needs/:id/kit-states', {
    config: { roles: BENCH },
    schema: {
      tags: ['material needs'], summary: 'Leave a part of a kit out of one line, or take it as the kit has it again', params: idParams, body: z.object({ state }),
      response: { 200: z.object({ lineId: z.string() }), ...problemAnswers },
    },
  }, async (request) => {
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> =>
      ({ status: 200, body: await changeKitState(write, request.params.id, request.body.state, actorOf(request, shell)) }))
    return answer.body as { lineId: string }
  })
}
