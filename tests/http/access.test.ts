import t from 'tap'
import { randomUUID } from 'node:crypto'
import { subscribe } from 'node:diagnostics_channel'
import type { FastifyInstance, RouteOptions } from 'fastify'
import { CSRF } from '../../server/shared/csrf.ts'
import { hashOfSecret, newSecret } from '../../server/shared/session.ts'
import type { Role } from '../../web/shared/viewer.ts'
import { walk } from '../support/links.ts'
import { aWorld, examplesIn } from '../support/recordExamples.ts'
import { openShop, type Answer, type Json } from '../support/shop.ts'

const served: RouteOptions[] = []
subscribe('fastify.initialization', (message) => {
  const { fastify } = message as { fastify: FastifyInstance }
  fastify.addHook('onRoute', (route) => void served.push(route))
})

let now = new Date('2031-03-03T09:00:00Z')
const shop = await openShop(t, { clock: () => now })
const world = await aWorld(shop)

const ALL_ROLES = ['owner', 'manager', 'technician', 'delivery'] as const
const EVERYBODY: readonly Role[] = ALL_ROLES
const BENCH: readonly Role[] = ['owner', 'manager', 'technician']
const MANAGERS: readonly Role[] = ['owner', 'manager']
const COUNTER: readonly Role[] = ['owner', 'manager', 'delivery']
const OWNER: readonly Role[] = ['owner']

// Written by hand: who sees and who changes each kind of record, on pages and under /api alike.
const RECORDS: Readonly<Record<string, readonly [seen: readonly Role[], changed: readonly Role[]]>> = {
  'shop': [MANAGERS, OWNER],
  'departments': [MANAGERS, MANAGERS],
  'skills': [MANAGERS, MANAGERS],
  'bays': [MANAGERS, MANAGERS],
  'machines': [MANAGERS, MANAGERS],
  'outside-finishers': [MANAGERS, MANAGERS],
  'closings': [MANAGERS, MANAGERS],
  'absences': [MANAGERS, MANAGERS],
  'tax-codes': [MANAGERS, MANAGERS],
  'people': [MANAGERS, MANAGERS],
  'customers': [EVERYBODY, MANAGERS],
  'vehicles': [EVERYBODY, MANAGERS],
  'builds': [EVERYBODY, MANAGERS],
  'zones': [EVERYBODY, MANAGERS],
  'open-points': [EVERYBODY, EVERYBODY],
  'catalog': [EVERYBODY, MANAGERS],
  'equipment-lines': [EVERYBODY, BENCH],
  'parts': [EVERYBODY, BENCH],
  'part-uses': [EVERYBODY, BENCH],
  'operations': [EVERYBODY, BENCH],
  'predecessors': [EVERYBODY, MANAGERS],
  'finishes': [EVERYBODY, BENCH],
  'materials': [EVERYBODY, MANAGERS],
  'material-needs': [EVERYBODY, BENCH],
  'bins': [EVERYBODY, BENCH],
  'factory-parts': [EVERYBODY, BENCH],
  'fasteners': [EVERYBODY, BENCH],
  'removals': [EVERYBODY, BENCH],
  'order-edges': [EVERYBODY, BENCH],
  'alterations': [EVERYBODY, BENCH], 'replacement-parts': [EVERYBODY, BENCH],
  'intakes': [EVERYBODY, EVERYBODY],
  'condition-marks': [EVERYBODY, EVERYBODY],
  'fault-codes': [EVERYBODY, EVERYBODY],
  'standard-fittings': [BENCH, MANAGERS],
  'mounting-places': [EVERYBODY, BENCH],
  'kits': [EVERYBODY, MANAGERS],
  'kit-parts': [EVERYBODY, MANAGERS],
  'service-visits': [EVERYBODY, EVERYBODY],
  'maker-claims': [EVERYBODY, ['owner', 'manager', 'delivery']],
  'serial-swaps': [EVERYBODY, BENCH],
  'deliveries': [EVERYBODY, COUNTER],
  'build-stories': [MANAGERS, MANAGERS],
  'change-orders': [MANAGERS, MANAGERS],
  'quotes': [MANAGERS, MANAGERS],
  'quote-options': [MANAGERS, MANAGERS],
  'quote-lines': [MANAGERS, MANAGERS],
  'deposit-steps': [MANAGERS, MANAGERS],
}

