import { z } from 'zod'
import { DayListPage } from '../../web/now/dayList.tsx'
import { listBench } from '../hours/store.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { notFound } from '../shared/problems.ts'
import { BENCH, MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { dayListData } from './dayData.ts'

/** What each person does today and next by the plan in force; managers look at anybody’s. */
export function registerDayList(app: App, { database: { reads }, clock }: Shell): void {
  app.get('/day', { config: { roles: BENCH }, schema: { hide: true, querystring: z.object({ person: z.uuid().optional() }) } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const id = request.query.person ?? viewer.personId
    const isManager = MANAGERS.includes(viewer.role)
    const people = await listBench(reads)
    const person = people.find((one) => one.id === id)
    if (person === undefined || (id !== viewer.personId && !isManager)) throw notFound('person')
    const others = isManager ? people.filter((one) => one.id !== id).map(({ id: other, name }) => ({ name, href: `/day?person=${other}` })) : []
    return sendPage(reply, DayListPage({ viewer, data: await dayListData(reads, viewer, { person, others, now: clock() }) }))
  })
}
