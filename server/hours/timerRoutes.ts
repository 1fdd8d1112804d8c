import type { FastifyReply, FastifyRequest } from 'fastify'
import { SettlePage } from '../../web/hours/settle.tsx'
import { NowPage } from '../../web/now/now.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, invalid } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { isId } from '../shared/records/field.ts'
import { getKind } from '../shared/records/kind.ts'
import { idParams } from '../shared/records/schemas.ts'
import { readJson, type Body } from '../shared/records/submission.ts'
import { changeRecord, getRecord } from '../shared/records/table.ts'
import { BENCH } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { isAboutWhyOrTime } from './entries.ts'
import { readFields, SETTLEMENT_FIELDS, TIME_KINDS, type TimeKind } from './forms.ts'
import { nowData } from './nowData.ts'
import type { PlanFor } from './planned.ts'
import { bodyOf } from './pageRoutes.ts'
import { settleData } from './settleData.ts'
import { findTimer, startTimer, stopTimer, type Settlement, type Timing } from './timers.ts'

const posted = { config: { roles: BENCH }, schema: { hide: true } } as const

/** The presses of the Now page: start or switch, stop, done, and what is left to do. */
export function registerTimerPages(app: App, shell: Shell, planFor: PlanFor): void {
  app.post('/timers', posted, async (request, reply) => {
    const body = bodyOf(request)
    return pressed(request, reply, (write, settlement) => startTimer(write, actorOf(request, shell), wantedOf(body), settlement))
  })

  app.post('/timer-stops', posted, async (request, reply) => {
    const body = bodyOf(request)
    return pressed(request, reply, (write, settlement) => stopTimer(write, actorOf(request, shell), stopOfBody(body), settlement))
  })

  app.post('/operations/:id/states', { ...posted, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const kind = getKind('operation')
    const { state, remaining } = bodyOf(request)
    const given = { ...(state === undefined ? {} : { state }), ...(remaining === undefined ? {} : { remaining }) }
    try {
      const submitted = readJson(kind, viewer.role, false, given, viewer)
      await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
        const { version } = await getRecord(write, kind, request.params.id)
        await changeRecord(write, kind, request.params.id, version, submitted, actorOf(request, shell))
        return { status: 303, location: `/now?left=${request.params.id}` }
      })
      return await reply.redirect(`/now?left=${request.params.id}`, 303)
    } catch (error) {
      const data = error instanceof FieldProblems ? await nowData(shell.database.reads, viewer, { find: '', logged: null, left: null, now: shell.clock(), planFor }) : null
      if (!(error instanceof FieldProblems) || !data?.running?.left) throw error
      const left = { ...data.running.left, value: String(remaining ?? ''), problem: error.fields.map(({ message }) => message).join(' ') }
      return sendPage(reply.status(422), NowPage({ viewer, data: { ...data, running: { ...data.running, left } } }))
    }
  })

  type Work = (write: Parameters<typeof startTimer>[0], settlement: Settlement) => Promise<Timing>

  /** Does what was pressed, or asks for what the timer needs before it becomes an entry. */
  async function pressed(request: FastifyRequest, reply: FastifyReply, work: Work): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    const body = bodyOf(request)
    const now = shell.clock()
    const at = instantIn(body.at)
    try {
      const settlement = settlementOf(body, viewer, at)
      const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
        const { entry } = await work(write, settlement)
        return { status: 303, location: entry ? `/now?logged=${entry.id}` : '/now' }
      })
      return await reply.redirect(answer.location ?? '/now', 303)
    } catch (error) {
      const timer = isAboutWhyOrTime(error) ? await findTimer(shell.database.reads, viewer.personId) : null
      if (!isAboutWhyOrTime(error) || !timer) throw error
      const data = await settleData(shell.database.reads, timer, { action: request.url, body, at, now, problems: error.fields })
      return sendPage(reply.status(422), SettlePage({ viewer, data }))
    }
  }
}

/** What a press on Start or Switch names. Throws FieldProblems. */
export function wantedOf(body: Body): { operationId: string; kind: TimeKind } {
  const kind = TIME_KINDS.find((one) => one === (body.kind ?? 'work'))
  if (!kind) throw invalid('kind', `Kind is one of: ${TIME_KINDS.join(', ')}.`)
  if (!isId(body.operationId)) throw invalid('operationId', 'Which operation? Choose one from the list.')
  return { operationId: body.operationId, kind }
}

export function stopOfBody(body: Body): { operationId: string | null; isDone: boolean } {
  return { operationId: isId(body.operationId) ? body.operationId : null, isDone: body.isDone === 'yes' || body.isDone === true }
}

/** Why, hours and moment of a stop. Throws FieldProblems. */
export function settlementOf(body: Body, context: Parameters<typeof readFields>[2], at: Date | null): Settlement {
  const values = readFields(SETTLEMENT_FIELDS, { why: body.whyChosen ?? body.why, time: body.time }, context)
  return { why: String(values.why), time: typeof values.time === 'number' ? values.time : null, at }
}

/** The instant of a press as the page wrote it; anything else counts for nothing. */
export function instantIn(raw: unknown): Date | null {
  const time = typeof raw === 'string' ? Date.parse(raw) : Number.NaN
  return Number.isNaN(time) ? null : new Date(time)
}
