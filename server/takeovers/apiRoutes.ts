import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { FieldProblems, forbidden } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { time, whole } from '../shared/records/field.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { BENCH, MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import type { Times } from './plan.ts'
import { SCOPES } from './scope.ts'
import { findBoth, loadSource, takeOver } from './takeover.ts'
import { TABLES } from './tables.ts'
import type { Wanted } from './wanted.ts'

const timeText = z.union([z.int(), z.string()]).optional().describe('s, or a text with its unit')
const wantedSchema = z.object({
  source: z.uuid().describe('The earlier build'),
  what: z.enum(SCOPES),
  part: z.uuid().optional().describe('The made part that comes with all its pieces; for what: made part'),
  zone: z.uuid().optional().describe('The zone whose factory parts and orders of removal come; for what: removal order'),
  into: z.uuid().optional().describe('The zone of this build they go into; a zone of the same name, or a new one, where left out'),
  leftOut: z.array(z.uuid()).max(5_000).default([]).describe('Records of the source that do not come along, with all that stands on them'),
  quantities: z.array(z.object({ id: z.uuid(), quantity: z.union([z.int(), z.string()]) })).max(5_000).default([]).describe('Other quantities of made parts and equipment lines'),
  operations: z.array(z.object({ id: z.uuid(), setUp: timeText, run: timeText, takesLogged: z.boolean().default(false).describe('Its logged work as the estimate') })).max(5_000).default([]),
  takesLoggedForAll: z.boolean().default(false),
})

const takenSchema = z.object({ buildId: z.string(), sourceId: z.string(), created: z.record(z.string(), z.int()).describe('How many rows of each kind') })

/** A technician takes over what the bench records; the plan of the build is the managers’. */
export function refuseTechnician({ role }: Viewer, what: string): void {
  if (what !== 'removal order' && !MANAGERS.includes(role)) throw forbidden('Only a manager copies made parts and whole scopes: they bring operations and prices. The order of removal of a zone you may take.')
}

/** Takes records of an earlier build into this one. */
export function registerTakeoverApi(app: App, shell: Shell): void {
  app.post('/api/builds/:id/takeovers', {
    config: { roles: BENCH },
    schema: {
      tags: ['templates'], summary: 'Copy a scope, a made part or an order of removal from an earlier build', params: idParams, body: wantedSchema,
      response: { 201: takenSchema, ...problemAnswers },
    },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    refuseTechnician(viewer, request.body.what)
    const wanted = toWanted(request.body, viewer)
    const { source } = await findBoth(shell.database.reads, id, wanted.sourceId)
    const loaded = await loadSource(shell.database.reads, source)
    const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
      const counts = await takeOver(write, id, wanted, loaded, actorOf(request, shell))
      return { status: 201, location: `/builds/${id}/comparison?source=${source.id}`, body: { buildId: id, sourceId: source.id, created: Object.fromEntries(TABLES.map((table) => [table, counts[table]])) } }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(answer.body as z.infer<typeof takenSchema>)
  })
}

const QUANTITY = whole('Quantity', 0, 1_000, { isRequired: true })
const SET_UP = time('Set-up')
const RUN = time('Run')

function toWanted(body: z.infer<typeof wantedSchema>, viewer: Viewer): Wanted {
  const problems: FieldProblem[] = []
  const read = (field: string, entry: typeof QUANTITY, raw: unknown): number => {
    const checked = entry.input(viewer).safeParse(raw)
    if (!checked.success) problems.push({ field, message: checked.error.issues[0]?.message ?? 'This cannot be taken.' })
    return checked.success ? Number(checked.data.value) : 0
  }
  const quantities = new Map(body.quantities.map(({ id, quantity }, index) => [id, read(`quantities.${index}.quantity`, QUANTITY, quantity)]))
  const times = new Map(body.operations.filter(({ setUp, run }) => setUp !== undefined || run !== undefined).map(({ id, setUp, run }, index): [string, Times] => [id, {
    ...(setUp === undefined ? {} : { setUp: read(`operations.${index}.setUp`, SET_UP, setUp) }), ...(run === undefined ? {} : { run: read(`operations.${index}.run`, RUN, run) }),
  }]))
  if (problems.length > 0) throw new FieldProblems(problems)
  return {
    sourceId: body.source, what: body.what, partId: body.part ?? null, zoneId: body.zone ?? null, intoZoneId: body.into ?? null,
    leftOut: new Set(body.leftOut), quantities, times, logged: new Set(body.operations.filter(({ takesLogged }) => takesLogged).map(({ id }) => id)),
    isLoggedForAll: body.takesLoggedForAll,
  }
}
