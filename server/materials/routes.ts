import { z } from 'zod'
import { BillOfMaterialsPage } from '../../web/materials/billOfMaterials.tsx'
import { figuresOf, seesMoney } from '../builds/figures.ts'
import { loadBuild } from '../builds/store.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { registerRecords } from '../shared/records/register.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { billSchema, toBillAnswer } from './billAnswer.ts'
import { toBillPage } from './billPage.ts'
import { billWorkings } from './billWorkings.ts'
import { material, materialNeed } from './records.ts'

export function registerMaterials(app: App, shell: Shell): void {
  registerRecords(app, shell, [material, materialNeed])
  registerBill(app, shell)
}

function registerBill(app: App, { database }: Shell): void {
  app.get('/builds/:id/materials', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: z.object({ how }) } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const stored = await loadBuild(database.reads, request.params.id)
    const figures = figuresOf(stored)
    const data = toBillPage(stored, figures, viewer)
    if (request.query.how === undefined) return sendPage(reply, BillOfMaterialsPage({ viewer, data }))
    const trail = [{ name: `${data.titleBlock.build} ${stored.head.title}`, href: data.backHref }, { name: 'Bill of materials', href: `${data.backHref}/materials` }]
    return sendWorking(reply, viewer, { workings: billWorkings(figures, seesMoney(viewer)), how: request.query.how, place: 'builds', trail })
  })

  app.get('/api/builds/:id/bill-of-materials', {
    config: { roles: EVERYBODY },
    schema: {
      tags: ['figures'], summary: 'All that a build takes, through all levels, pegged and in whole packs', params: idParams,
      response: { 200: billSchema, ...problemAnswers },
    },
  }, async (request) => {
    const { bill } = figuresOf(await loadBuild(database.reads, request.params.id))
    return toBillAnswer(request.params.id, bill, seesMoney(viewerOn(request)))
  })
}
