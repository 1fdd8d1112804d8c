import { z } from 'zod'
import { IntakePage } from '../../web/intake/intake.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, VersionConflict } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { sendConflictPage } from '../shared/records/conflict.ts'
import { LONGEST_TEXT } from '../shared/records/reading.ts'
import { idParams } from '../shared/records/schemas.ts'
import { readForm, type Body } from '../shared/records/submission.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { ZONE_PLACES } from '../../web/shared/zonePlaces.ts'
import { intakeData } from './pageData.ts'
import { intake } from './records.ts'
import { saveFactoryOptions, saveIntake, saveWalk, sign } from './saving.ts'
import { loadIntake } from './store.ts'

const place = z.enum(ZONE_PLACES)
const places = z.union([place, z.array(place).max(ZONE_PLACES.length)]).default([]).transform((given) => [given].flat())
const walkBody = z.looseObject({ walkedZones: places, shown: places, x: z.string().max(4).default(''), y: z.string().max(4).default('') })
const LONGEST_SIGNATURE = 20_000
const signBody = z.looseObject({
  signedName: z.string().trim().min(1, 'Type the name of whoever signs.').max(200, 'The name is at most 200 characters long.'),
  signature: z.string().max(LONGEST_SIGNATURE, 'The drawn signature is too long. Begin it again.').regex(/^(?:[ML]\d{1,3} \d{1,3})*$/, 'The drawn signature cannot be read. Begin it again.').default(''),
  _version: z.coerce.number().int().min(0),
})
const counterBody = z.looseObject({ factoryOptions: z.string().trim().max(LONGEST_TEXT).optional(), vehicleVersion: z.coerce.number().int().min(0).default(0) })
const posted = { roles: EVERYBODY }

/** What is written on the page of the intake. */
export function registerDeeds(app: App, shell: Shell): void {
  const { database } = shell
  const pageOf = (buildId: string, saved: string): Answer => ({ status: 303, location: `/builds/${buildId}/intake?saved=${saved}` })

  app.post('/builds/:id/intake', { config: posted, schema: { hide: true, params: idParams, body: counterBody } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    const { factoryOptions, vehicleVersion } = request.body
    const { build } = await loadIntake(database.reads, id)
    const typed: Body = { ...request.body, walkedZones: build.intake?.walkedZones ?? '' }
    try {
      const submitted = readForm(intake, viewer.role, build.intake === null, typed, viewer)
      const answer = await answerOnce(database, askedOf(request), async (write) => {
        const actor = actorOf(request, shell)
        await saveIntake(write, id, submitted, build.intake?.signedAt ? null : Number(typed._version) || null, actor)
        if (factoryOptions !== undefined) await saveFactoryOptions(write, build.vehicle.id, factoryOptions.replaceAll('\r\n', '\n'), vehicleVersion, actor)
        return pageOf(id, 'intake')
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (error instanceof VersionConflict) return sendConflictPage(request, reply, shell, intake, error, typed)
      if (!(error instanceof FieldProblems)) throw error
      return sendPage(reply.status(422), IntakePage({ viewer, data: await intakeData(database.reads, id, viewer, { typed, problems: error.fields }) }))
    }
  })

  app.post('/builds/:id/walks', { config: posted, schema: { hide: true, params: idParams, body: walkBody } }, async (request, reply) => {
    const { id } = request.params
    const { walkedZones, shown, x, y } = request.body
    await loadIntake(database.reads, id)
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      await saveWalk(write, id, walkedZones, shown, actorOf(request, shell))
      return x === '' || y === '' ? pageOf(id, 'walk') : { status: 303, location: `/builds/${id}/marks/new?${new URLSearchParams({ x, y }).toString()}` }
    })
    return reply.redirect(answer.location ?? '/', 303)
  })

  app.post('/builds/:id/signatures', { config: posted, schema: { hide: true, params: idParams, body: signBody } }, async (request, reply) => {
    const { id } = request.params
    const { signedName, signature, _version } = request.body
    await loadIntake(database.reads, id)
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      await sign(write, id, { name: signedName, signature, version: _version }, actorOf(request, shell))
      return pageOf(id, 'signature')
    })
    return reply.redirect(answer.location ?? '/', 303)
  })
}