// And of everything else.
const OTHERS: Readonly<Record<string, readonly Role[] | 'anyone'>> = {
  'GET /': 'anyone', 'GET /sign-in': 'anyone', 'POST /sign-in': 'anyone', 'POST /sign-out': 'anyone',
  'GET /first-owner': 'anyone', 'POST /first-owner': 'anyone', 'GET /new-password': 'anyone', 'POST /new-password': 'anyone',
  'GET /health/live': 'anyone', 'GET /health/ready': 'anyone', 'GET /api/openapi.json': 'anyone', 'GET /assets/*': 'anyone',
  'GET /me': EVERYBODY, 'POST /me/preferences': EVERYBODY, 'POST /me/password': EVERYBODY,
  'POST /me/tokens': EVERYBODY, 'POST /me/tokens/:id/revocation': EVERYBODY,
  'GET /api/me/tokens': EVERYBODY, 'POST /api/me/tokens': EVERYBODY, 'POST /api/me/tokens/:id/revocation': EVERYBODY,
  'GET /people/:id/codes': MANAGERS, 'POST /people/:id/codes': MANAGERS,
  'GET /builds/:id/as-built': EVERYBODY, 'GET /search': EVERYBODY, 'GET /api/search': EVERYBODY,
  'GET /imports': MANAGERS, 'POST /imports': MANAGERS, 'POST /imports/readings': MANAGERS, 'POST /api/imports': MANAGERS, 'GET /exports/:path': MANAGERS,
  'GET /departments/usual': MANAGERS, 'POST /departments/usual': MANAGERS, 'POST /settings/first-steps': MANAGERS,
  'GET /settings': MANAGERS, 'GET /stock': EVERYBODY,
  'GET /builds/:id/record': EVERYBODY, 'GET /builds/:id/estimate': EVERYBODY, 'GET /builds/:id/materials': EVERYBODY,
  'GET /builds/:id/alterations': EVERYBODY, 'GET /api/builds/:id/unsettled': EVERYBODY,
  'GET /builds/:id/teardown': BENCH, 'POST /builds/:id/teardown': BENCH, 'POST /builds/:id/teardown/withdrawals': BENCH, 'POST /builds/:id/teardown/fasteners': BENCH,
  'POST /builds/:id/teardown/notes': BENCH, 'POST /builds/:id/teardown/parts': BENCH, 'POST /builds/:id/teardown/edges': BENCH,
  'GET /api/builds/:id/teardown': BENCH, 'POST /api/builds/:id/teardown': BENCH,
  'GET /builds/:id/removal': EVERYBODY, 'POST /builds/:id/removals': BENCH,
  'POST /builds/:id/order-rules': BENCH, 'POST /builds/:id/order-answers': BENCH, 'POST /builds/:id/order-rules/presses': BENCH, 'POST /builds/:id/order-rules/:ruleId/undo': BENCH,
  'GET /builds/:id/restoration': EVERYBODY, 'GET /builds/:id/return-to-stock': EVERYBODY,
  'GET /api/builds/:id/estimate': EVERYBODY, 'GET /api/builds/:id/costing': EVERYBODY, 'GET /api/builds/:id/bill-of-materials': EVERYBODY,
  'GET /api/builds/:id/removal-order': EVERYBODY, 'GET /api/builds/:id/restoration': EVERYBODY,
  'POST /api/builds/:id/takeovers': BENCH, 'GET /builds/:id/templates': BENCH, 'GET /builds/:id/templates/preview': BENCH, 'POST /builds/:id/templates/preview': BENCH,
  'POST /builds/:id/takeovers': BENCH, 'GET /builds/:id/comparison': EVERYBODY,
  'GET /builds/:id/finishes': EVERYBODY, 'POST /finishes/:id/samples': EVERYBODY, 'POST /finishes/:id/approvals': COUNTER,
  'POST /api/finishes/:id/samples': EVERYBODY, 'POST /api/finishes/:id/approvals': COUNTER,
  'GET /parts/:id/record': EVERYBODY, 'GET /parts/:id/pieces/new': BENCH, 'POST /parts/:id/pieces': BENCH,
  'POST /material-needs/:id/kit-states': BENCH, 'POST /api/material-needs/:id/kit-states': BENCH,
  'GET /history': MANAGERS, 'GET /api/history': MANAGERS, 'GET /builds/:id/history': MANAGERS, 'GET /api/builds/:id/hour-corrections': MANAGERS,
  'POST /builds/:id/hour-corrections': MANAGERS, 'POST /builds/:id/hour-corrections/:correctionId/taken-back': MANAGERS,
  'POST /api/builds/:id/hour-corrections': MANAGERS, 'POST /api/builds/:id/hour-corrections/:correctionId/taken-back': MANAGERS,
  'GET /after': MANAGERS, 'GET /after/hours.csv': MANAGERS, 'GET /builds/:id/after': MANAGERS, 'GET /builds/:id/after/hours.csv': MANAGERS, 'GET /api/after': MANAGERS, 'GET /api/builds/:id/after': MANAGERS,
  'GET /builds/:id/what-if': MANAGERS, 'GET /api/builds/:id/what-if': MANAGERS,
  'GET /builds/:id/spread': EVERYBODY, 'GET /api/builds/:id/spread': EVERYBODY,
  'GET /builds/:id/change-orders': MANAGERS, 'POST /builds/:id/change-orders': MANAGERS, 'GET /builds/:id/change-orders/:oid': MANAGERS, 'POST /builds/:id/change-orders/:oid/revisions': MANAGERS,
  'GET /api/builds/:id/consent-guard': MANAGERS, 'POST /api/builds/:id/change-orders': MANAGERS, 'POST /api/change-orders/:id/revisions': MANAGERS,
  'GET /builds/:id/account': MANAGERS, 'GET /builds/:id/account.csv': MANAGERS, 'GET /builds/:id/hours.csv': MANAGERS, 'GET /builds/:id/quote-lines.csv': MANAGERS, 'GET /builds/:id/quote-draft.csv': MANAGERS, 'GET /api/builds/:id/account': MANAGERS,
  'GET /builds/:id/payments/new': MANAGERS, 'POST /builds/:id/payments': MANAGERS, 'GET /payments/:id/counter-entries/new': MANAGERS, 'POST /payments/:id/counter-entries': MANAGERS,
  'POST /api/builds/:id/payments': MANAGERS, 'POST /api/payments/:id/counter-entries': MANAGERS,
  'GET /builds/:id/invoices/new': MANAGERS, 'POST /builds/:id/invoices': MANAGERS, 'GET /invoices/:id': MANAGERS, 'GET /invoices/:id/paper': MANAGERS, 'GET /invoices/:id/invoice.pdf': MANAGERS,
  'GET /invoices/:id/credit-notes/new': MANAGERS, 'POST /invoices/:id/credit-notes': MANAGERS,
  'GET /api/builds/:id/invoice-draft': MANAGERS, 'POST /api/builds/:id/invoices': MANAGERS, 'GET /api/invoices/:id': MANAGERS, 'PUT /api/invoices/:id': MANAGERS, 'PATCH /api/invoices/:id': MANAGERS, 'DELETE /api/invoices/:id': MANAGERS,
  'PUT /api/payments/:id': MANAGERS, 'PATCH /api/payments/:id': MANAGERS, 'DELETE /api/payments/:id': MANAGERS, 'POST /api/invoices/:id/credit-notes': MANAGERS,
  'GET /builds/:id/quote': MANAGERS, 'POST /builds/:id/quote': MANAGERS, 'POST /builds/:id/option-assignments': MANAGERS, 'POST /builds/:id/revisions': MANAGERS,
  'GET /revisions/:id': MANAGERS, 'GET /revisions/:id/paper.pdf': MANAGERS, 'GET /revisions/:id/difference': MANAGERS, 'POST /revisions/:id/withdrawals': MANAGERS,
  'POST /revisions/:id/consents': MANAGERS, 'POST /revisions/:id/totals': MANAGERS,
  'GET /api/builds/:id/quote': MANAGERS, 'POST /api/builds/:id/quotes': MANAGERS, 'GET /api/builds/:id/revisions': MANAGERS, 'POST /api/builds/:id/revisions': MANAGERS, 'GET /api/builds/:id/consents': MANAGERS,
  'GET /api/revisions/:id': MANAGERS, 'PUT /api/revisions/:id': MANAGERS, 'PATCH /api/revisions/:id': MANAGERS, 'DELETE /api/revisions/:id': MANAGERS,
  'POST /api/revisions/:id/withdrawals': MANAGERS, 'POST /api/revisions/:id/consents': MANAGERS, 'GET /api/revisions/:id/difference': MANAGERS,
  'GET /builds/:id/fit': EVERYBODY, 'GET /api/builds/:id/fit': EVERYBODY,
  'GET /counter-jobs/new': MANAGERS, 'POST /counter-jobs': MANAGERS, 'POST /api/counter-jobs': MANAGERS,
  'GET /custody': EVERYBODY, 'GET /builds/:id/custody': EVERYBODY, 'GET /factory-parts/:id/custody': EVERYBODY, 'GET /custody-moves/:id/receipt': EVERYBODY, 'GET /custody-moves/:id/receipt.pdf': EVERYBODY,
  'GET /builds/:id/moves/new': EVERYBODY, 'POST /builds/:id/moves': EVERYBODY, 'GET /api/custody': EVERYBODY, 'GET /api/builds/:id/custody': EVERYBODY,
  'GET /api/factory-parts/:id/moves': EVERYBODY, 'POST /api/builds/:id/moves': EVERYBODY,
  'GET /builds/:id/labels': EVERYBODY, 'GET /builds/:id/labels/pdf': EVERYBODY,
  'GET /scan/:build': EVERYBODY, 'GET /scan/:build/:thing': EVERYBODY, 'GET /scan/:build/:thing/code.svg': EVERYBODY, 'POST /scan/:build/:thing/moves': EVERYBODY,
  'GET /api/builds/:id/schedule': EVERYBODY, 'GET /api/day': BENCH, 'GET /api/schedule/load': MANAGERS, 'GET /api/schedule/week': MANAGERS,
  'GET /builds/:id/schedule': EVERYBODY, 'GET /day': BENCH, 'GET /schedule/load': MANAGERS, 'GET /schedule/week': MANAGERS, 'GET /schedule': MANAGERS, 'POST /schedule/plan': MANAGERS, 'POST /schedule/stop': MANAGERS, 'GET /api/schedule': MANAGERS, 'POST /api/schedule': MANAGERS,
  'GET /schedule/proposals/:id': MANAGERS, 'POST /schedule/take': MANAGERS, 'POST /api/schedule/stop': MANAGERS, 'POST /api/schedule/take': MANAGERS, 'GET /api/schedule/proposals/:id': MANAGERS,
  'GET /schedule/chances': MANAGERS, 'GET /schedule/late': EVERYBODY, 'GET /api/schedule/operations/:id/late': EVERYBODY, 'GET /schedule/operations/:id': MANAGERS, 'POST /schedule/operations/:id': MANAGERS, 'POST /schedule/operations/:id/looks': MANAGERS, 'POST /api/schedule/operations/:id': MANAGERS,
  // Whose calendar is asked there: managers all, others their own days.
  'GET /calendars': EVERYBODY, 'POST /calendars': EVERYBODY, 'POST /calendars/:id/revocations': EVERYBODY, 'GET /api/calendars': EVERYBODY, 'POST /api/calendars': EVERYBODY, 'POST /api/calendars/:id/revocations': EVERYBODY,
  'GET /builds/:id/can-we': MANAGERS, 'GET /api/builds/:id/can-we': MANAGERS,
  'GET /calendar/:file': 'anyone', 'GET /calendar/*': 'anyone',
  'GET /stock-takes': EVERYBODY, 'POST /stock-takes': MANAGERS, 'GET /stock-takes/:n': EVERYBODY, 'GET /stock-takes/:n/bins/:id': EVERYBODY, 'GET /stock-takes/:n/places': EVERYBODY,
  'POST /stock-takes/:n/sightings': EVERYBODY, 'GET /stock-takes/:n/result': EVERYBODY, 'POST /stock-takes/:n/closings': MANAGERS, 'POST /stock-takes/:n/moves': MANAGERS,
  'GET /api/stock-takes': EVERYBODY, 'POST /api/stock-takes': MANAGERS, 'GET /api/stock-takes/:n': EVERYBODY, 'POST /api/stock-takes/:n/sightings': EVERYBODY,
  'POST /api/stock-takes/:n/closings': MANAGERS, 'POST /api/stock-takes/:n/moves': MANAGERS,
  // Who may add to a photo's record is asked there.
  'POST /photos': EVERYBODY, 'GET /photos/:id': EVERYBODY, 'GET /builds/:id/photos': EVERYBODY,
  'GET /photos/:id/form': EVERYBODY, 'GET /api/photos/arrived': EVERYBODY,
  'POST /photos/:id/removal': EVERYBODY, 'POST /photos/:id/recovery': EVERYBODY, 'POST /photos/:id/captions': EVERYBODY,
  'GET /api/photos': EVERYBODY, 'POST /api/photos': EVERYBODY, 'GET /api/photos/:id': EVERYBODY, 'GET /api/photos/:id/file': EVERYBODY,
  'POST /api/photos/:id/removal': EVERYBODY, 'POST /api/photos/:id/recovery': EVERYBODY, 'POST /api/photos/:id/captions': EVERYBODY,
  'GET /builds/:id/secrets': BENCH, 'POST /builds/:id/secrets': MANAGERS, 'POST /builds/:id/secrets/:sid/looks': BENCH, 'POST /builds/:id/secrets/:sid/erasures': MANAGERS,
  'GET /builds/:id/intake': EVERYBODY, 'POST /builds/:id/intake': EVERYBODY, 'POST /builds/:id/walks': EVERYBODY, 'POST /builds/:id/signatures': EVERYBODY,
  'GET /builds/:id/marks/new': EVERYBODY, 'POST /builds/:id/marks': EVERYBODY, 'GET /builds/:id/condition': EVERYBODY, 'POST /api/builds/:id/intakes': EVERYBODY,
  'GET /builds/:id/restorations': EVERYBODY, 'POST /builds/:id/restorations': EVERYBODY, 'GET /restorations/:id': EVERYBODY, 'POST /restorations/:id/marks': EVERYBODY,
  'GET /restorations/:id/history': EVERYBODY, 'GET /restorations/:id/sheet': EVERYBODY, 'GET /restorations/:id/sheet.pdf': EVERYBODY, 'GET /restorations/:id/photos/:hash': EVERYBODY,
  'GET /restorations/:id/closings/new': BENCH, 'POST /restorations/:id/closings': BENCH, 'POST /api/restorations/:id/closings': BENCH,
  'GET /api/builds/:id/restorations': EVERYBODY, 'POST /api/builds/:id/restorations': EVERYBODY, 'GET /api/restorations/:id': EVERYBODY,
  'GET /api/restorations/:id/marks': EVERYBODY, 'POST /api/restorations/:id/marks': EVERYBODY,
  'GET /builds/:id/links': COUNTER, 'POST /builds/:id/links': COUNTER, 'POST /links/:id/revocations': COUNTER,
  'GET /api/builds/:id/links': COUNTER, 'POST /api/builds/:id/links': COUNTER, 'POST /api/links/:id/revocations': COUNTER,
  'GET /l/:token': 'anyone', 'GET /l/:token/photos/:hash': 'anyone', 'GET /l/:token/files/:name': 'anyone', 'GET /l/*': 'anyone', 'POST /l/:token/:deed': 'anyone',
  'GET /builds/:id/final-check': EVERYBODY, 'GET /builds/:id/final-check/:point': EVERYBODY, 'POST /builds/:id/check-results': EVERYBODY, 'POST /builds/:id/check-signatures': EVERYBODY,
  'GET /api/builds/:id/final-check': EVERYBODY, 'POST /api/builds/:id/check-results': EVERYBODY, 'POST /api/builds/:id/check-signatures': EVERYBODY,
  'GET /builds/:id/story': MANAGERS, 'POST /builds/:id/story': MANAGERS, 'GET /builds/:id/story/preview': MANAGERS, 'GET /builds/:id/story/card': MANAGERS,
  'GET /api/builds/:id/story': MANAGERS, 'POST /api/builds/:id/stories': MANAGERS,
  'GET /builds/:id/delivery': EVERYBODY, 'POST /builds/:id/delivery': COUNTER, 'POST /builds/:id/receipts': COUNTER, 'POST /api/builds/:id/deliveries': COUNTER, 'POST /api/builds/:id/receipts': COUNTER,
  'GET /builds/:id/delivery-pack.pdf': EVERYBODY, 'GET /builds/:id/delivery-pack.zip': EVERYBODY, 'GET /api/builds/:id/delivery-pack': EVERYBODY,
  'GET /now': BENCH, 'GET /hours': BENCH, 'GET /hours/new': BENCH, 'POST /hours/new': BENCH,
  'GET /hours/:id/correction': BENCH, 'POST /hours/:id/correction': BENCH,
  'POST /timers': BENCH, 'POST /timer-stops': BENCH, 'POST /operations/:id/states': BENCH,
  'GET /api/time-entries': BENCH, 'GET /api/time-entries/:id': BENCH, 'POST /api/time-entries': BENCH,
  'POST /api/time-entries/:id/corrections': BENCH, 'GET /api/timer': BENCH, 'POST /api/timer': BENCH, 'POST /api/timer-stops': BENCH,
}

