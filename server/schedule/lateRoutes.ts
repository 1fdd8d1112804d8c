import { z } from 'zod'
import { LatePage, type LateData } from '../../web/schedule/late.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { shopOf, viewerOn } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { sendPage } from '../shared/pages.ts'
import { Problem } from '../shared/problems.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { COUNTER, EVERYBODY, MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { loadShopFacts } from './facts.ts'
import { effectOf, LATE_BY, type Effect, type Late } from './lateness.ts'
import { loadPlanInForce } from './planStore.ts'
import { toMovedBuild, toPlaceWords } from './movedWords.ts'
import { listCustomersOf } from './store.ts'

const MOST_BY = 200
const unit = z.enum(LATE_BY).default('hours')
const asked = z.object({ operation: z.uuid('Say which operation: its page and the schedule lead here.'), by: z.string().trim().max(10).default('4').catch('4'), unit: unit.catch('hours') })
const askedOfApi = z.object({ by: z.coerce.number('Say by how many.').gt(0).max(MOST_BY), unit })
const instant = z.iso.datetime()

const lateSchema = z.object({
  operationId: z.string(), work: z.array(z.object({ operationId: z.string(), buildId: z.string(), name: z.string(), startsAt: instant, endsAt: instant }).describe('As it would be')),
  builds: z.array(z.object({ buildId: z.string(), endsAt: instant.nullable(), wouldEndAt: instant.nullable(), dueAt: instant.nullable() })),
  calls: z.array(z.object({ buildId: z.string(), customer: z.string(), phone: z.string().describe('Empty for those who may not see it') })),
})

/** What an operation makes late, to the delivery dates and whom to call. It reads and changes nothing. */
export function registerLateness(app: App, { database: { reads }, clock }: Shell): void {
  const config = { roles: EVERYBODY }

  app.get('/schedule/late', { config, schema: { hide: true, querystring: asked } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { operation, by, unit: in_ } = request.query
    const number = Number(by.replace(',', '.'))
    const isNumber = Number.isFinite(number) && number > 0 && number <= MOST_BY
    const found = await load(reads, clock(), operation, { by: isNumber ? number : 1, unit: in_ })
    const data = await toLateData(reads, viewer, { found, operation, by, unit: in_ })
    return sendPage(reply, LatePage({ viewer, data: isNumber ? data : { ...data, problem: `Say by how many hours or days, as 4 or 2.5; at most ${MOST_BY}.`, work: [], builds: [], calls: [] } }))
  })

  app.get('/api/schedule/operations/:id/late', {
    config, schema: { tags: ['schedule'], summary: 'What an operation makes late by the plan in force, if it is late itself', params: idParams, querystring: askedOfApi, response: { 200: lateSchema, ...problemAnswers } },
  }, async (request) => {
    const { id: operation } = request.params
    const found = await load(reads, clock(), operation, request.query)
    if (found.effect === null) throw new Problem(409, 'Not in the plan', NOT_IN_PLAN)
    const { difference } = found.effect
    return {
      operationId: operation,
      work: difference.work.flatMap(({ after }) => (after === null ? [] : [{ operationId: after.operationId, buildId: after.buildId, name: after.name, startsAt: after.startsAt, endsAt: after.endsAt }])),
      builds: difference.builds.map(({ buildId, before, after, dueAt }) => ({ buildId, endsAt: before, wouldEndAt: after, dueAt })),
      calls: (await callsOf(reads, viewerOn(request), found.effect)).map(({ buildId, customer, phone }) => ({ buildId, customer, phone })),
    }
  })
}

const NOT_IN_PLAN = 'The plan in force does not know this operation, there is none, or it cannot stand as things are now. Plan the shop first.'

interface Found {
  readonly timeZone: string
  readonly effect: Effect | null
}

async function load(reads: Reads, now: Date, operation: string, late: Late): Promise<Found> {
  const [base, { timeZone }] = [await loadPlanInForce(reads), await shopOf(reads)]
  return { timeZone, effect: base === null ? null : effectOf(await loadShopFacts(reads, now), base, operation, late, timeZone) }
}

/** The customers of builds that miss their date by it, or miss it by more. */
async function callsOf(reads: Reads, { role }: Viewer, { difference }: Effect) {
  const late = difference.builds.filter(({ before, after, dueAt }) => after !== null && dueAt !== null && after > dueAt && (before === null || after > before))
  const customers = await listCustomersOf(reads, late.map(({ buildId }) => buildId))
  return late.flatMap(({ buildId, name }) => customers.filter((one) => one.buildId === buildId).map(({ customer, phone }) => ({ buildId, build: name, customer, phone: COUNTER.includes(role) ? phone : '' })))
}

interface Asked {
  readonly found: Found
  readonly operation: string
  readonly by: string
  readonly unit: string
}

async function toLateData(reads: Reads, viewer: Viewer, { found: { timeZone, effect }, operation, by, unit: in_ }: Asked): Promise<LateData> {
  const base = { operationId: operation, by, unit: in_, moveHref: effect !== null && MANAGERS.includes(viewer.role) ? `/schedule/operations/${operation}` : '' }
  if (effect === null) return { ...base, name: 'Operation', build: '', planned: 'not in the plan in force', problem: NOT_IN_PLAN, work: [], builds: [], calls: [] }
  const { kept, later, planned, difference } = effect
  const words = toPlaceWords([kept.content, later.content], timeZone)
  const nameOf = (buildId: string): string => kept.content.builds.find((build) => build.buildId === buildId)?.name ?? ''
  const builds = difference.builds.map((one) => ({ buildId: one.buildId, ...toMovedBuild(one, timeZone) }))
  return {
    ...base, name: planned.name, build: nameOf(planned.buildId), planned: words(planned), problem: '',
    work: difference.work.flatMap(({ before, after }) => (before === null || after === null ? [] : [{ what: after.name, href: `/operations/${after.operationId}`, build: nameOf(after.buildId), was: words(before), is: words(after) }])),
    builds, calls: (await callsOf(reads, viewer, effect)).map(({ buildId, build, customer, phone }) => ({ customer, phone, why: `${build} would be ${builds.find((one) => one.buildId === buildId)?.words ?? 'late'}` })),
  }
}
