import t from 'tap'
import { brotliDecompressSync, gunzipSync } from 'node:zlib'
import { openShop, type Answer } from '../support/shop.ts'

const shop = await openShop(t)
const plainer: Readonly<Record<string, (body: Buffer) => Buffer>> = { br: brotliDecompressSync, gzip: gunzipSync }

t.test('pages, answers and stylesheets come compressed where that is asked for, and say the same', async (t) => {
  const { get, api } = shop.as('owner')
  const asks: readonly (readonly [string, (headers: Record<string, string>) => Promise<Answer>])[] = [
    ['a page', (headers) => get('/settings', headers)],
    ['an answer', (headers) => api.get('/api/openapi.json', headers)],
    ['a stylesheet', (headers) => get('/assets/putback.css', headers)],
  ]
  for (const [name, ask] of asks) {
    const plain = await ask({})
    t.equal(plain.headers['content-encoding'], undefined, `${name} is plain unless it is asked for`)
    for (const encoding of ['br', 'gzip']) {
      const answer = await ask({ 'accept-encoding': encoding })
      t.equal(answer.headers['content-encoding'], encoding, `${name}: ${encoding}`)
      t.equal(withoutGuard(plainer[encoding]!(answer.rawPayload).toString()), withoutGuard(plain.body), `${name}: the same`)
      t.ok(answer.rawPayload.length < plain.rawPayload.length / 2, `${name}: less than half`)
      t.match(answer.headers.vary, /accept-encoding/i)
    }
  }
})

t.test('what is small stays plain, and so does all that is asked for from a page of another site', async (t) => {
  const { get } = shop.as('owner')
  t.equal((await get('/health/live', { 'accept-encoding': 'gzip' })).headers['content-encoding'], undefined)
  t.equal((await get('/settings', { 'accept-encoding': 'gzip', 'sec-fetch-site': 'cross-site' })).headers['content-encoding'], undefined)
  t.equal((await get('/settings', { 'accept-encoding': 'gzip', 'sec-fetch-site': 'same-origin' })).headers['content-encoding'], 'gzip')
})

t.test('the guard of forms is another on every page, so that no length can tell it', async (t) => {
  const { page } = shop.as('owner')
  const guards = new Set(await Promise.all(Array.from({ length: 5 }, async () => /name="_csrf" value="([^"]+)"/.exec(await page('/settings'))?.[1])))
  t.equal(guards.size, 5)
})

const withoutGuard = (html: string): string => html.replaceAll(/(name="_(?:csrf|key)" value=")[^"]*/g, '$1')