function expectedRoles(method: string, url: string): readonly Role[] | 'anyone' | null {
  const record = /^(?:\/api)?\/([a-z-]+)(\/new|\/:id(\/form|\/removal|\/recovery|\/history)?)?$/.exec(url)
  const [seen, changed] = RECORDS[record?.[1] ?? ''] ?? []
  const isRecordRoute = record && seen && !(`${method} ${url}` in OTHERS)
  if (!isRecordRoute) return OTHERS[`${method} ${url}`] ?? null
  const isChange = method !== 'GET' || record[2] === '/new' || record[3] === '/form'
  return (isChange ? changed : seen) ?? null
}

interface Served { readonly method: string; readonly url: string }

const routes: Served[] = served.flatMap(({ method, url }) => [method].flat().map((one) => ({ method: one, url })))
  .filter(({ method }) => method !== 'HEAD')

t.test('every address is in the table of who may call it, and no other is', async (t) => {
  const missing = routes.filter(({ method, url }) => expectedRoles(method, url) === null)
  t.same(missing, [], 'routes that the table does not know')
  const present = new Set(routes.map(({ method, url }) => `${method} ${url}`))
  const gone = Object.keys(OTHERS).filter((route) => !present.has(route))
  t.same(gone, [], 'lines of the table that no route stands for')
})

