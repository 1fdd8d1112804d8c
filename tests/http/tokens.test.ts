import t from 'tap'
import { randomUUID } from 'node:crypto'
import { hashOfSecret, newSecret } from '../../server/shared/session.ts'
import { openShop, type Answer } from '../support/shop.ts'
import { csrfOf, HOUR_MS, send } from '../support/signingIn.ts'

t.test('a token of an owner with a lesser role does not make owners', async (t) => {
  const shop = await openShop(t)
  const token = newSecret()
  const now = new Date()
  await shop.database.write((write) => write.accessToken.create({
    data: { tokenHash: hashOfSecret(token), name: 'orders', role: 'manager', personId: shop.people.owner, createdAt: now, expiresAt: new Date(now.getTime() + HOUR_MS) },
  }))
  const headers = { authorization: `Bearer ${token}` }
  const answer = await shop.app.inject({ method: 'POST', url: '/api/people', headers, payload: { name: 'X', signInName: 'x.x', role: 'owner' } })
  t.equal(answer.statusCode, 403)
  const demotion = { role: 'technician', version: 2 }
  await shop.database.write((write) => write.person.update({ where: { id: shop.people.owner }, data: demotion }))
  const after = await shop.app.inject({ method: 'GET', url: '/api/people', headers })
  t.equal(after.statusCode, 401, 'and it ends when its maker may no longer do what it does')
})

t.test('a token is made by a signed-in person, does at most what they may, and is shown once', async (t) => {
  const shop = await openShop(t)
  const manager = shop.as('manager')
  const headers = { cookie: manager.cookie, 'x-csrf-token': await csrfOf(shop, manager.cookie) }
  const make = (order: object, more: Record<string, string> = {}): Promise<Answer> =>
    shop.app.inject({ method: 'POST', url: '/api/me/tokens', headers: { ...headers, ...more }, payload: order })
  t.equal((await make({ name: 'all', role: 'owner', days: 30 })).statusCode, 422)
  t.equal((await make({ name: 'for ever', role: 'manager', days: 366 })).statusCode, 422)
  const key = { 'idempotency-key': randomUUID() }
  const made = await make({ name: 'wood room scale', role: 'technician', days: 30 }, key)
  t.equal(made.statusCode, 201)
  const { secret, token } = made.json<{ secret: string; token: { id: string } }>()
  t.equal((await make({ name: 'wood room scale', role: 'technician', days: 30 }, key)).json().secret, null, 'not a second time')
  t.notOk(JSON.stringify(await shop.database.reads.idempotencyKey.findMany()).includes(secret))
  const bearer = { authorization: `Bearer ${secret}` }
  t.equal((await shop.app.inject({ method: 'GET', url: '/api/people', headers: bearer })).statusCode, 403, 'a technician’s view')
  t.equal((await shop.app.inject({ method: 'GET', url: '/api/me/tokens', headers: bearer })).statusCode, 200)
  const child = await shop.app.inject({ method: 'POST', url: '/api/me/tokens', headers: bearer, payload: { name: 'child', role: 'technician', days: 1 } })
  t.equal(child.statusCode, 403)
  t.equal((await shop.as('owner').api.post(`/api/me/tokens/${token.id}/revocation`)).statusCode, 404, 'a token is its maker’s alone')
  t.equal((await manager.api.post(`/api/me/tokens/${token.id}/revocation`)).statusCode, 200)
  t.equal((await shop.app.inject({ method: 'GET', url: '/api/me/tokens', headers: bearer })).statusCode, 401)
})

t.test('tokens are made and revoked on one’s own page too', async (t) => {
  const shop = await openShop(t)
  const technician = shop.as('technician')
  const wrong = await technician.post('/me/tokens', { name: 'scale', role: 'manager', days: '30' })
  t.equal(wrong.statusCode, 422)
  t.match(wrong.body, 'Role is at most your own: technician.')
  t.match(wrong.body, 'value="scale"', 'what was typed stands')
  const page = (await technician.post('/me/tokens', { name: '<b>scale</b>', role: 'technician', days: '30' })).body
  t.notMatch(page, '<b>scale')
  const secret = /class="formula"[^>]*>([\w-]{43})</.exec(page)?.[1] ?? ''
  const ask = (): Promise<Answer> => shop.app.inject({ method: 'GET', url: '/api/me/tokens', headers: { authorization: `Bearer ${secret}` } })
  t.equal((await ask()).statusCode, 200)
  t.notMatch(await technician.page('/me'), secret)
  const id = (await ask()).json<{ items: { id: string; name: string }[] }>().items.find(({ name }) => name.includes('scale'))!.id
  t.equal((await technician.post(`/me/tokens/${id}/revocation`)).headers.location, '/me?saved=revocation')
  t.equal((await ask()).statusCode, 401)
})

t.test('a token that has expired, or was never made, opens nothing', async (t) => {
  let now = new Date('2027-03-01T09:00:00Z')
  const shop = await openShop(t, { clock: () => now })
  t.equal((await shop.as('owner').api.get('/api/people')).statusCode, 200)
  now = new Date(now.getTime() + 365 * 24 * HOUR_MS)
  t.equal((await shop.as('owner').api.get('/api/people')).statusCode, 401)
  const strange = await shop.app.inject({ method: 'GET', url: '/api/people', headers: { authorization: `Bearer ${newSecret()}` } })
  t.equal(strange.statusCode, 401)
  t.equal(strange.headers['content-type'], 'application/problem+json')
})

t.test('a post needs the form’s token, and must come from our own pages', async (t) => {
  const shop = await openShop(t)
  const owner = shop.as('owner')
  const form = { units: 'inch', theme: 'dark' }
  t.equal((await send(shop, '/me/preferences', form, { cookie: owner.cookie })).statusCode, 403, 'no token')
  const strangers = await csrfOf(shop, shop.as('technician').cookie)
  t.equal((await send(shop, '/me/preferences', { ...form, _csrf: strangers }, { cookie: owner.cookie })).statusCode, 403, 'another session’s')
  for (const origin of ['https://elsewhere.example', 'null', 'not an address']) {
    t.equal((await owner.post('/me/preferences', form, { origin })).statusCode, 403, origin)
    t.equal((await send(shop, '/sign-in', { signInName: 'x', password: 'y' }, { origin })).statusCode, 403, `sign-in from ${origin}`)
  }
  t.equal((await owner.post('/me/preferences', form, { origin: 'http://shop.local:3700', host: 'shop.local:3700' })).statusCode, 303)
})
