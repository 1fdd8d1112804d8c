import { z } from 'zod'
import { BuildsPage } from '../../web/builds/builds.tsx'
import { EstimatePage } from '../../web/builds/estimate.tsx'
import { LedgerPage } from '../../web/builds/ledger.tsx'
import { RecordPage } from '../../web/records/record.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { loadVehicleState } from '../restoration/store.ts'
import { areStepsAway, firstDaySteps } from '../settings/firstDay.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { recordData } from '../shared/records/pageData.ts'
import { registerRecords } from '../shared/records/register.ts'
import { label } from '../shared/records/kind.ts'
import { idParams } from '../shared/records/schemas.ts'
import { getRecord } from '../shared/records/table.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { toEstimatePage } from './estimatePage.ts'
import { estimateWorkings } from './estimateWorkings.ts'
import { registerFigures } from './figureRoutes.ts'
import { figuresOf, seesMoney } from './figures.ts'
import { toGoingBack } from './goingBack.ts'
import { toLedger } from './ledger.ts'
import { ledgerWorkings } from './ledgerWorkings.ts'
import { toBuildsData, type ListAsked } from './list.ts'
import { build, zone, openPoint } from './records.ts'
import { savedOf } from './saved.ts'
import { loadSinceDelivery } from './sinceDelivery.ts'
import { hasAnyBuild, listBuildIds, loadBuild, loadBuilds, type StoredBuild } from './store.ts'

const BUILDS_A_PAGE = 50

const listQuery = z.object({
  show: z.enum(['open', 'builds', 'counter', 'delivered']).catch('open'),
  find: z.string().max(100).catch(''),
  before: z.coerce.number().int().positive().max(1_000_000_000).optional().catch(undefined),
})
const estimateQuery = z.object({ by: z.enum(['zone', 'part', 'equipment']).catch('zone'), how })
const ledgerQuery = z.object({ saved: z.enum(['created', 'changed', 'removed', 'recovered']).optional().catch(undefined), how })

export function registerBuilds(app: App, shell: Shell): void {
  registerRecords(app, shell, [build, zone, openPoint])
  registerFigures(app, shell)
  const { reads } = shell.database
  const seen = { config: { roles: EVERYBODY } }

  app.get('/builds', { ...seen, schema: { hide: true, querystring: listQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, BuildsPage({ viewer, data: await listed(request.query, request.query.before ?? null, viewer, areStepsAway(request)) }))
  })

  app.get('/builds/:id', { ...seen, schema: { hide: true, params: idParams, querystring: ledgerQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    const row = await getRecord(reads, build, id)
    const saved = request.query.saved ?? null
    const record = await recordData(reads, build, row, viewer, saved)
    if (row.removedAt) return sendPage(reply, RecordPage({ viewer, data: record }))
    const [stored, state] = await Promise.all([loadBuild(reads, id), loadVehicleState(reads, id)])
    const figures = figuresOf(stored)
    const back = toGoingBack(state)
    const ledger = toLedger({ stored, figures, back }, viewer)
    if (request.query.how !== undefined) {
      const trail = [{ name: `${ledger.number} ${ledger.title}`, href: `/builds/${id}` }]
      return sendWorking(reply, viewer, { workings: ledgerWorkings(stored, figures, back, ledger.zones), how: request.query.how, place: 'builds', trail })
    }
    const next = saved === 'created' ? nextOf(stored) : undefined
    return sendPage(reply, LedgerPage({ viewer, data: { ...ledger, sinceDelivery: await loadSinceDelivery(reads, stored), history: record.history, saved: savedOf(record.saved, viewer, next) } }))
  })

  app.get('/builds/:id/record', { ...seen, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const row = await getRecord(reads, build, request.params.id)
    return sendPage(reply, RecordPage({ viewer, data: await recordData(reads, build, row, viewer, null) }))
  })

  app.get('/builds/:id/estimate', { ...seen, schema: { hide: true, params: idParams, querystring: estimateQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const stored = await loadBuild(reads, request.params.id)
    const figures = figuresOf(stored)
    const data = toEstimatePage(stored, figures, request.query.by, viewer)
    if (request.query.how !== undefined) {
      const trail = [{ name: `${data.number} ${data.title}`, href: data.ledgerHref }, { name: 'Estimate and costing', href: `${data.ledgerHref}/estimate` }]
      return sendWorking(reply, viewer, { workings: estimateWorkings(stored, figures, seesMoney(viewer)), how: request.query.how, place: 'builds', trail })
    }
    return sendPage(reply, EstimatePage({ viewer, data }))
  })

  async function listed(asked: ListAsked, before: number | null, viewer: Viewer, isAway: boolean) {
    const find = asked.find.trim()
    const found = await listBuildIds(reads, { cut: asked.show, find, before, most: BUILDS_A_PAGE + 1 })
    const shown = found.slice(0, BUILDS_A_PAGE)
    const [builds, hasBuilds] = await Promise.all([loadBuilds(reads, shown.map(({ id }) => id)), hasAnyBuild(reads)])
    const firstSteps = hasBuilds || isAway ? [] : await firstDaySteps(reads, viewer.role)
    return toBuildsData({ builds, firstSteps, hasBuilds, olderThan: found.length > shown.length ? shown.at(-1)?.number ?? null : null }, { ...asked, find }, viewer)
  }
}

/** What follows on a build that was just entered; a counter job has all it needs. */
function nextOf({ head, lines }: StoredBuild): { href: string, name: string } {
  if (head.kind === 'counter job' && lines.length > 0) return { href: `/now?find=${label('B', head.number)}`, name: 'Start the timer' }
  return { href: `/zones/new?build=${head.id}`, name: 'Add the first zone' }
}