t.test('each role may call what the table says and nothing else', async (t) => {
  for (const { method, url } of routes) {
    const roles = expectedRoles(method, url)
    if (roles === 'anyone' || roles === null) continue
    for (const role of ALL_ROLES) {
      const mayCall = roles.includes(role)
      for (const answer of await askAs(role, method, url)) {
        const { statusCode } = answer
        // A route may refuse for a reason of its own, as a token that asks for another token.
        const isRefused = statusCode === 401 || (statusCode === 403 && answer.body.includes(`A ${role} may not open this`))
        if (mayCall && isRefused) t.fail(`${role} may call ${method} ${url} and got ${statusCode}`)
        if (!mayCall && !(statusCode === 403 && isRefused)) t.fail(`${role} may not call ${method} ${url} and got ${statusCode}`)
        if (statusCode >= 500) t.fail(`${method} ${url} as ${role}: ${statusCode}`)
      }
    }
    t.pass(`${method} ${url}: ${roles.join(', ')}`)
  }
})

t.test('nobody gets in without signing in: pages lead to the sign-in, all else is refused', async (t) => {
  for (const { method, url } of routes) {
    const isOpen = expectedRoles(method, url) === 'anyone'
    if (isOpen && method !== 'GET') continue
    const answer = await shop.app.inject({ method: method as 'GET', url: filled(url), ...(method === 'GET' ? {} : { payload: {} }) })
    if (isOpen) t.notOk([401, 403].includes(answer.statusCode), `${method} ${url}`)
    else if (method === 'GET' && !url.startsWith('/api')) {
      t.equal(answer.statusCode, 303, `${method} ${url}`)
      t.match(answer.headers.location, /^\/sign-in\?to=/)
    } else t.equal(answer.statusCode, 401, `${method} ${url}`)
  }
})

