import { RemovalPage } from '../../web/restoration/removal.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, notFound, Problem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import type { Body } from '../shared/records/submission.ts'
import { BENCH } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { nameThings } from '../restoration/naming.ts'
import { loadVehicleState, type VehicleState } from '../restoration/store.ts'
import { writeAnswer, type ChosenRule } from './answerStore.ts'
import { removalData } from './removalData.ts'
import { viewIn } from './ruleRoutes.ts'

/** The answer to what stands in front of what once a factory part is back on: one press, all rules of it or none. */
export function registerOrderAnswers(app: App, shell: Shell): void {
  const { database } = shell

  app.post('/builds/:id/order-answers', { config: { roles: BENCH }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    const body = (request.body ?? {}) as Body
    const state = await loadVehicleState(database.reads, id)
    const { partId, chosen } = readAnswer(state, body)
    const { of, zone } = viewIn(body)
    try {
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        await writeAnswer(write, id, partId, chosen, actorOf(request, shell))
        const query = new URLSearchParams({ ...(of === undefined ? {} : { of }), ...(zone === undefined ? {} : { zone: String(zone) }), answered: partId })
        return { status: 303, location: `/builds/${id}/removal?${query.toString()}` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      const data = await removalData(database.reads, viewer, { buildId: id, asked: viewIn(body), savedId: null, answer: { body, problems: error.fields } })
      // What was recorded since may have settled the question: then it has no form to come back to.
      const isAsked = data.questions?.some(({ problems }) => problems.length > 0) ?? false
      if (!isAsked) throw new Problem(409, 'Not recorded', error.fields.map(({ message }) => message).join(' '))
      return sendPage(reply.status(422), RemovalPage({ viewer, data }))
    }
  })
}

/** Throws a 404 where the part is none of this build; other things that are none are left out. */
function readAnswer(state: VehicleState, body: Body): { partId: string, chosen: ChosenRule[] } {
  const ids = new Map([...nameThings(state)].map(([id, { number }]) => [number, id]))
  const part = String(body.part ?? '')
  const partId = ids.get(part)
  if (partId === undefined || !state.input.factoryParts.some(({ id }) => id === partId)) throw notFound('factory part')
  const items = Object.entries(body).flatMap(([field, value]): ChosenRule[] => {
    const itemId = field.startsWith(`item-${part}-`) ? ids.get(field.slice(`item-${part}-`.length)) : undefined
    if (itemId === undefined || itemId === partId || (value !== 'front' && value !== 'behind')) return []
    return [value === 'front' ? { field, beforeId: partId, afterId: itemId } : { field, beforeId: itemId, afterId: partId }]
  })
  const still = [body[`still-${part}`]].flat().flatMap((value): ChosenRule[] => {
    const beforeId = ids.get(String(value ?? ''))
    return beforeId === undefined || beforeId === partId ? [] : [{ field: `still-${part}`, beforeId, afterId: partId }]
  })
  return { partId, chosen: [...items, ...still] }
}
