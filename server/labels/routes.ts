import { z } from 'zod'
import { LabelsPage } from '../../web/labels/labels.tsx'
import { LABEL_SHEETS, placesOn, type LabelSheet } from '../calc/labelSheets.ts'
import { viewerOn } from '../shared/access.ts'
import { originOf } from '../shared/origin.ts'
import { sendPage } from '../shared/pages.ts'
import { label } from '../shared/records/kind.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { CHOICES, toLabels } from './labels.ts'
import { labelsData, type LabelsAsked } from './labelsData.ts'
import { labelsPdf } from './labelsPdf.ts'
import { loadLabeled } from './store.ts'

const uuid = z.object({ id: z.uuid() })
const query = z.object({
  what: z.enum(CHOICES).catch('bins').default('bins'),
  number: z.string().trim().max(20).regex(/^(?:[AF]?-?0*\d{1,6})?$/i, 'Write the number as F-021 or A-003.').default(''),
  sheet: z.string().max(20).default(''),
  start: z.coerce.number().int().min(1).catch(1).default(1),
})

/** What a role with the ordinary right to see the build prints, on label sheets or on plain paper to cut. */
export function registerLabels(app: App, shell: Shell): void {
  const { reads } = shell.database

  app.get('/builds/:id/labels', { config: { roles: EVERYBODY }, schema: { hide: true, params: uuid, querystring: query } }, async (request, reply) =>
    sendPage(reply, LabelsPage({ viewer: viewerOn(request), data: await labelsData(reads, request.params.id, toAsked(request.query)) })))

  app.get('/builds/:id/labels/pdf', { config: { roles: EVERYBODY }, schema: { hide: true, params: uuid, querystring: query } }, async (request, reply) => {
    const { what, number, sheet, start } = toAsked(request.query)
    const build = await loadLabeled(reads, request.params.id)
    const labels = toLabels(build, what, number)
    const data = await labelsPdf({ labels, sheet, start, origin: originOf(request, shell) }, (signs) => request.log.warn({ event: 'signs the fonts lack', signs }, 'labels'))
    return reply.type('application/pdf').header('cache-control', 'no-store').header('content-disposition', `inline; filename="labels-${label('B', build.number)}.pdf"`).send(data)
  })
}

function toAsked({ what, number, sheet, start }: z.infer<typeof query>): LabelsAsked {
  const chosen = sheetOf(sheet)
  const digits = /\d+$/.exec(number)?.[0]
  return { what, number: digits === undefined ? null : Number(digits), sheet: chosen, start: Math.min(start, placesOn(chosen)) }
}

function sheetOf(key: string): LabelSheet {
  const [first] = LABEL_SHEETS
  const found = LABEL_SHEETS.find((sheet) => sheet.key === key) ?? first
  if (!found) throw new Error('there are no label sheets')
  return found
}