t.test('a token opens the API and no page, and only while it is valid', async (t) => {
  const { token, personId } = shop.as('manager')
  const bearer = (secret: string): { authorization: string } => ({ authorization: `Bearer ${secret}` })
  const ask = (secret: string, url = '/api/builds'): Promise<Answer> => shop.app.inject({ url, headers: bearer(secret) })
  t.equal((await ask(token)).statusCode, 200)
  t.equal((await ask(token, '/builds')).statusCode, 303, 'a page wants a signed-in person')
  t.equal((await ask('made-up')).statusCode, 401)
  const secrets = { expired: newSecret(), revoked: newSecret(), promoted: newSecret() }
  const row = { name: 'x', personId, role: 'manager', createdAt: now, expiresAt: new Date('2032-01-01') }
  await shop.database.write(async (write) => {
    await write.accessToken.create({ data: { ...row, tokenHash: hashOfSecret(secrets.expired), expiresAt: now } })
    await write.accessToken.create({ data: { ...row, tokenHash: hashOfSecret(secrets.revoked), revokedAt: now } })
    await write.accessToken.create({ data: { ...row, tokenHash: hashOfSecret(secrets.promoted), role: 'owner' } })
  })
  t.equal((await ask(secrets.expired)).statusCode, 401)
  t.equal((await ask(secrets.revoked)).statusCode, 401)
  t.equal((await ask(secrets.promoted)).statusCode, 401, 'a token with more rights than its maker has')
})

