import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { TeardownPage } from '../../web/teardown/teardown.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { addPhotos, getSubject } from '../shared/photos/rows.ts'
import { limitsOf, takeReadable, wordsOf } from '../shared/photos/taking.ts'
import { FieldProblems, HeldProblem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import type { Body } from '../shared/records/submission.ts'
import { BENCH } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { readAnswer, recordAnswer, withdrawAnswer } from './deeds.ts'
import type { Refused } from './moreForms.ts'
import { MORE_POSTS } from './moreDeeds.ts'
import { alterationHref } from './rest.ts'
import { teardownData } from './teardownData.ts'

const SAID: Readonly<Record<string, string>> = {
  recorded: 'recorded', undone: 'taken back: the part is as it was before', fastener: 'fastener', notes: 'connectors and notes', part: 'factory part', edge: 'order of removal',
}
const pageQuery = z.object({ part: z.uuid().optional(), f: z.coerce.number().int().optional(), said: z.enum(['recorded', 'undone', 'fastener', 'notes', 'part', 'edge']).optional().catch(undefined) })

const bench = { roles: BENCH }

export function registerTeardownPages(app: App, shell: Shell): void {
  app.get('/builds/:id/teardown', { config: bench, schema: { hide: true, params: idParams, querystring: pageQuery } }, async (request, reply) => {
    const { part, f, said } = request.query
    return show(request, reply, shell, { partId: part, partNumber: f, said: said === undefined ? '' : SAID[said] ?? '' })
  })

  app.post('/builds/:id/teardown/withdrawals', { config: bench, schema: { hide: true, params: idParams, body: z.looseObject({ removalId: z.uuid() }) } }, async (request, reply) => {
    const buildId = request.params.id
    const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
      const row = await withdrawAnswer(write, buildId, request.body.removalId, actorOf(request, shell))
      return { status: 303, location: `/builds/${buildId}/teardown?part=${String(row.factoryPartId)}&said=undone` }
    }).catch(pressed(buildId))
    return reply.redirect(answer.location ?? '/', 303)
  })

  for (const [form, { address, save }] of Object.entries(MORE_POSTS)) {
    app.post(`/builds/:id/teardown/${address}`, { config: bench, schema: { hide: true, params: idParams } }, async (request, reply) => {
      const buildId = request.params.id
      const typed = (request.body ?? {}) as Body
      const viewer = viewerOn(request)
      try {
        const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
          const partId = await save(write, { buildId, typed, viewer, actor: actorOf(request, shell) })
          return { status: 303, location: `/builds/${buildId}/teardown?part=${partId}&said=${form}#more` }
        })
        return await reply.redirect(answer.location ?? '/', 303)
      } catch (error) {
        if (!(error instanceof FieldProblems)) throw error
        const given = z.uuid().safeParse(typed.factoryPartId)
        return show(request, reply.status(422), shell, { partId: given.data, refused: { form: form as Refused['form'], typed, problems: error.fields } })
      }
    })
  }
}

/** The two taps without a script: pictures and answer in one form. The record stands even where a picture is refused. */
export function registerTeardownPost(scope: App, shell: Shell): void {
  scope.post('/builds/:id/teardown', { config: { roles: BENCH, takesFiles: 'anywhere' }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const buildId = request.params.id
    const viewer = viewerOn(request)
    const { stored, refused } = await takeReadable(request, shell)
    const asked = { ...askedOf(request), body: { body: request.body, hashes: stored.map(({ hash }) => hash) } }
    const answer = await answerOnce(shell.database, asked, async (write): Promise<Answer> => {
      const actor = actorOf(request, shell)
      const row = await recordAnswer(write, buildId, readAnswer((request.body ?? {}) as Body), viewer, actor)
      const subject = await getSubject(write, viewer.role, 'factory part', String(row.factoryPartId))
      await addPhotos(write, subject, stored, { caption: '', moment: 'during', limits: limitsOf(shell), actor })
      return { status: 303, location: row.kind === 'altered' ? alterationHref(buildId, { id: subject.row.id, zoneId: String(subject.row.zoneId) }) : `/builds/${buildId}/teardown?said=recorded` }
    }).catch(pressed(buildId))
    const href = answer.location ?? '/'
    if (refused.length > 0) throw new HeldProblem('Recorded, but not every picture was kept', `${refused.map(wordsOf).join(' ')} The record stands; the picture can follow.`, { href, name: 'Go on with the teardown' }, 422)
    return reply.redirect(href, 303)
  })
}

/** A press has no form to come back to: it says what is wrong and leads back to how things stand. */
const pressed = (buildId: string) => (error: unknown): never => {
  if (error instanceof FieldProblems) throw new HeldProblem('Not recorded', error.fields.map(({ message }) => message).join(' '), { href: `/builds/${buildId}/teardown`, name: 'Back to the teardown' })
  throw error
}

interface Shown {
  readonly partNumber?: number | undefined
  readonly partId?: string | undefined
  readonly said?: string
  readonly refused?: Refused
}

async function show(request: FastifyRequest, reply: FastifyReply, shell: Shell, shown: Shown): Promise<FastifyReply> {
  const viewer = viewerOn(request)
  const { id: buildId } = request.params as { id: string }
  return sendPage(reply, TeardownPage({ viewer, data: await teardownData(shell.database.reads, viewer, { buildId, ...shown }) }))
}
