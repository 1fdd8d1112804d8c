import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { EntryFormPage } from '../../web/hours/entryForm.tsx'
import { HoursPage } from '../../web/hours/hours.tsx'
import { NowPage } from '../../web/now/now.tsx'
import { shopOf, viewerOn } from '../shared/access.ts'
import { isCalendarDate } from '../calc/calendar.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import type { Body } from '../shared/records/submission.ts'
import { BENCH, MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { correctEntry, createEntry, getOwnEntry } from './entries.ts'
import { correctionFormData, newFormData } from './formData.ts'
import { CORRECTION_FIELDS, ENTRY_FIELDS, readEntry } from './forms.ts'
import { hoursData } from './hoursData.ts'
import { hoursWorkings, nowWorkings } from './hoursWorkings.ts'
import { nowData } from './nowData.ts'
import type { PlanFor } from './planned.ts'

const nowQuery = z.object({ find: z.string().max(100).default(''), logged: z.uuid().optional(), left: z.uuid().optional(), how })
const hoursQuery = z.object({
  person: z.uuid().optional(), until: z.string().refine(isCalendarDate, 'a calendar date, YYYY-MM-DD').optional(), logged: z.uuid().optional(), how,
})
const newQuery = z.object({ build: z.uuid().or(z.literal('')).optional(), operationId: z.uuid().optional(), person: z.uuid().optional() })

const seen = { config: { roles: BENCH }, schema: { hide: true } } as const

/** What runs now, hours day by day, and the forms for what no timer caught. */
export function registerHourPages(app: App, shell: Shell, planFor: PlanFor): void {
  const { reads } = shell.database

  app.get('/now', { ...seen, schema: { hide: true, querystring: nowQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { find, logged, left } = request.query
    const data = await nowData(reads, viewer, { find: find.trim(), logged: logged ?? null, left: left ?? null, now: shell.clock(), planFor })
    if (request.query.how === undefined) return sendPage(reply, NowPage({ viewer, data }))
    const places = request.query.how === 'today' ? 2 : 1
    return sendWorking(reply, viewer, { workings: nowWorkings(data), how: request.query.how, place: 'now', trail: [{ name: 'Now', href: '/now' }], places })
  })

  app.get('/hours', { ...seen, schema: { hide: true, querystring: hoursQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const data = await hoursData(reads, viewer, request.query)
    if (request.query.how !== undefined) {
      const trail = [{ name: `Hours of ${data.name}`, href: `/hours?${data.address}` }]
      return sendWorking(reply, viewer, { workings: hoursWorkings(data), how: request.query.how, place: 'now', trail, places: 2 })
    }
    return sendPage(reply, HoursPage({ viewer, data }))
  })

  app.get('/hours/new', { ...seen, schema: { hide: true, querystring: newQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, EntryFormPage({ viewer, data: await newFormData(reads, viewer, request.query) }))
  })

  app.post('/hours/new', seen, async (request, reply) => {
    const viewer = viewerOn(request)
    const body = bodyOf(request)
    return reshown(reply, async () => {
      const typed = readEntry(ENTRY_FIELDS, body, viewer, viewer.today)
      const personId = MANAGERS.includes(viewer.role) ? (typed.personId ?? viewer.personId) : viewer.personId
      return answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
        const entry = await createEntry(write, typed, await writingFor(request, personId))
        return { status: 303, location: hoursOf(personId, viewer.personId, entry.id) }
      })
    }, async (problems) => EntryFormPage({ viewer, data: await newFormData(reads, viewer, {}, { typed: body, problems }) }))
  })

  app.get('/hours/:id/correction', { ...seen, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const entry = await getOwnEntry(reads, request.params.id, mayCorrect(request))
    if (entry.correctedBy) return reply.redirect(`/hours/${entry.correctedBy.id}/correction`, 303)
    return sendPage(reply, EntryFormPage({ viewer, data: await correctionFormData(reads, viewer, entry) }))
  })

  app.post('/hours/:id/correction', { ...seen, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const body = bodyOf(request)
    const { id } = request.params
    return reshown(reply, async () => {
      const typed = readEntry(CORRECTION_FIELDS, body, viewer, viewer.today)
      return answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
        const before = await getOwnEntry(write, id, mayCorrect(request))
        const entry = await correctEntry(write, before, typed, await writingFor(request, before.personId))
        return { status: 303, location: hoursOf(before.personId, viewer.personId, entry.id) }
      })
    }, async (problems) => {
      const entry = await getOwnEntry(reads, id, mayCorrect(request))
      return EntryFormPage({ viewer, data: await correctionFormData(reads, viewer, entry, { typed: body, problems }) })
    })
  })

  async function writingFor(request: FastifyRequest, personId: string) {
    return { actor: actorOf(request, shell), personId, timeZone: (await shopOf(reads)).timeZone }
  }
}

export const bodyOf = (request: FastifyRequest): Body => (request.body ?? {}) as Body

export function mayCorrect(request: FastifyRequest): { personId: string; mayCorrectAll: boolean } {
  const { personId, role } = viewerOn(request)
  return { personId, mayCorrectAll: MANAGERS.includes(role) }
}

const hoursOf = (personId: string, ownId: string, logged: string): string =>
  `/hours?${new URLSearchParams({ ...(personId === ownId ? {} : { person: personId }), logged }).toString()}`

/** Saves and goes on, or shows the form again with what was typed and what is wrong. */
async function reshown(
  reply: FastifyReply, save: () => Promise<Answer>, again: (problems: FieldProblems['fields']) => Promise<JSX.Element>,
): Promise<FastifyReply> {
  try {
    const answer = await save()
    return await reply.redirect(answer.location ?? '/hours', 303)
  } catch (error) {
    if (!(error instanceof FieldProblems)) throw error
    return sendPage(reply.status(422), await again(error.fields))
  }
}