t.test('a session ends for somebody who may no longer sign in', async (t) => {
  const { api } = shop.as('owner')
  const delivery = shop.as('delivery')
  await delivery.page('/builds')
  const url = `/api/people/${delivery.personId}`
  t.equal((await api.patch(url, { isActive: false }, { 'if-match': '"1"' })).statusCode, 200)
  t.equal((await delivery.get('/builds')).statusCode, 303)
  t.equal((await delivery.api.get('/api/builds')).statusCode, 401, 'and the token with it')
  await api.patch(url, { isActive: true }, { 'if-match': '"2"' })
  t.equal((await delivery.get('/builds')).statusCode, 303, 'let in again, they sign in again')
  t.equal((await delivery.api.get('/api/builds')).statusCode, 200)
})

t.test('a form without its token, or from another site, writes nothing', async (t) => {
  const manager = shop.as('manager')
  const before = await shop.database.reads.customer.count()
  const send = (headers: Record<string, string>, csrf: string): Promise<Answer> => manager.post('/customers', { name: 'Forged', _csrf: csrf }, headers)
  const session = await shop.database.reads.session.findFirstOrThrow({ where: { personId: manager.personId } })
  const other = await shop.database.reads.session.findFirstOrThrow({ where: { personId: shop.people.owner } })
  for (const [headers, csrf] of [
    [{}, ''], [{}, 'made-up'], [{}, CSRF.create(other.csrfSecret)],
    [{ origin: 'https://elsewhere.example' }, CSRF.create(session.csrfSecret)], [{ origin: 'null' }, CSRF.create(session.csrfSecret)],
    [{ origin: 'http://localhost.elsewhere.example' }, CSRF.create(session.csrfSecret)],
  ] as const) t.equal((await send(headers, csrf)).statusCode, 403)
  t.equal((await shop.app.inject({ method: 'POST', url: '/api/customers', payload: { name: 'Forged' }, headers: { cookie: manager.cookie } })).statusCode, 403)
  t.equal(await shop.database.reads.customer.count(), before)
  t.equal((await send({ host: 'shop.local:3700', origin: 'http://shop.local:3700' }, CSRF.create(session.csrfSecret))).statusCode, 303)
})

