import t, { type Test } from 'tap'
import { pino } from 'pino'
import sharp from 'sharp'
import { Writable } from 'node:stream'
import { buildApp } from '../../server/app.ts'
import { defineSharedPage } from '../../server/shared/links/sharedPages.ts'
import { openPhotoFiles } from '../../server/shared/photos/files.ts'
import { hashOfSecret } from '../../server/shared/session.ts'
import { aBuild } from '../support/aBuild.ts'
import { rowsOf } from '../support/rows.ts'
import { openShop, type Answer } from '../support/shop.ts'

let now = new Date('2031-03-03T09:00:00Z')
const shop = await openShop(t, { clock: () => now })
const { build, zone } = await aBuild(shop)
const manager = shop.as('manager')

const files = openPhotoFiles(shop.config.photosDir)
const picture = (color: string): Promise<Buffer> => sharp({ create: { width: 60, height: 40, channels: 3, background: color } }).jpeg().toBuffer()
const shownHash = await files.store(await picture('#446'))
const otherHash = await files.store(await picture('#644'))

// A page of its own kind: what the mechanism promises holds for any.
defineSharedPage({
  subjectKind: 'zone card', roles: ['owner', 'manager'], longestDays: 400,
  list: async (reads, buildId) => (await reads.zone.findMany({ where: { buildId, removedAt: null } })).map(({ id, name }) => ({ id, name: `Card of ${name}` })),
  draw: async ({ reads, subjectId, base }) => {
    const found = await reads.zone.findFirst({ where: { id: subjectId, removedAt: null } })
    return found ? `<!doctype html><p>${found.name}</p><img src="${base}/photos/${shownHash}">` : null
  },
  photoHashes: async () => [shownHash],
  file: async (_, name) => (name === 'card.txt' ? { type: 'text/plain', data: Buffer.from('the card'), name: 'card.txt' } : null),
})
const subject = `zone card:${zone.id}`

async function makeLink(days: unknown = 30, note = 'Imre'): Promise<{ path: string, id: string, token: string }> {
  const answer = await manager.api.post(`/api/builds/${build.id}/links`, { subject, note, days })
  if (answer.statusCode !== 201) throw new Error(answer.body)
  const { address, link } = answer.json<{ address: string, link: { id: string } }>()
  const path = new URL(address).pathname
  return { path, id: link.id, token: path.slice('/l/'.length) }
}
const openAs = (path: string, headers: Record<string, string> = {}): Promise<Answer> => shop.app.inject({ url: path, headers })
const isGone = (t: Test, answer: Answer, why: string): void => {
  t.equal(answer.statusCode, 404, why)
  t.equal(answer.body, goneBody, `${why}: the same page`)
}
const goneBody = (await openAs('/l/made-up')).body

t.test('a link opens its page to anybody, says so to no one else, and nothing is written', async (t) => {
  const { path, token } = await makeLink()
  t.ok(Buffer.from(token, 'base64url').length >= 16, 'at least 128 bits')
  const stored = await shop.database.reads.shareLink.findFirstOrThrow({ where: { tokenHash: hashOfSecret(token) } })
  t.notOk(JSON.stringify(stored).includes(token), 'only the hash is kept')
  const before = JSON.stringify(await rowsOf(shop.database))
  t.notOk(before.includes(token))
  const answer = await openAs(path, { cookie: manager.cookie })
  t.equal(answer.statusCode, 200)
  t.match(answer.body, 'Front doors')
  t.match(answer.headers, { 'referrer-policy': 'no-referrer', 'x-robots-tag': /noindex/, 'cache-control': 'no-store' })
  await openAs(path)
  await openAs(`${path}/photos/${shownHash}`)
  await shop.app.inject({ method: 'HEAD', url: path })
  t.equal(JSON.stringify(await rowsOf(shop.database)), before, 'opening it changes nothing, not even for somebody signed in')
})

t.test('pictures and files of the page are given out through the link and no others', async (t) => {
  const { path } = await makeLink()
  const shown = await openAs(`${path}/photos/${shownHash}`)
  t.equal(shown.statusCode, 200)
  t.equal(shown.headers['content-type'], 'image/jpeg')
  t.equal((await openAs(`${path}/photos/${shownHash}?size=small`)).statusCode, 200)
  isGone(t, await openAs(`${path}/photos/${otherHash}`), 'a picture that the page does not show')
  isGone(t, await openAs(`${path}/photos/..%2F..%2Fputback.db`), 'a way out of the folder')
  t.equal((await openAs(`${path}/files/card.txt`)).body, 'the card')
  isGone(t, await openAs(`${path}/files/other.txt`), 'a file that there is not')
  t.equal((await openAs(`/photos/${shownHash}`)).statusCode, 303, 'elsewhere pictures ask for a sign-in')
})

