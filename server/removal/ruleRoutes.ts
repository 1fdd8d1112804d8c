import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { RemovalPage } from '../../web/restoration/removal.tsx'
import { viewerOn } from '../shared/access.ts'
import type { Actor } from '../shared/audit.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import type { Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, notFound, Problem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { isId } from '../shared/records/field.ts'
import { idParams } from '../shared/records/schemas.ts'
import { readForm, type Body } from '../shared/records/submission.ts'
import { changeRecord, createRecord, getRecord, setRemoved } from '../shared/records/table.ts'
import { BENCH } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { nameThings } from '../restoration/naming.ts'
import { loadVehicleState, type VehicleState } from '../restoration/store.ts'
import { orderEdge } from './records.ts'
import { removalData } from './removalData.ts'
import type { RuleDone } from './ruleSaved.ts'

const ruleParams = z.object({ id: z.uuid(), ruleId: z.uuid() })
const config = { roles: BENCH }

/** Rules of order changed by words on the page of the orders: one added, one taken away or back, one loosened. */
export function registerOrderRules(app: App, shell: Shell): void {
  const { database } = shell

  app.post('/builds/:id/order-rules', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    const body = (request.body ?? {}) as Body
    const state = await loadVehicleState(database.reads, id)
    try {
      const submitted = readForm(orderEdge, viewer.role, true, { ...body, beforeId: idIn(state, body.beforeId), afterId: idIn(state, body.afterId) }, viewer)
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        const row = await createRecord(write, orderEdge, id, submitted, actorOf(request, shell))
        return { status: 303, location: backTo(id, body, row.id, 'added') }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      const data = await removalData(database.reads, viewer, { buildId: id, asked: viewIn(body), savedId: null, typed: { body, problems: error.fields } })
      return sendPage(reply.status(422), RemovalPage({ viewer, data }))
    }
  })

  app.post('/builds/:id/order-rules/presses', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const { remove, turn } = (request.body ?? {}) as Body
    return typeof remove === 'string' ? pressed(request, reply, [remove, 'removed']) : pressed(request, reply, [String(turn), 'changed'])
  })

  app.post('/builds/:id/order-rules/:ruleId/undo', { config, schema: { hide: true, params: ruleParams } }, (request, reply) => {
    const { did } = (request.body ?? {}) as Body
    return pressed(request, reply, [request.params.ruleId, did === 'changed' || did === 'recovered' ? did : 'removed'])
  })

  /** One press on a rule of this build. */
  async function pressed(request: FastifyRequest, reply: FastifyReply, [ruleId, did]: [string, Did]): Promise<FastifyReply> {
    const { id } = idParams.parse(request.params)
    const body = (request.body ?? {}) as Body
    const asked = askedOf(request)
    // One form holds all presses of a page: each has a key of its own.
    const key = asked.key === null ? null : `${asked.key} ${ruleId.slice(0, 36)} ${did}`
    try {
      const answer = await answerOnce(database, { ...asked, key }, async (write): Promise<Answer> => {
        const row = isId(ruleId) ? await getRecord(write, orderEdge, ruleId) : null
        if (row?.buildId !== id) throw notFound('rule')
        await change(write, row, did, actorOf(request, shell))
        return { status: 303, location: backTo(id, body, ruleId, did) }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      // A press has no form to come back to: it says what is wrong.
      if (error instanceof FieldProblems) throw new Problem(409, 'Not recorded', error.fields.map(({ message }) => message).join(' '))
      throw error
    }
  }
}

/** Away, back, or from out to loosened and the other way round. */
async function change(write: Write, row: Row, did: Did, actor: Actor): Promise<void> {
  if (did !== 'changed') return void await setRemoved(write, orderEdge, row.id, did === 'removed', actor)
  const kind = row.kind === 'out' ? 'loosened' : 'out'
  await changeRecord(write, orderEdge, row.id, row.version, { values: { kind }, entered: {} }, actor)
}

type Did = RuleDone['did']

const viewSchema = z.object({ of: z.string().regex(/^[A-Z]-\d{1,7}$/).optional().catch(undefined), zone: z.coerce.number().int().min(0).max(100_000).optional().catch(undefined) })

export const viewIn = (body: Body): z.infer<typeof viewSchema> => viewSchema.parse({ of: body.of, zone: body.zone })

function backTo(buildId: string, body: Body, ruleId: string, did: Did): string {
  const { of, zone } = viewIn(body)
  const query = new URLSearchParams({ ...(of === undefined ? {} : { of }), ...(zone === undefined ? {} : { zone: String(zone) }), rule: ruleId, did })
  return `/builds/${buildId}/removal?${query.toString()}`
}

/** The thing that was chosen by its number and name; what is none stays as it was typed, so that its field is refused. */
function idIn(state: VehicleState, typed: unknown): unknown {
  if (typeof typed !== 'string') return typed
  const number = /^[A-Z]-\d+/.exec(typed)?.[0]
  return [...nameThings(state)].find(([, thing]) => thing.number === number)?.[0] ?? typed
}
