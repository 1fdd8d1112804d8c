import { z } from 'zod'
import { CounterJobPage } from '../../web/counter/counterJob.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { problemAnswers } from '../shared/records/schemas.ts'
import type { Body } from '../shared/records/submission.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { createCounterJob, type CounterJob } from './create.ts'
import { Doubts } from './doubts.ts'
import { jobForm } from './formData.ts'
import { fromJson, readJob, toJsonProblems } from './forms.ts'
import { jobBodySchema, jobSchema } from './schemas.ts'

const given = z.object({ customer: z.uuid().optional().catch(undefined), vehicle: z.uuid().optional().catch(undefined) })
const managers = { config: { roles: MANAGERS } }

/** A counter job in one form: customer, vehicle, build, lines and hours. */
export function registerCounterJobs(app: App, shell: Shell): void {
  const { database } = shell

  app.get('/counter-jobs/new', { ...managers, schema: { hide: true, querystring: given } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { customer: customerId, vehicle: vehicleId } = request.query
    return sendPage(reply, CounterJobPage({ viewer, data: await jobForm(database.reads, viewer, { customerId, vehicleId }) }))
  })

  app.post('/counter-jobs', { ...managers, schema: { hide: true } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const body = (request.body ?? {}) as Body
    try {
      const typed = readJob(body, viewer)
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        const { buildId } = await createCounterJob(write, typed, actorOf(request, shell), viewer.today)
        return { status: 303, location: `/builds/${buildId}?saved=created` }
      })
      return await reply.redirect(answer.location ?? '/builds', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      const data = await jobForm(database.reads, viewer, { typed: body, problems: error.fields, isAsked: error instanceof Doubts })
      return sendPage(reply.status(422), CounterJobPage({ viewer, data }))
    }
  })

  app.post('/api/counter-jobs', {
    ...managers,
    schema: { tags: ['builds'], summary: 'Enter a counter job: customer, vehicle, build, lines and hours at once', body: jobBodySchema, response: { 201: jobSchema, ...problemAnswers } },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    try {
      const typed = readJob(fromJson(request.body as Body), viewer)
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        const job = await createCounterJob(write, typed, actorOf(request, shell), viewer.today)
        return { status: 201, location: `/api/builds/${job.buildId}`, body: job }
      })
      reply.header('location', answer.location ?? '')
      return await reply.status(201).send(answer.body as CounterJob)
    } catch (error) {
      if (error instanceof FieldProblems) throw new FieldProblems(toJsonProblems(error.fields))
      throw error
    }
  })
}