t.test('unknown, cut short, expired and withdrawn links lead to one same page', async (t) => {
  const { path, id } = await makeLink()
  for (const strange of [path.slice(0, -1), `${path}x`, '/l/', '/l/%00', `/l/${'x'.repeat(500)}`, `${path}/else`]) isGone(t, await openAs(strange), strange.slice(0, 60))
  t.match(goneBody, 'Ask the shop that gave it to you')
  await shop.database.write((write) => write.shareLink.update({ where: { id }, data: { expiresAt: new Date('2031-03-03T10:00:00Z') } }))
  now = new Date('2031-03-03T09:59:59Z')
  t.equal((await openAs(path)).statusCode, 200, 'a second before it ends')
  now = new Date('2031-03-03T10:00:00Z')
  isGone(t, await openAs(path), 'expired')
  isGone(t, await openAs(`${path}/photos/${shownHash}`), 'its pictures with it')
  const second = await makeLink()
  t.equal((await manager.post(`/links/${second.id}/revocations`)).statusCode, 303)
  isGone(t, await openAs(second.path), 'withdrawn')
  t.equal((await manager.api.post(`/api/links/${second.id}/revocations`)).statusCode, 200, 'withdrawing twice is once')
})

t.test('the page of links shows an address once, then for whom, until when and whether it is open', async (t) => {
  const form = { subject, note: 'Tarn <b>shop', days: '', _key: 'one-link' }
  const made = await manager.post(`/builds/${build.id}/links`, form)
  const address = /http:\/\/[^<]*\/l\/[\w-]+/.exec(made.body)?.[0]
  t.ok(address, 'shown right after it was made')
  t.notMatch(made.body, '<b>shop')
  const again = await manager.post(`/builds/${build.id}/links`, form)
  t.notMatch(again.body, /\/l\/[\w-]{20,}/, 'a repeated request does not show it again')
  t.equal(await shop.database.reads.shareLink.count({ where: { note: 'Tarn <b>shop' } }), 1, 'and makes no second')
  const listed = await manager.page(`/builds/${build.id}/links`)
  t.notMatch(listed, /\/l\/[\w-]{20,}/)
  t.match(listed, /Tarn &lt;b>shop[\s\S]*Card of Front doors[\s\S]*Mon 3 Mar 2031, Test manager[\s\S]*Sun 1 Jun 2031[\s\S]*open/, '90 days unless said otherwise')
  t.match(listed, 'withdrawn')
  t.match(listed, 'expired')
  const history = await manager.api.get(`/api/builds/${build.id}/history`)
  t.match(history.body, 'made a link to Card of Front doors for Tarn')
  t.notOk(history.body.includes(new URL(address ?? '').pathname.slice(3)), 'the history does not hold the secret')
})

t.test('a link that cannot be made says why and keeps what was typed', async (t) => {
  const post = (form: Record<string, string>): Promise<Answer> => manager.post(`/builds/${build.id}/links`, { subject, note: 'Imre', days: '30', ...form })
  const tooLong = await post({ days: '401' })
  t.equal(tooLong.statusCode, 422)
  t.match(tooLong.body, 'Valid for 1 to 400 days')
  t.match(tooLong.body, 'value="Imre"')
  for (const wrong of [{ days: '0' }, { days: '1.5' }, { days: 'many' }, { note: ' ' }, { note: 'x'.repeat(201) }, { subject: `zone card:${build.id}` }, { subject: '' }]) {
    t.equal((await post(wrong)).statusCode, 422, JSON.stringify(wrong).slice(0, 80))
  }
  const delivery = shop.as('delivery')
  t.equal((await delivery.post(`/builds/${build.id}/links`, { subject, note: 'Imre' })).statusCode, 422, 'delivery is offered no card, so it can make no link to one')
  const { id } = await makeLink()
  t.equal((await delivery.post(`/links/${id}/revocations`)).statusCode, 403, 'nor withdraw one')
})

t.test('when the record is taken away, or its build, the link leads nowhere', async (t) => {
  const { path } = await makeLink()
  await shop.database.write((write) => write.zone.update({ where: { id: zone.id }, data: { removedAt: now } }))
  isGone(t, await openAs(path), 'the zone is gone')
  await shop.database.write((write) => write.zone.update({ where: { id: zone.id }, data: { removedAt: null } }))
  await shop.database.write((write) => write.build.update({ where: { id: build.id }, data: { removedAt: now } }))
  isGone(t, await openAs(path), 'the build is gone')
  isGone(t, await openAs(`${path}/photos/${shownHash}`), 'and its pictures')
  await shop.database.write((write) => write.build.update({ where: { id: build.id }, data: { removedAt: null } }))
})

t.test('no secret stands in the log', async (t) => {
  const { path, token } = await makeLink()
  let log = ''
  const stream = new Writable({ write(chunk: Buffer, _, done) { log += chunk.toString(); done() } })
  const app = await buildApp({ config: shop.config, database: shop.database, clock: () => now }, pino({ level: 'trace' }, stream))
  t.teardown(() => app.close())
  await app.inject({ url: path })
  await app.inject({ url: `${path}/photos/${otherHash}?size=small` })
  await app.inject({ method: 'POST', url: path })
  t.match(log, '/l/(secret)')
  t.match(log, '/l/(secret)/photos/')
  t.notOk(log.includes(token))
})

t.test('who tries too often waits', async (t) => {
  const answers: number[] = []
  for (let tries = 0; tries < 310; tries += 1) answers.push((await shop.app.inject({ url: '/l/guess', remoteAddress: '203.0.113.9' })).statusCode)
  t.ok(answers.includes(429))
  t.equal(answers.indexOf(429), 300)
})