t.test('nothing is written by a GET', async (t) => {
  const owner = shop.as('owner')
  const before = await shop.database.reads.auditEntry.count()
  await walk(owner, ['/', `/builds/${world.build}`], 1)
  t.equal(await shop.database.reads.auditEntry.count(), before)
})

t.test('money and contact stay with those who may see them: in pages, answers, forms and history', async (t) => {
  const { api } = shop.as('owner')
  const examples = examplesIn(world)
  const change = async (url: string, json: Json): Promise<string> => {
    const { version } = (await api.get(url)).json<{ version: number }>()
    const answer = await api.patch(url, json, { 'if-match': `"${version}"` })
    if (answer.statusCode !== 200) throw new Error(`${url}: ${answer.body}`)
    return url
  }
  const add = async (path: string, json: Json): Promise<string> => `/api/${path}/${(await api.create(`/api/${path}`, json)).id}`
  const contact = { contact: 'SECRET Imre', phone: 'SECRET 555', email: 'SECRET@mail', address: 'SECRET street', note: 'SECRET note' }
  const customer = await change(`/api/customers/${world.customer}`, contact)
  const others = [
    await change(`/api/vehicles/${world.vehicle}`, { plate: 'PLATE 7' }),
    await change(`/api/builds/${world.build}`, { budget: '4321.09', consent: '4321.08', consentBy: 'SECRET signer', consentOn: '2031-01-02' }),
    await change(`/api/catalog/${world.item}`, { cost: '4321.07', price: '4321.06' }),
    await change(`/api/equipment-lines/${world.line}`, { cost: '4321.05', price: '4321.04' }),
    await change(`/api/materials/${world.material}`, { packCost: '4321.03', packPrice: '4321.02' }),
    await change(await add('factory-parts', examples['factory part']!.json), { replaceCost: '4321.01' }),
    await change(await add('fasteners', examples.fastener!.json), { price: '4321.10' }),
    await change(await add('alterations', examples.alteration!.json), { partCost: '4321.11' }),
    await change(await add('replacement-parts', examples['replacement part']!.json), { cost: '4321.12' }),
    await add('operations', examples.operation!.json),
    await add('material-needs', examples['material need']!.json),
  ]
  const urls = [customer, ...others]
  const figures = ['estimate', 'costing', 'bill-of-materials', 'removal-order', 'restoration'].map((name) => `/api/builds/${world.build}/${name}`)
  const listUrls = urls.map((url) => url.replace(/\/[^/]*$/, ''))

  for (const role of ['technician', 'delivery'] as const) {
    const visitor = role === 'delivery' ? await signedInAgain() : shop.as(role)
    const secrets = role === 'technician' ? /4,?321[.,]?(0\d|1[01])\b|SECRET|PLATE 7/ : /4,?321[.,]?(0\d|1[01])\b|SECRET signer/
    for (const url of [...urls, ...urls.map((one) => `${one}/history`), ...listUrls, ...figures]) {
      const answer = await visitor.api.get(url)
      t.equal(answer.statusCode, 200, `${role}: ${url}`)
      t.notMatch(withoutChance(answer.body), secrets, `${role}: ${url}`)
      t.same(moneyKeys(answer.json()), [], `${role}: ${url} has no word of money`)
    }
    const starts = ['/', `/builds/${world.build}`, ...urls.map((url) => url.replace('/api', '')), ...listUrls.map((url) => `${url.replace('/api', '')}?build=${world.build}`)]
    const pages = await walk(visitor, starts)
    t.ok(pages.length > 60, `${pages.length} pages were looked at`)
    for (const { url, status, body: whole, from } of pages) {
      // A packed document holds any sequence of bytes by chance; the page it is drawn from is looked at.
      const body = whole.startsWith('%PDF') ? '' : withoutChance(whole)
      t.notMatch([401, 403], status, `${role} is offered ${url} on ${from}`)
      t.ok(status === 200 || status === 303, `${role}: ${url}, offered on ${from}, answers ${status}`)
      // Compressed bytes spell anything by chance; what is in these files is read by their own tests.
      if (/\.(?:pdf|zip)(?:\?|$)/.test(url)) continue
      if (secrets.test(body)) t.fail(`${role} sees on ${url}: ${secrets.exec(body)?.[0]}`)
      if (/[$]\s?\d|\d\s?USD/.test(body)) t.fail(`${role} sees money on ${url}: ${/.{60}[$]\s?\d.{20}/s.exec(body)?.[0] ?? ''}`)
    }
    if (role === 'delivery') t.match((await visitor.api.get(customer)).json(), { phone: 'SECRET 555' }, 'who delivers sees the contact')
    else t.match((await visitor.api.get(customer)).json(), { name: 'Harrow Lane Bakery' }, 'a technician sees the name')
  }
  const manager = await shop.as('manager').api.get(others[1]!)
  t.match(manager.json(), { budget: 432109, consentBy: 'SECRET signer' }, 'a manager sees all of it')
})

