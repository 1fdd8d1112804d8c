import { z } from 'zod'
import { AccountPage } from '../../web/accounts/account.tsx'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { idParams } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { accountPage, accountWorkings, loadAccount, SAVED_WORDS, buildName } from './accountData.ts'
import { accountCsv, hoursCsv, quoteDraftCsv, quoteLinesCsv } from './csv.ts'

const query = z.object({ how, saved: z.enum(SAVED_WORDS).optional().catch(undefined) })

/** The account of a build, on a page and for spreadsheets. */
export function registerAccountPages(app: App, { database: { reads }, clock }: Shell): void {
  const config = { roles: MANAGERS }

  app.get('/builds/:id/account', { config, schema: { hide: true, params: idParams, querystring: query } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const loaded = await loadAccount(reads, request.params.id)
    const href = `/builds/${request.params.id}`
    if (request.query.how !== undefined) {
      return sendWorking(reply, viewer, { workings: accountWorkings(loaded), how: request.query.how, place: 'builds', trail: [{ name: buildName(loaded.head), href }, { name: 'Account', href: `${href}/account` }] })
    }
    return sendPage(reply, AccountPage({ viewer, data: accountPage(loaded, viewer, request.query.saved ?? null) }))
  })

  for (const [name, draw] of [['account', accountCsv], ['hours', hoursCsv], ['quote-lines', quoteLinesCsv], ['quote-draft', quoteDraftCsv]] as const) {
    app.get(`/builds/:id/${name}.csv`, { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
      const viewer = viewerOn(request)
      const { file, text } = await draw(reads, request.params.id, viewer, clock())
      return reply.type('text/csv; charset=utf-8; header=present').header('content-disposition', `attachment; filename="${file}-${viewer.today}.csv"`).header('cache-control', 'no-store').send(text)
    })
  }
}
