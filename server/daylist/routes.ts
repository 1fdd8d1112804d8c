import type { FastifyRequest } from 'fastify'
import { z } from 'zod'
import { DayListPage } from '../../web/now/dayList.tsx'
import { listBench } from '../hours/store.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { notFound } from '../shared/problems.ts'
import { problemAnswers } from '../shared/records/schemas.ts'
import { BENCH, MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { daySchema, toDayAnswer } from './dayAnswer.ts'
import { toDayList } from './dayData.ts'
import { loadPersonDay } from './dayRead.ts'

const query = z.object({ person: z.uuid().optional() })

/** What each person does today and next by the plan in force; managers look at anybody’s. */
export function registerDayList(app: App, { database: { reads }, clock }: Shell): void {
  app.get('/day', { config: { roles: BENCH }, schema: { hide: true, querystring: query } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { person, people } = await personOf(request, request.query.person)
    const others = MANAGERS.includes(viewer.role) ? people.filter(({ id }) => id !== person.id).map(({ id, name }) => ({ name, href: `/day?person=${id}` })) : []
    const found = await loadPersonDay(reads, { personId: person.id, today: viewer.today, now: clock() })
    return sendPage(reply, DayListPage({ viewer, data: toDayList(found, { person, others, isOwn: person.id === viewer.personId }) }))
  })

  app.get('/api/day', {
    config: { roles: BENCH }, schema: { tags: ['schedule'], summary: 'What a person does today and next by the plan in force, in order; one’s own, or for managers anybody’s', querystring: query, response: { 200: daySchema, ...problemAnswers } },
  }, async (request) => {
    const { person } = await personOf(request, request.query.person)
    return toDayAnswer(await loadPersonDay(reads, { personId: person.id, today: viewerOn(request).today, now: clock() }), person.id)
  })

  async function personOf(request: FastifyRequest, asked: string | undefined): Promise<{ person: { id: string, name: string }, people: readonly { id: string, name: string }[] }> {
    const viewer = viewerOn(request)
    const id = asked ?? viewer.personId
    const people = await listBench(reads)
    const person = people.find((one) => one.id === id)
    if (person === undefined || (id !== viewer.personId && !MANAGERS.includes(viewer.role))) throw notFound('person')
    return { person, people }
  }
}