t.test('a role cannot write what it cannot see', async (t) => {
  const { api } = shop.as('technician')
  const versionOf = async (url: string): Promise<string> => String((await api.get(url)).json<{ version: number }>().version)
  const line = `/api/equipment-lines/${world.line}`
  const cases = [[line, 'cost'], [`/api/factory-parts/${world.panel}`, 'replaceCost'], [`/api/operations/${world.operation}`, 'run']] as const
  for (const [url, field] of cases) {
    const answer = await api.patch(url, { [field]: '12' }, { 'if-match': await versionOf(url) })
    t.equal(answer.statusCode, 422, `${url}: ${field}`)
    t.equal(answer.json<{ fields: { field: string }[] }>().fields[0]?.field, field)
  }
  const form = { name: 'Speaker', zoneId: world.zone, quantity: '2', suppliedBy: 'shop', mounting: 'on the board', cost: '1.00', price: '2.00' }
  const saved = await shop.as('technician').post(line.replace('/api', ''), { ...form, _version: await versionOf(line) })
  t.equal(saved.statusCode, 303, saved.body)
  t.match((await shop.as('manager').api.get(line)).json(), { cost: 432105, price: 432104, mounting: 'on the board' }, 'a price smuggled into a form changes nothing')
})

// Last: time passes.
t.test('a session ends after twelve hours without a request', async (t) => {
  const technician = shop.as('technician')
  now = new Date('2031-03-03T20:30:00Z')
  await technician.page('/builds')
  now = new Date('2031-03-04T08:00:00Z')
  await technician.page('/builds')
  now = new Date('2031-03-04T20:01:00Z')
  t.equal((await technician.get('/builds')).statusCode, 303)
})

const filled = (url: string): string => url.replaceAll(/:[so]?id\b/g, () => randomUUID())

/** The same request as a browser and with a token, where both are possible. */
async function askAs(role: Role, method: string, url: string): Promise<Answer[]> {
  const visitor = shop.as(role)
  const address = filled(url)
  if (!url.startsWith('/api')) return [method === 'GET' ? await visitor.get(address) : await visitor.post(address)]
  if (method === 'GET') return [await visitor.api.get(address), ...(role === 'technician' ? [await visitor.get(address)] : [])]
  if (method === 'PUT' || method === 'DELETE') return [await shop.app.inject({ method, url: address, headers: { authorization: `Bearer ${visitor.token}` }, payload: {} })]
  return [method === 'PATCH' ? await visitor.api.patch(address, {}) : await visitor.api.post(address, {})]
}

async function signedInAgain(): Promise<ReturnType<typeof shop.as>> {
  const delivery = shop.as('delivery')
  const secret = delivery.cookie.slice(delivery.cookie.indexOf('=') + 1)
  await shop.database.write((write) => write.session.create({
    data: {
      tokenHash: hashOfSecret(secret), csrfSecret: CSRF.secretSync(), personId: delivery.personId,
      createdAt: now, seenAt: now, expiresAt: new Date(now.getTime() + 86_400_000),
    },
  }))
  return delivery
}

/** Names of values that are money, wherever they stand in an answer. */
function moneyKeys(json: unknown): string[] {
  if (Array.isArray(json)) return json.flatMap(moneyKeys)
  if (json === null || typeof json !== 'object') return []
  return Object.entries(json).flatMap(([key, value]) =>
    [...(/cost|price|(?<!^learning)rate$|margin|sell|budget|^consent$|amount/i.test(key) && typeof value === 'number' ? [key] : []), ...moneyKeys(value)])
}

// Ids and the guards of forms are random signs: now and then they spell a sum or a currency.
function withoutChance(body: string): string {
  return body.replace(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/gi, 'ID').replace(/(name="_csrf" value=")[^"]*/g, '$1')
}
