import { randomUUID } from 'node:crypto'
import { z } from 'zod'
import { MarkFormPage, type MarkFormData } from '../../web/intake/markForm.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { fromThousandths, nearestPlace, placesOf, pointNear, toThousandths, type Body as VehicleBody, type ZonePlace } from '../../web/shared/zonePlaces.ts'
import { viewerOn } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { addPhotos, toSubject } from '../shared/photos/rows.ts'
import { limitsOf, takePictures } from '../shared/photos/taking.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { label } from '../shared/records/kind.ts'
import { idParams } from '../shared/records/schemas.ts'
import { readForm, type Body } from '../shared/records/submission.ts'
import { createRecord } from '../shared/records/table.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { conditionMark, MARK_KINDS } from './records.ts'
import { loadIntake } from './store.ts'

const thousandths = z.coerce.number().int().min(0).max(1000).optional().catch(undefined)
const pointQuery = z.object({ x: thousandths, y: thousandths })

export function registerMarkForm(app: App, { database: { reads } }: Shell): void {
  app.get('/builds/:id/marks/new', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: pointQuery } }, async (request, reply) => {
    const { x, y } = request.query
    const data = await markForm(reads, request.params.id, { ...(x === undefined || y === undefined ? {} : { x, y }) }, [])
    return sendPage(reply, MarkFormPage({ viewer: viewerOn(request), data }))
  })
}

/** Fields first, so that a mark that cannot be taken is told before its pictures are read. */
export function registerMarkPost(scope: App, shell: Shell): void {
  const { database } = shell
  scope.post('/builds/:id/marks', { config: { roles: EVERYBODY, takesFiles: true }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const buildId = request.params.id
    const typed = (request.body ?? {}) as Body
    const { build } = await loadIntake(database.reads, buildId)
    try {
      const submitted = readForm(conditionMark, viewer.role, true, { ...typed, ...pointOf(typed, build.vehicle.body as VehicleBody) }, viewer)
      const pictures = await takePictures(request, shell)
      const asked = { ...askedOf(request), body: { typed, hashes: pictures.map(({ hash }) => hash) } }
      const answer = await answerOnce(database, asked, async (write): Promise<Answer> => {
        const actor = actorOf(request, shell)
        const row = await createRecord(write, conditionMark, buildId, submitted, actor)
        await addPhotos(write, toSubject(conditionMark, row), pictures, { caption: '', limits: limitsOf(shell), actor })
        return { status: 303, location: `/builds/${buildId}/intake?saved=mark` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return sendPage(reply.status(422), MarkFormPage({ viewer, data: await markForm(database.reads, buildId, typed, error.fields) }))
    }
  })
}

/** The tapped point, or one near the chosen place. */
function pointOf({ x, y, place, spot }: Body, body: VehicleBody): Body {
  if (x !== undefined && y !== undefined) return { x, y }
  const chosen = placesOf(body).find((one) => one === place)
  if (!chosen) return {}
  const [along = 0, across = 0] = /^(-?[01]),(-?[01])$/.exec(String(spot ?? '0,0'))?.slice(1).map(Number) ?? []
  const point = toThousandths(pointNear(chosen, body, along as -1 | 0 | 1, across as -1 | 0 | 1))
  return { x: String(point.x), y: String(point.y) }
}

async function markForm(reads: Reads, buildId: string, typed: Body, problems: readonly FieldProblem[]): Promise<MarkFormData> {
  const { build } = await loadIntake(reads, buildId)
  const body = build.vehicle.body as VehicleBody
  const point = pointQuery.parse({ x: typed.x, y: typed.y })
  const isTapped = point.x !== undefined && point.y !== undefined
  const tapped = isTapped ? { x: point.x ?? 0, y: point.y ?? 0 } : null
  const place: ZonePlace = tapped ? nearestPlace(fromThousandths(tapped), body) : 'outside'
  const text = (name: string, initial = ''): string => String(typed[name] ?? initial)
  return {
    trail: [{ name: `${label('B', build.number)} ${build.title}`, href: `/builds/${buildId}` }, { name: 'Intake', href: `/builds/${buildId}/intake` }, { name: 'New mark' }],
    action: `/builds/${buildId}/marks`, key: text('_key') || randomUUID(), cancelHref: `/builds/${buildId}/intake`,
    body, point: tapped, places: placesOf(body), kinds: MARK_KINDS, problems,
    values: { kind: text('kind', 'scratch'), place: text('place', place), size: text('size'), note: text('note'), spot: text('spot', '0,0') },
  }
}
