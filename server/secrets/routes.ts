import { z } from 'zod'
import { LookPage, SecretsPage } from '../../web/secrets/secrets.tsx'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { actorOf } from '../shared/records/actor.ts'
import { getKind } from '../shared/records/kind.ts'
import { idParams } from '../shared/records/schemas.ts'
import { getRecord } from '../shared/records/table.ts'
import { Problem } from '../shared/problems.ts'
import { BENCH, MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { keyToSeal, open, seal } from './keeping.ts'
import { secretsData, lookData } from './pageData.ts'
import { eraseSecret, getSecret, SECRET_KINDS, storeSecret, tellLook } from './store.ts'

const secretParams = z.object({ id: z.uuid(), sid: z.uuid() })
// Messages never repeat what was typed.
const newSecret = z.looseObject({
  kind: z.enum(SECRET_KINDS, 'Choose what it is.'),
  text: z.string('Type it.').trim().min(1, 'Type the code or the place.').max(500, 'At most 500 characters.'),
})

/** Codes and key places: sealed, opened on a press, each look written down. None of it is under /api, and no answer is kept for repeating. */
export function registerSecrets(app: App, shell: Shell): void {
  const { database, config } = shell
  const { reads } = database

  app.get('/builds/:id/secrets', { config: { roles: BENCH }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, SecretsPage({ viewer, data: await secretsData(reads, request.params.id, viewer, config) }))
  })

  // The same form sent twice leaves the same: the later one takes the place of the earlier.
  app.post('/builds/:id/secrets', { config: { roles: MANAGERS }, schema: { hide: true, params: idParams, body: newSecret } }, async (request, reply) => {
    const { id: buildId } = request.params
    const { kind, text } = request.body
    const build = await getRecord(reads, getKind('build'), buildId)
    if (build.stage === 'delivered') throw new Problem(409, 'Delivered', 'The vehicle is delivered: the shop keeps none of its codes any more.')
    const key = await keyToSeal(reads, config)
    await database.write((write) => storeSecret(write, { buildId, kind }, (id) => seal(key, text, { id, buildId, kind }), actorOf(request, shell)))
    return reply.redirect(`/builds/${buildId}/secrets`, 303)
  })

  app.post('/builds/:id/secrets/:sid/looks', { config: { roles: BENCH }, schema: { hide: true, params: secretParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id: buildId, sid } = request.params
    // Written down before it is shown: a look that cannot be recorded is none.
    const text = await database.write(async (write) => {
      const secret = await getSecret(write, buildId, sid)
      const opened = open(secret, config)
      await tellLook(write, sid, actorOf(request, shell))
      return opened
    })
    return sendPage(reply, LookPage({ viewer, data: await lookData(reads, buildId, sid, text) }))
  })

  app.post('/builds/:id/secrets/:sid/erasures', { config: { roles: MANAGERS }, schema: { hide: true, params: secretParams } }, async (request, reply) => {
    const { id: buildId, sid } = request.params
    await database.write(async (write) => eraseSecret(write, await getSecret(write, buildId, sid), 'erased', actorOf(request, shell)))
    return reply.redirect(`/builds/${buildId}/secrets`, 303)
  })
}
