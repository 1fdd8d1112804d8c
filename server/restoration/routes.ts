import { z } from 'zod'
import { RestorationPage } from '../../web/restoration/restoration.tsx'
import { ReturnToStockPage } from '../../web/restoration/returnToStock.tsx'
import { shopOf, viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { listChangesSince, stateInWords } from './changesStore.ts'
import { restorationJson, restorationSchema } from './apiAnswer.ts'
import { addressOf, partsNumbered, restorationData } from './restorationData.ts'
import { restorationWorkings } from './restorationWorkings.ts'
import { toRestoration } from './result.ts'
import { sheetData } from './sheetData.ts'
import { loadShopHead, loadVehicleState, type VehicleState } from './store.ts'

const as = z.enum(['recorded', 'planned']).optional()
const pageQuery = z.object({ scope: z.literal('all').optional(), part: z.union([z.uuid(), z.array(z.uuid()).max(500)]).optional(), f: z.string().regex(/^[\d,-]+$/).max(2000).optional(), as, how })
const apiQuery = z.object({
  parts: z.string().max(20_000).optional().describe('Ids of factory parts, comma-separated; all of them without it'), as,
})

type PageQuery = z.infer<typeof pageQuery>

function chosenIn({ scope, part, f }: PageQuery, state: VehicleState): 'all' | string[] {
  if (scope === 'all') return 'all'
  if (f !== undefined) return partsNumbered(f, state)
  return part === undefined ? [] : [...new Set([part].flat())]
}

/** The way back to stock: what it takes, and the sheet that leads through it. */
export function registerRestoration(app: App, shell: Shell): void {
  const { reads } = shell.database
  const seen = { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: pageQuery } } as const

  app.get('/builds/:id/restoration', seen, async (request, reply) => {
    const viewer = viewerOn(request)
    const state = await loadVehicleState(reads, request.params.id)
    const asked = { parts: chosenIn(request.query, state), basis: request.query.as }
    const data = restorationData(state, viewer, asked)
    if (request.query.how === undefined) return sendPage(reply, RestorationPage({ viewer, data }))
    const trail = [{ name: data.trail[0]?.name ?? '', href: `/builds/${request.params.id}` }, { name: 'Restore', href: `${data.action}?${addressOf(asked)}` }]
    return sendWorking(reply, viewer, { workings: restorationWorkings(state, data), how: request.query.how, place: 'builds', trail, places: 2 })
  })

  app.get('/builds/:id/return-to-stock', seen, async (request, reply) => {
    const viewer = viewerOn(request)
    const [state, shop] = await Promise.all([loadVehicleState(reads, request.params.id), loadShopHead(reads)])
    const chosen = chosenIn(request.query, state)
    const asked = { parts: chosen.length === 0 ? 'all' as const : chosen, basis: request.query.as }
    return sendPage(reply, ReturnToStockPage({ viewer, data: sheetData(state, shop, viewer, asked, await sinceDelivery(state)) }))
  })

  app.get('/api/builds/:id/restoration', {
    config: { roles: EVERYBODY },
    schema: {
      tags: ['removal and restoration'], summary: 'What it takes to return factory parts to stock', params: idParams, querystring: apiQuery,
      response: { 200: restorationSchema, ...problemAnswers },
    },
  }, async (request) => {
    const state = await loadVehicleState(reads, request.params.id)
    const ids = (request.query.parts ?? '').split(',').map((id) => id.trim()).filter((id) => id !== '')
    return restorationJson(toRestoration(state, { parts: ids.length === 0 ? 'all' : ids, basis: request.query.as }), state, viewerOn(request).role)
  })

  async function sinceDelivery({ build: { id, deliveredOn } }: VehicleState): Promise<string> {
    if (deliveredOn === null) return ''
    const { timeZone } = await shopOf(reads)
    return stateInWords(await listChangesSince(reads, { buildId: id, deliveredOn, timeZone }), (at) => calendarDateIn(timeZone, at))
  }
}
