import t from 'tap'
import sharp from 'sharp'
import { createHash, randomBytes } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { crc32 } from 'node:zlib'
import { aBuild } from '../support/aBuild.ts'
import { aWorld } from '../support/recordExamples.ts'
import { CAMERA, multipart, phonePicture, postForm, sendPhotos, type SentFile } from '../support/pictures.ts'
import { openShop, type Answer, type Json } from '../support/shop.ts'

const shop = await openShop(t)
const world = await aWorld(shop)
const technician = shop.as('technician')
const panel = { subjectKind: 'factory part', subjectId: world.panel }
const picture = await phonePicture()
const { photosDir } = shop.config
const filesThere = (): string[] => (existsSync(photosDir) ? readdirSync(photosDir, { recursive: true }).map(String).filter((name) => name.endsWith('.jpg')).sort() : [])
const countRows = (): Promise<number> => shop.database.reads.photo.count()
type Photo = Json & { id: string; hash: string; width: number; height: number }
const itemsOf = (answer: Answer): Photo[] => answer.json<{ items: Photo[] }>().items

t.test('a photo is stored upright and without what the phone wrote into it, under the hash of its bytes', async (t) => {
  t.match(picture.toString('latin1'), CAMERA, 'the sent file names the camera')
  t.ok((await sharp(picture).metadata()).exif?.includes(Buffer.from('N\0')), 'and says where it was taken')
  const answer = await sendPhotos(shop, technician, { ...panel, caption: 'Before' }, [{ name: 'front.jpg', data: picture }])
  t.equal(answer.statusCode, 201, answer.body)
  const [photo] = itemsOf(answer)
  t.match(photo, { ...panel, caption: 'Before', buildId: world.build, width: 40, height: 64 }, 'turned upright')
  const file = join(photosDir, photo!.hash.slice(0, 2), `${photo!.hash}.jpg`)
  const stored = readFileSync(file)
  t.equal(createHash('sha256').update(stored).digest('hex'), photo!.hash)
  t.notMatch(stored.toString('latin1'), /Exif|GPS|Testcamera/, 'no trace of camera and place in its bytes')
  const { exif, xmp, iptc, orientation } = await sharp(stored).metadata()
  t.same([exif, xmp, iptc, orientation], [undefined, undefined, undefined, undefined])
})

t.test('the same picture of the same record is one photo, however often it is sent', async (t) => {
  const [rows, files] = [await countRows(), filesThere()]
  const again = await sendPhotos(shop, technician, panel, [{ name: 'front.jpg', data: picture }, { name: 'copy.jpg', data: picture }])
  t.equal(again.statusCode, 201)
  t.equal(await countRows(), rows)
  t.same(filesThere(), files)
  const other = await sendPhotos(shop, technician, { subjectKind: 'factory part', subjectId: world.grille }, [{ name: 'front.jpg', data: picture }])
  t.equal(itemsOf(other)[0]?.subjectId, world.grille)
  t.equal(await countRows(), rows + 1, 'another record has its own row')
  t.same(filesThere(), files, 'and the file is there once')
  const key = { 'idempotency-key': 'one sending' }
  const first = await sendPhotos(shop, technician, panel, [{ name: 'a.jpg', data: await phonePicture(30) }], key)
  t.equal((await sendPhotos(shop, technician, panel, [{ name: 'a.jpg', data: await phonePicture(30) }], key)).body, first.body)
  t.equal((await sendPhotos(shop, technician, panel, [{ name: 'a.jpg', data: await phonePicture(31) }], key)).statusCode, 422, 'other pictures under the same key are refused')
})

t.test('large pictures are made smaller, PNG and WebP become JPEG, see-through becomes white', async (t) => {
  const wide = await sharp({ create: { width: 3000, height: 900, channels: 4, background: { r: 0, g: 0, b: 0, alpha: 0 } } }).png().toBuffer()
  const webp = await sharp({ create: { width: 50, height: 50, channels: 3, background: '#246' } }).webp().toBuffer()
  const [first, second] = itemsOf(await sendPhotos(shop, technician, { subjectKind: 'build', subjectId: world.build }, [{ name: 'wide.png', data: wide }, { name: 'x.webp', data: webp }]))
  t.match(first, { width: 2000, height: 600 })
  t.match(second, { width: 50, height: 50 })
  const large = await technician.get(`/photos/${first!.id}`)
  t.match(large.headers, { 'content-type': 'image/jpeg', 'cache-control': 'private, max-age=31536000, immutable', 'x-content-type-options': 'nosniff' })
  const stats = await sharp(large.rawPayload).stats()
  t.ok(stats.channels.every(({ min }) => min > 250), 'white where nothing was')
  const small = await technician.get(`/photos/${first!.id}?size=small`)
  t.match(await sharp(small.rawPayload).metadata(), { format: 'jpeg', width: 480, height: 144 })
  t.equal((await technician.api.get(`/api/photos/${first!.id}/file`)).headers['content-type'], 'image/jpeg', 'a program gets it with its token')
})

