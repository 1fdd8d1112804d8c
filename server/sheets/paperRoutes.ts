import type { FastifyBaseLogger } from 'fastify'
import { z } from 'zod'
import { ReturnToStockPage } from '../../web/restoration/returnToStock.tsx'
import { viewerOn } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { sendPage } from '../shared/pages.ts'
import { PAPERS, type PaperSize } from '../shared/pdf/makeSheet.ts'
import { readPicture } from '../shared/photos/reading.ts'
import { photoFilesOf } from '../shared/photos/taking.ts'
import { notFound } from '../shared/problems.ts'
import { idParams } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { hashesOf, standingPictures, toPaper, type PaperReader } from './paper.ts'
import { makePaperPdf } from './paperPdf.ts'
import { getSheet, listStanding, type StoredSheet } from './store.ts'

const paperQuery = z.object({ paper: z.enum(PAPERS).default('A4').catch('A4') })
const photoParams = idParams.extend({ hash: z.string().regex(/^[0-9a-f]{64}$/) })
const sizeQuery = z.object({ size: z.enum(['small']).optional().catch(undefined) })

/** A frozen sheet on paper: as a page that prints, as PDF, with the pictures that stand on it. */
export function registerSheetPapers(app: App, shell: Shell): void {
  const { reads } = shell.database
  const config = { roles: EVERYBODY }

  app.get('/restorations/:id/sheet', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const sheet = await getSheet(reads, request.params.id)
    const pictures = standingPictures(sheet, await listStanding(reads, sheet.buildId, hashesOf(sheet)))
    const data = toPaper(sheet, viewer.role, pictures, (hash) => `/restorations/${sheet.id}/photos/${hash}`)
    return sendPage(reply, ReturnToStockPage({ viewer, data: { ...data, backHref: `/restorations/${sheet.id}` } }))
  })

  app.get('/restorations/:id/sheet.pdf', { config, schema: { hide: true, params: idParams, querystring: paperQuery } }, async (request, reply) => {
    const sheet = await getSheet(reads, request.params.id)
    const data = await paperPdf({ shell, reads, sheet, paper: request.query.paper, reader: viewerOn(request).role, log: request.log })
    return reply.type('application/pdf').header('cache-control', 'no-store').header('content-disposition', `inline; filename="${sheet.number}.pdf"`).send(data)
  })

  app.get('/restorations/:id/photos/:hash', { config, schema: { hide: true, params: photoParams, querystring: sizeQuery } }, async (request, reply) => {
    const { id, hash } = request.params
    const sheet = await getSheet(reads, id)
    const isShown = hashesOf(sheet).includes(hash) && (await listStanding(reads, sheet.buildId, [hash])).has(hash)
    const data = isShown ? await readPicture(photoFilesOf(shell), hash, request.query.size ?? 'large') : null
    if (!data) throw notFound('photo')
    return reply.type('image/jpeg').header('cache-control', 'private, max-age=86400').header('content-disposition', 'inline').send(data)
  })
}

interface PaperOrder {
  readonly shell: Shell
  readonly reads: Reads
  readonly sheet: StoredSheet
  readonly paper: PaperSize
  readonly reader: PaperReader
  readonly log: FastifyBaseLogger
}

/** The PDF of a frozen sheet for this reader, always in metric with both torques. */
export async function paperPdf({ shell, reads, sheet, paper, reader, log }: PaperOrder): Promise<Buffer> {
  const pictures = standingPictures(sheet, await listStanding(reads, sheet.buildId, hashesOf(sheet)))
  const files = photoFilesOf(shell)
  const { data } = await makePaperPdf({
    paper, pictures, data: toPaper(sheet, reader, pictures, () => ''), reader: { units: 'metric', currency: sheet.content.currency },
    readPicture: (hash) => readPicture(files, hash, 'small'),
    onMissing: (signs) => log.warn({ sheet: sheet.number, signs }, 'signs that the fonts of papers lack stand as their codes'),
  })
  return data
}
