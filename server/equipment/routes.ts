import { z } from 'zod'
import { LineKit } from '../../web/kits/lineKit.tsx'
import { RecordPage } from '../../web/records/record.tsx'
import { lineKitData } from '../kits/kitData.ts'
import { LineFitBlock } from '../../web/fit/fit.tsx'
import { fitsOf, type LineFit } from '../builds/fitChecks.ts'
import { loadBuild } from '../builds/store.ts'
import { fitWorkings, toFitLine } from '../fit/fitData.ts'
import type { Row } from '../shared/database/delegate.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { nameOf } from '../shared/records/display.ts'
import { recordData } from '../shared/records/pageData.ts'
import { registerRecords } from '../shared/records/register.ts'
import { idParams } from '../shared/records/schemas.ts'
import { getRecord } from '../shared/records/table.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { equipmentItem, equipmentLine } from './records.ts'

const savedQuery = z.object({ saved: z.enum(['created', 'changed', 'removed', 'recovered']).optional().catch(undefined), how })

export function registerEquipment(app: App, shell: Shell): void {
  registerRecords(app, shell, [equipmentItem, equipmentLine])
  registerLine(app, shell)
  // The place "Stock" begins with the materials; the catalog stands beside them.
  app.get('/stock', { config: { roles: EVERYBODY }, schema: { hide: true } }, async (_request, reply) => reply.redirect('/materials', 303))
}

function registerLine(app: App, { database: { reads } }: Shell): void {
  app.get('/equipment-lines/:id', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: savedQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const row = await getRecord(reads, equipmentLine, request.params.id)
    if (request.query.how !== undefined) {
      const workings = new Map([...(await lineKitData(reads, row.id, viewer))?.workings ?? [], ...(typeof row.placeId === 'string' ? fitWorkings(await loadBuild(reads, String(row.buildId))) : [])])
      return sendWorking(reply, viewer, { workings, how: request.query.how, place: 'builds', trail: [{ name: nameOf(equipmentLine, row), href: `/equipment-lines/${row.id}` }] })
    }
    const [data, kit, fit] = await Promise.all([recordData(reads, equipmentLine, row, viewer, request.query.saved ?? null), lineKitData(reads, row.id, viewer), fitOf(row)])
    const own = row.removedAt ? [] : [
      ...(fit ? [LineFitBlock({ line: toFitLine(fit, viewer), fitHref: `/builds/${String(row.buildId)}/fit` })] : []),
      ...(kit ? [LineKit({ data: kit, csrfToken: viewer.csrfToken })] : []),
    ]
    return sendPage(reply, RecordPage({ viewer, data, children: own }))
  })

  async function fitOf(row: Row): Promise<LineFit | undefined> {
    if (typeof row.placeId !== 'string') return undefined
    return fitsOf(await loadBuild(reads, String(row.buildId))).find(({ line }) => line.id === row.id)
  }
}