t.test('what is no picture, empty, broken, too large or of another kind is refused by its name, and the others of its row are kept', async (t) => {
  const good = { name: 'good.jpg', data: await phonePicture(77, 900, 600) }
  await sendPhotos(shop, technician, panel, [good])
  const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic'), Buffer.alloc(64)])
  const bomb = claiming(await sharp({ create: { width: 4, height: 4, channels: 3, background: '#000' } }).png().toBuffer(), 9000, 8000)
  const cases: readonly (readonly [SentFile, number, RegExp])[] = [
    [{ name: 'page.jpg', data: Buffer.from('<!doctype html><script>alert(1)</script>') }, 422, /page\.jpg is no picture that can be read here/],
    [{ name: 'drawing.svg', data: Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>') }, 422, /drawing\.svg is no picture/],
    [{ name: 'phone.heic', data: heic }, 422, /phone\.heic is stored as HEIC or AVIF.*Set the camera to JPEG/],
    [{ name: 'half.jpg', data: good.data.subarray(0, Math.floor(good.data.length / 2)) }, 422, /half\.jpg is damaged or broke off/],
    [{ name: 'only-a-head.png', data: Buffer.concat([Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'), Buffer.alloc(400, 7)]) }, 422, /only-a-head\.png is damaged/],
    [{ name: 'bomb.png', data: bomb }, 422, /bomb\.png has more than 64 million pixels/],
    [{ name: 'empty.jpg', data: Buffer.alloc(0) }, 422, /empty\.jpg is empty: nothing of it arrived/],
    [{ name: 'heavy.jpg', data: Buffer.concat([good.data, Buffer.alloc(15_000_001)]) }, 413, /heavy\.jpg has more than 15 MB/],
  ]
  const before = [await countRows(), filesThere()]
  for (const [file, status, says] of cases) {
    const answer = await sendPhotos(shop, technician, panel, [file])
    t.equal(answer.statusCode, status, `${file.name}: ${answer.body}`)
    t.match(answer.json<{ detail: string }>().detail, says)
    const beside = await sendPhotos(shop, technician, panel, [file, good])
    t.match(beside.json(), { items: [{ subjectId: world.panel }], refused: [{ name: file.name, message: says }] }, `${file.name} beside a good one`)
    t.notMatch(answer.body, /vips|sharp|node_modules/i, 'nothing of the inside is told')
  }
  const many = Array.from({ length: 11 }, (_, index) => ({ name: `${index}.jpg`, data: picture }))
  t.match((await sendPhotos(shop, technician, panel, many)).json(), { status: 413, detail: /At most 10 pictures/ })
  t.match((await sendPhotos(shop, technician, panel, [])).json(), { status: 422, detail: /Choose at least one picture/ })
  t.match((await sendPhotos(shop, technician, { ...panel, subjectKind: 'customer' }, [good])).json(), { status: 404 })
  t.match((await sendPhotos(shop, technician, { ...panel, caption: 'x'.repeat(201) }, [good])).json(), { status: 422, detail: /Caption is at most 200/ })
  t.same([await countRows(), filesThere()], before, 'of what was refused nothing is stored')
  const row = await sendPhotos(shop, technician, panel, [{ name: 'first.jpg', data: await phonePicture(150) }, ...cases.slice(0, 6).map(([file]) => file), { name: 'last.jpg', data: await phonePicture(170) }])
  t.equal(row.json<{ items: unknown[] }>().items.length, 2)
  t.equal(row.json<{ refused: unknown[] }>().refused.length, 6)
  t.equal(await countRows(), Number(before[0]) + 2)
  const page = await postForm(shop, technician, '/photos', panel, [{ name: 'page.jpg', data: Buffer.from('no') }])
  t.equal(page.statusCode, 422)
  t.match(page.body, /page\.jpg is no picture/, 'a page says so in words')
  const partly = await postForm(shop, technician, '/photos', panel, [{ name: 'page.jpg', data: Buffer.from('no') }, { name: 'kept.jpg', data: await phonePicture(190) }])
  t.equal(partly.statusCode, 422)
  t.match(partly.body, /page\.jpg is no picture.*The others are kept.*Back to the photos/s)
  t.equal(await countRows(), Number(before[0]) + 3)
})

t.test('a broken or strange form is refused in words and never breaks the server', async (t) => {
  const good = multipart(panel, [{ name: 'a.jpg', data: picture }])
  const headers = { ...good.headers, authorization: `Bearer ${technician.token}` }
  const send = (payload: Buffer, contentType = headers['content-type']): Promise<Answer> =>
    shop.app.inject({ method: 'POST', url: '/api/photos', payload, headers: { ...headers, 'content-type': contentType } })
  const text = good.payload.toString('latin1')
  const afterwards = Buffer.from(text.replace(/(-+form[\w-]+)--\r\n$/, '$1\r\nContent-Disposition: form-data; name="caption"\r\n\r\nlate\r\n$1--\r\n'), 'latin1')
  for (const [payload, type] of [
    [good.payload.subarray(0, good.payload.length - 60)], [good.payload.subarray(0, 40)], [Buffer.alloc(0)], [Buffer.from('nonsense')],
    [good.payload, 'multipart/form-data'], [good.payload, 'multipart/form-data; boundary=other'], [afterwards],
    [Buffer.from(text.replace('name="subjectKind"', 'name="__proto__"'), 'latin1')],
  ] as const) {
    const answer = await send(payload, type)
    t.ok(answer.statusCode >= 400 && answer.statusCode < 500, `${answer.statusCode} ${answer.body.slice(0, 160)}`)
  }
  t.equal((await shop.app.inject({ method: 'POST', url: '/api/open-points', payload: good.payload, headers })).statusCode, 415, 'no other address takes files')
})

t.test('the guard of the form is checked before any file is looked at', async (t) => {
  const before = [await countRows(), filesThere()]
  const file = { name: 'new.jpg', data: await phonePicture(201) }
  const own = await shop.database.reads.session.findFirstOrThrow({ where: { personId: technician.personId } })
  t.ok(own)
  for (const [fields, headers] of [[{ _csrf: '' }, {}], [{ _csrf: 'made-up' }, {}], [{}, { origin: 'https://elsewhere.example' }]] as const) {
    t.equal((await postForm(shop, technician, '/photos', { ...panel, ...fields }, [file], headers)).statusCode, 403)
  }
  const late = multipart({ ...panel }, [file])
  t.equal((await shop.app.inject({ method: 'POST', url: '/photos', payload: late.payload, headers: { ...late.headers, cookie: technician.cookie } })).statusCode, 403)
  t.same([await countRows(), filesThere()], before)
  const saved = await postForm(shop, technician, '/photos', { ...panel, back: `/builds/${world.build}/photos` }, [file])
  t.equal(saved.statusCode, 303)
  t.equal(saved.headers.location, `/builds/${world.build}/photos#photos`)
  const away = await postForm(shop, technician, '/photos', { ...panel, back: '//elsewhere.example/x' }, [file])
  t.equal(away.headers.location, `/factory-parts/${world.panel}#photos`, 'it leads to no other site')
})

t.test('photos stand on the pages of their records and of the build, small and loaded when they are seen', async (t) => {
  for (const url of [`/factory-parts/${world.panel}`, `/builds/${world.build}/photos`, `/parts/${world.part}`]) {
    const page = await technician.page(url)
    t.match(page, '<h2>Photos</h2>', url)
    t.match(page, 'enctype="multipart/form-data"', url)
    for (const [tag] of page.matchAll(/<img [^>]*>/g)) t.match(tag, /\?size=small".*loading="lazy"/)
  }
  t.match(await technician.page(`/factory-parts/${world.panel}`), 'alt="Before"')
  const delivery = await shop.as('delivery').page(`/factory-parts/${world.panel}`)
  t.match(delivery, 'alt="Before"')
  t.notMatch(delivery, 'multipart/form-data', 'who may not add is not offered to')
  t.equal((await sendPhotos(shop, shop.as('delivery'), panel, [{ name: 'a.jpg', data: picture }])).statusCode, 403)
  t.equal((await shop.as('nobody').get(`/photos/${(await firstPhoto()).id}`)).statusCode, 303)
})

t.test('a photo is taken away and back, gets another caption, and the record’s history says so', async (t) => {
  const { id } = await firstPhoto()
  t.equal((await technician.post(`/photos/${id}/captions`, { caption: 'Left door, before' })).statusCode, 303)
  const removed = await technician.post(`/photos/${id}/removal`, { back: `/factory-parts/${world.panel}` })
  t.equal(removed.headers.location, `/factory-parts/${world.panel}#photos`)
  for (const url of [`/photos/${id}`, `/photos/${id}?size=small`]) t.equal((await technician.get(url)).statusCode, 404, 'what was taken away is not shown')
  t.equal((await technician.api.get(`/api/photos/${id}`)).statusCode, 404)
  t.equal((await technician.api.post(`/api/photos/${id}/recovery`)).json<Json>().removedAt, null)
  t.equal((await technician.get(`/photos/${id}`)).statusCode, 200)
  const { items } = (await technician.api.get(`/api/factory-parts/${world.panel}/history`)).json<{ items: { changes: Json[] }[] }>()
  const told = items.flatMap(({ changes }) => changes).filter(({ field }) => field === 'Photo').map(({ before, after }) => [before, after])
  t.same(told.slice(0, 3), [[null, 'Left door, before'], ['Left door, before', null], ['Before', 'Left door, before']])
  t.ok(itemsOf(await technician.api.get(`/api/photos?build=${world.build}`)).length >= 4)
  t.equal(itemsOf(await technician.api.get(`/api/photos?subjectKind=factory%20part&subjectId=${world.panel}`))[0]?.id, id)
  const firstPage = (await technician.api.get('/api/photos?limit=1')).json<{ items: Photo[]; next: string }>()
  t.equal(firstPage.items[0]?.id, firstPage.next)
  t.not(itemsOf(await technician.api.get(`/api/photos?limit=1&cursor=${firstPage.next}`))[0]?.id, firstPage.next, 'page by page')
})

t.test('a small picture that is lost is made anew; a large one that is lost is not here', async (t) => {
  const { id, hash } = await firstPhoto()
  const small = join(photosDir, hash.slice(0, 2), `${hash}-small.jpg`)
  rmSync(small)
  t.equal((await technician.get(`/photos/${id}?size=small`)).statusCode, 200)
  t.ok(existsSync(small))
  for (const name of [small, small.replace('-small', '')]) rmSync(name)
  t.equal((await technician.get(`/photos/${id}?size=small`)).statusCode, 404)
  t.equal((await technician.get(`/photos/${id}`)).statusCode, 404)
})

t.test('a build and the whole store hold as much as they are allowed to', async (t) => {
  // Noise cannot be made small: this one takes more than 1 MB.
  const side = 1400
  const noise = await sharp(randomBytes(side * side * 3), { raw: { width: side, height: side, channels: 3 } }).jpeg({ quality: 70 }).toBuffer()
  for (const [env, says] of [[{ PHOTOS_BUILD_MB: '1' }, /hold 1 MB of pictures.*PHOTOS_BUILD_MB/], [{ PHOTOS_MB: '1' }, /hold 1 MB of pictures.*PHOTOS_MB/]] as const) {
    const small = await openShop(t, { env })
    const { build } = await aBuild(small)
    const answer = await sendPhotos(small, small.as('technician'), { subjectKind: 'build', subjectId: build.id }, [{ name: 'a.jpg', data: picture }, { name: 'noise.jpg', data: noise }])
    t.match(answer.json(), { status: 413, detail: says })
    t.equal(await small.database.reads.photo.count(), 0, 'all of a sending or nothing')
  }
})

/** A PNG whose head claims another size (ISO/IEC 15948, IHDR and its checksum). */
function claiming(png: Buffer, width: number, height: number): Buffer {
  const claimed = Buffer.from(png)
  claimed.writeUInt32BE(width, 16)
  claimed.writeUInt32BE(height, 20)
  claimed.writeUInt32BE(crc32(claimed.subarray(12, 29)), 29)
  return claimed
}

async function firstPhoto(): Promise<{ id: string; hash: string }> {
  return shop.database.reads.photo.findFirstOrThrow({ where: panel, orderBy: { createdAt: 'asc' }, select: { id: true, hash: true } })
}
