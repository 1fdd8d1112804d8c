import t from 'tap'
import sharp from 'sharp'
import { randomUUID } from 'node:crypto'
import { chanceFrom } from '../support/chance.ts'
import { aWorld } from '../support/recordExamples.ts'
import { multipart, phonePicture, sendPhotos } from '../support/pictures.ts'
import { openShop, type Answer, type Json } from '../support/shop.ts'

const shop = await openShop(t)
const world = await aWorld(shop)
const technician = shop.as('technician')
const panel = { subjectKind: 'factory part', subjectId: world.panel }
const itemsOf = (answer: Answer): (Json & { id: string; sentAs: string; moment: string })[] => answer.json<{ items: (Json & { id: string; sentAs: string; moment: string })[] }>().items
const arrived = async (names: readonly string[]): Promise<string[]> => itemsOf(await technician.api.get(`/api/photos/arrived?sentAs=${names.join(',')}`)).map(({ sentAs }) => sentAs)

/** A tiny picture that no other of the row equals. */
const tiny = (index: number): Promise<Buffer> =>
  sharp(Buffer.from(Array.from({ length: 12 * 12 * 3 }, (_, at) => (at < 3 * 12 * 6 ? (index * 37) % 256 : (index * 101 + at * 7) % 256))), { raw: { width: 12, height: 12, channels: 3 } }).jpeg({ quality: 95 }).toBuffer()

t.test('of 200 pictures sent over a network that breaks off, in every way it can, each arrives once', { timeout: 60_000 }, async (t) => {
  const chance = chanceFrom(20310303)
  const waiting = new Map<string, Buffer>()
  for (let index = 0; index < 200; index += 1) waiting.set(randomUUID(), await tiny(index))
  const all = [...waiting.keys()]
  let failures = 0
  let asked = 0
  while (waiting.size > 0) {
    const [sentAs, data] = [...waiting][0]!
    const { payload, headers } = multipart({ ...panel, sentAs }, [{ name: 'a.jpg', data }])
    const fate = chance()
    const isCut = fate < 0.15
    const answer = await shop.app.inject({
      method: 'POST', url: '/api/photos', headers: { ...headers, authorization: `Bearer ${technician.token}` },
      payload: isCut ? payload.subarray(0, Math.floor(chance() * payload.length)) : payload,
    })
    if (isCut) t.ok(answer.statusCode >= 400 && answer.statusCode < 500, 'a sending that broke off is refused')
    // The picture is there, and its sender never hears of it.
    const isUnheard = !isCut && fate < 0.35
    if (isCut || isUnheard) {
      failures += 1
      // Half of the time the sender asks what has arrived, else it sends again.
      if (chance() < 0.5) continue
      asked += 1
      for (const name of await arrived([...waiting.keys()].slice(0, 50))) waiting.delete(name)
      continue
    }
    t.equal(answer.statusCode, 201, answer.body)
    waiting.delete(sentAs)
  }
  t.ok(failures > 40 && asked > 10, `${failures} failures, asked ${asked} times`)
  const rows = await shop.database.reads.photo.findMany({ where: panel })
  t.equal(rows.length, 200)
  t.same(new Set(rows.map(({ sentAs }) => sentAs)), new Set(all))
  t.equal(new Set(rows.map(({ hash }) => hash)).size, 200)
  const told = (await technician.api.get(`/api/factory-parts/${world.panel}/history`)).json<{ items: { changes: Json[] }[] }>().items.flatMap(({ changes }) => changes).filter(({ field }) => field === 'Photo')
  t.equal(told.length, 200, 'and the history tells of each once')
  const page = await technician.page(`/factory-parts/${world.panel}`)
  t.ok(Buffer.byteLength(page) <= 100_000, `${Buffer.byteLength(page)} bytes: the page stays light`)
  t.match(page, /140 earlier pictures/)
  let url: string | undefined = `/builds/${world.build}/photos`
  const seen = new Set<string>()
  while (url !== undefined) {
    const html: string = await technician.page(url)
    t.ok(Buffer.byteLength(html) <= 100_000, `${url}: ${Buffer.byteLength(html)} bytes`)
    for (const [, id] of html.matchAll(/src="\/photos\/([0-9a-f-]{36})\?size=small"/g)) seen.add(id!)
    url = /href="([^"]*\?after=[^"]*)"/.exec(html)?.[1]
  }
  t.equal(seen.size, 200, 'page by page all of them are shown')
})

