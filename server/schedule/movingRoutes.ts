import { randomUUID } from 'node:crypto'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { MovingPage, type MovingData } from '../../web/schedule/moving.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { shopOf, viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, Problem, VersionConflict } from '../shared/problems.ts'
import { actorOf, askedOf, versionOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { loadShopFacts, loadUnsureFacts } from './facts.ts'
import { holdOperation, loadHold } from './holdStore.ts'
import { baysOf, breaksOf, nextWorkingDay, readWish, type Movable, type Typed, type Wish } from './moving.ts'
import { toPlaceWords } from './movedWords.ts'
import type { Planner } from './planner.ts'
import { loadPlanInForce } from './planStore.ts'
import { isFirstPress } from './pressedOnce.ts'
import { momentWords } from './standingData.ts'

const word = z.string().trim().max(40).default('')
const wanted = { date: word, time: word, personId: word, bayId: word }
const HOUR_MS = 3_600_000

/** One operation of the plan moved by hand: it says what that breaks before it is saved, then holds it there and proposes a plan. */
export function registerMoving(app: App, shell: Shell, planner: Planner): void {
  const { database, clock } = shell
  const { reads } = database
  const config = { roles: MANAGERS }

  app.get('/schedule/operations/:id', { config, schema: { hide: true, params: idParams, querystring: z.object({ date: word.catch(''), time: word.catch(''), personId: word.catch(''), bayId: word.catch('') }) } }, async (request, reply) => {
    const movable = await load(request.params.id)
    return show(request, reply, movable, request.query.date === '' ? null : request.query)
  })

  // Looked at with what the form holds, and nothing saved.
  app.post('/schedule/operations/:id/looks', { config, schema: { hide: true, params: idParams, body: z.looseObject(wanted) } }, async (request, reply) =>
    show(request, reply, await load(request.params.id), request.body))

  app.post('/schedule/operations/:id', { config, schema: { hide: true, params: idParams, body: z.looseObject({ ...wanted, letGo: word }) } }, async (request, reply) => {
    const movable = await load(request.params.id)
    try {
      await move(request, movable, request.body.letGo === 'yes' ? null : readWish(request.body, movable.facts, movable.timeZone))
    } catch (error) {
      // Shown again with what was typed; the next press is made from what stands now.
      if (error instanceof VersionConflict) return show(request, reply.status(412), await load(request.params.id), request.body, { clash: true })
      if (!(error instanceof FieldProblems)) throw error
      return show(request, reply.status(422), movable, request.body, { problems: error.fields })
    }
    return reply.redirect(planner.proposals[0] === undefined ? '/schedule' : `/schedule/proposals/${planner.proposals[0].id}`, 303)
  })

  app.post('/api/schedule/operations/:id', {
    config, schema: { tags: ['schedule'], summary: 'Hold an operation to a time, or let it go (no date), and propose a plan with the least change', params: idParams, body: z.looseObject(wanted), response: { 200: z.object({ breaks: z.array(z.string()) }), ...problemAnswers } },
  }, async (request) => {
    const movable = await load(request.params.id)
    const wish = request.body.date === '' ? null : readWish(request.body, movable.facts, movable.timeZone)
    const breaks = wish === null ? [] : breaksOf(movable, wish)
    await move(request, movable, wish)
    return { breaks }
  })

  async function load(id: string): Promise<Movable> {
    await loadHold(reads, id)
    const [base, { timeZone }, facts] = [await loadPlanInForce(reads), await shopOf(reads), await loadShopFacts(reads, clock())]
    const planned = base?.content.work.find(({ operationId }) => operationId === id)
    const build = facts.builds.find(({ work }) => work.some((one) => one.id === id))
    if (base === null || planned === undefined || build === undefined) throw new Problem(409, 'Not in the plan', 'The plan in force does not know this operation, or it is done. Plan the shop first, take the plan, then move it.')
    return { facts, base, planned, timeZone, buildId: build.id, work: build.work.find((one) => one.id === id)! }
  }

  async function move(request: FastifyRequest, movable: Movable, wish: Wish | null): Promise<void> {
    const { work: { id }, base, timeZone } = movable
    const version = versionOf(request)
    const { personId } = await loadHold(reads, id)
    const isFirst = await isFirstPress(database, askedOf(request), (write) =>
      holdOperation(write, { id, version }, { pinnedAt: wish?.at ?? null, personId: wish?.personId ?? personId }, actorOf(request, shell)))
    if (isFirst) planner.begin({ facts: await loadUnsureFacts(reads, clock()), now: clock(), way: 'least change', base, timeZone, ...(wish === null ? {} : { bays: baysOf(movable, wish) }) }, request.log)
  }

  async function show(request: FastifyRequest, reply: FastifyReply, movable: Movable, typed: Typed | null, refused: { readonly problems?: readonly FieldProblem[], readonly clash?: true } = {}): Promise<FastifyReply> {
    const { work: { id }, facts, timeZone } = movable
    const { version, pinnedAt } = await loadHold(reads, id)
    let problems = refused.problems ?? []
    let breaks: readonly string[] | null = null
    try {
      if (typed !== null && refused.problems === undefined) breaks = breaksOf(movable, readWish(typed, facts, timeZone))
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      problems = error.fields
    }
    return sendPage(problems.length > 0 && refused.clash === undefined ? reply.status(422) : reply, MovingPage({ viewer: viewerOn(request), data: { ...toMoving(movable, typed), version, breaks, problems, isClash: refused.clash ?? false, held: pinnedAt === null ? '' : momentWords(pinnedAt, timeZone), letGo: pinnedAt === null ? null : { action: `/schedule/operations/${id}`, idempotencyKey: randomUUID(), values: [['letGo', 'yes'], ['_version', String(version)]] } } }))
  }
}

function toMoving(movable: Movable, typed: Typed | null): Omit<MovingData, 'version' | 'breaks' | 'problems' | 'isClash' | 'held' | 'letGo'> {
  const { work, planned, facts, base, timeZone, buildId } = movable
  const start = new Date(Math.max(Date.parse(planned.startsAt), facts.fromMs))
  const href = (at: Date, date = calendarDateIn(timeZone, at)): string => `/schedule/operations/${work.id}?${new URLSearchParams({ date, time: clockTimeIn(timeZone, at), personId: typed?.personId ?? work.personId ?? '' }).toString()}`
  const able = facts.people.filter(({ skillIds, id }) => work.skill === null || skillIds.includes(work.skill.id) || id === work.personId)
  return {
    operationId: work.id, name: work.name, build: facts.builds.find(({ id }) => id === buildId)?.name ?? '', planned: toPlaceWords([base.content], timeZone)(planned),
    typed: typed ?? { date: calendarDateIn(timeZone, start), time: clockTimeIn(timeZone, start), personId: work.personId ?? '', bayId: '' },
    people: able.map(({ id, name }) => ({ value: id, label: name })), bays: facts.bays.map(({ id, name }) => ({ value: id, label: name })), isInVehicle: work.isInVehicle,
    laterHref: href(new Date(start.getTime() + HOUR_MS)), nextDayHref: href(start, nextWorkingDay(movable, start)), holdHereHref: href(start), saveKey: randomUUID(),
  }
}
