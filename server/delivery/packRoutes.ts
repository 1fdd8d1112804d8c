import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { makeSheet, PAPERS } from '../shared/pdf/makeSheet.ts'
import { photoFilesOf } from '../shared/photos/taking.ts'
import { forbidden } from '../shared/problems.ts'
import { idParams } from '../shared/records/schemas.ts'
import { EVERYBODY, MANAGERS } from '../shared/roles.ts'
import type { Role } from '../../web/shared/viewer.ts'
import type { App, Shell } from '../shared/shell.ts'
import { makeArchive } from './archive.ts'
import { packSheet } from './packPdf.ts'
import { packWhole } from './packing.ts'
import { moneyQuery } from './schemas.ts'

const paperQuery = z.object({ paper: z.enum(PAPERS).catch('A4') })

/** Whether prices are put in: only where a manager asks. Throws a 403 for anybody else who does. */
export function pricesFor(role: Role, money: 'yes' | undefined): boolean {
  if (money === undefined) return false
  if (!MANAGERS.includes(role)) throw forbidden('Prices are put in by a manager.')
  return true
}

/** The pack as files: one to print, one that needs nothing else. */
export function registerPackFiles(app: App, shell: Shell): void {
  const { reads } = shell.database
  const config = { roles: EVERYBODY }

  app.get('/builds/:id/delivery-pack.pdf', { config, schema: { hide: true, params: idParams, querystring: paperQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const packed = await packWhole(reads, photoFilesOf(shell), request.params.id, { showsMoney: false, size: 'small', viewer })
    const { data } = await makeSheet(packSheet(packed, viewer, request.query.paper), (signs) => request.log.warn({ signs }, 'signs that the fonts lack'))
    return reply.type('application/pdf').header('cache-control', 'no-store').header('content-disposition', `inline; filename="${packed.pack.build.number}-delivery-pack.pdf"`).send(data)
  })

  app.get('/builds/:id/delivery-pack.zip', { config, schema: { hide: true, params: idParams, querystring: moneyQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const packed = await packWhole(reads, photoFilesOf(shell), request.params.id, { showsMoney: pricesFor(viewer.role, request.query.money), size: 'large', viewer })
    return reply.type('application/zip').header('cache-control', 'no-store').header('content-disposition', `attachment; filename="${packed.pack.build.number}-delivery-pack.zip"`).send(await makeArchive(packed, viewer.units))
  })
}