t.test('a name stands for one picture of one sender and one record', async (t) => {
  const sentAs = randomUUID()
  const first = await sendPhotos(shop, technician, { ...panel, sentAs }, [{ name: 'a.jpg', data: await phonePicture(11) }])
  const again = await sendPhotos(shop, technician, { ...panel, sentAs }, [{ name: 'a.jpg', data: await phonePicture(12) }])
  t.equal(itemsOf(again)[0]?.id, itemsOf(first)[0]?.id, 'sent again under it, whatever it holds, it is the first')
  t.equal((await sendPhotos(shop, technician, { ...panel, subjectId: world.grille, sentAs }, [{ name: 'a.jpg', data: await phonePicture(11) }])).statusCode, 409)
  t.equal((await sendPhotos(shop, shop.as('manager'), { ...panel, sentAs }, [{ name: 'a.jpg', data: await phonePicture(11) }])).statusCode, 409)
  t.same(itemsOf(await shop.as('manager').api.get(`/api/photos/arrived?sentAs=${sentAs}`)), [], 'nobody asks for the pictures of others')
  t.equal((await sendPhotos(shop, technician, { ...panel, sentAs: randomUUID() }, [{ name: 'a.jpg', data: await phonePicture(13) }, { name: 'b.jpg', data: await phonePicture(14) }])).statusCode, 422)
  t.equal((await sendPhotos(shop, technician, { ...panel, sentAs: 'mine' }, [{ name: 'a.jpg', data: await phonePicture(13) }])).statusCode, 422)
  t.equal((await technician.api.get('/api/photos/arrived?sentAs=mine')).statusCode, 422)
  t.equal((await technician.api.post(`/api/photos/${itemsOf(first)[0]!.id}/removal`)).statusCode, 200)
  t.same(await arrived([sentAs]), [sentAs], 'one that was taken away has arrived all the same and is not sent again')
})

t.test('a photo says when it was taken: during for a removal, before for a mark of the intake, as said otherwise, and it can be changed', async (t) => {
  const removal = await technician.api.create('/api/removals', { buildId: world.build, factoryPartId: world.grille, kind: 'came out' })
  const mark = await technician.api.create('/api/condition-marks', { buildId: world.build, place: 'outside', x: 5, y: 5, kind: 'scratch' })
  const send = async (subjectKind: string, subjectId: string, shade: number, more: Record<string, string> = {}): Promise<Json & { id: string; moment: string }> =>
    itemsOf(await sendPhotos(shop, technician, { subjectKind, subjectId, ...more }, [{ name: 'a.jpg', data: await phonePicture(shade) }]))[0]!
  t.equal((await send('removal', removal.id, 21)).moment, 'during')
  t.equal((await send('condition mark', mark.id, 22)).moment, 'before')
  t.equal((await send('removal', removal.id, 23, { moment: 'after' })).moment, 'after')
  const { id, moment } = await send('factory part', world.panel, 24)
  t.equal(moment, '')
  const back = `/factory-parts/${world.panel}`
  const form = await technician.page(`/photos/${id}/form?back=${encodeURIComponent(back)}`)
  t.match(form, /name="caption"/)
  t.match(form, /<option value="after"/)
  const saved = await technician.post(`/photos/${id}/captions`, { caption: 'Clip side', moment: 'after', back })
  t.equal(saved.headers.location, `${back}#photos`)
  t.match((await technician.api.get(`/api/photos/${id}`)).json(), { caption: 'Clip side', moment: 'after' })
  t.match(await technician.page(back), /after, /)
  for (const [wrong, says] of [[{ caption: 'x'.repeat(201), moment: 'after' }, /at most 200/], [{ caption: 'Kept words', moment: 'never' }, /before, during or after/]] as const) {
    const refused = await technician.post(`/photos/${id}/captions`, { ...wrong, back })
    t.equal(refused.statusCode, 422)
    t.match(refused.body, says)
    t.match(refused.body, wrong.caption, 'what was typed is not lost')
  }
  t.equal((await shop.as('delivery').get(`/photos/${id}/form`)).statusCode, 403)
})
