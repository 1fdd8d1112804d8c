import t from 'tap'
import { createLink } from '../../server/links/store.ts'
import { phonePicture, sendPhotos } from '../support/pictures.ts'
import { aDelivered } from '../support/aDelivered.ts'
import { serveDemo } from '../support/servedDemo.ts'
import { openShop, type Answer, type Form } from '../support/shop.ts'

const clock = (): Date => new Date('2026-05-04T09:00:00Z')
const shop = await openShop(t, { clock })
const { build, ring, built, panel, customer } = await aDelivered(shop)
const manager = shop.as('manager')
const technician = shop.as('technician')
const page = `/builds/${build.id}/story`
const hidden = (html: string, name: string): string => new RegExp(`name="${name}" value="([^"]*)"`).exec(html)?.[1] ?? ''
await sendPhotos(shop, technician, { subjectKind: 'factory part', subjectId: String(panel.id), caption: 'The door' }, [{ name: 'a.jpg', data: await phonePicture(50) }])
await sendPhotos(shop, technician, { subjectKind: 'factory part', subjectId: String(panel.id), caption: 'Not to be shown' }, [{ name: 'b.jpg', data: await phonePicture(150) }])
const [door, other] = await shop.database.reads.photo.findMany({ where: { buildId: build.id }, orderBy: { createdAt: 'asc' } })
await manager.api.create('/api/time-entries', { operationId: built.id, personId: shop.people.technician, kind: 'work', date: '2026-03-30', time: '1.5 h' })

const save = async (more: Form = {}): Promise<Answer> => manager.post(page, {
  title: 'Two doors, quietly', opening: '', closing: '', showsHours: 'true', showsMaterials: 'true', picture: door!.id, [`moment.${door!.id}`]: 'before', [`words.${door!.id}`]: 'As it was',
  part: String(ring.id), [`words.${ring.id}`]: 'Turned from birch', _version: hidden(await manager.page(page), '_version'), ...more,
})

t.test('a manager chooses words, pictures and parts; what is private is refused beside its field and nothing typed is lost', async (t) => {
  t.match(await manager.page(page), 'look for plates, faces and house numbers')
  t.equal((await manager.get(`${page}/preview`)).statusCode, 404, 'there is none yet')
  for (const [field, text, says] of [
    ['opening', 'Made for Harrow Lane Bakery.', /“Harrow Lane Bakery” is private/], ['closing', 'Serial a4-0127 inside', /“A4-0127” is private/], ['title', '', /Title is needed/],
    [`words.${door!.id}`, 'Imre likes it', /“Imre” is private/], [`words.${ring.id}`, 'by Test technician', /“Test technician” is private/],
  ] as const) {
    const refused = await save({ [field]: text, closing: field === 'closing' ? text : 'Kept text' })
    t.equal(refused.statusCode, 422, field)
    t.match(refused.body, says)
    if (field !== 'closing') t.match(refused.body, 'Kept text')
  }
  t.match((await save({ picture: build.id })).body, 'no such photo of this build')
  t.match((await save({ part: build.id })).body, 'no such made part in this build')
  t.equal(await shop.database.reads.buildStory.count(), 0, 'nothing was stored by any of them')
  t.equal((await save()).statusCode, 303)
  t.match((await shop.database.reads.photo.findMany({ where: { buildId: build.id }, orderBy: { createdAt: 'asc' } })).map(({ moment }) => moment), ['before', ''], 'the photo itself now knows its moment')
  t.equal((await technician.get(page)).statusCode, 403)
})

t.test('it tells what was made in how many hours and of what, and names nobody unless asked to', async (t) => {
  const html = await manager.page(`${page}/preview`)
  for (const words of ['Two doors, quietly', 'Corvane Tern', '1.5 h', '2 × Speaker ring', 'Turned from birch', 'As it was', 'Before']) t.match(html, words)
  t.notMatch(html, 'Not to be shown')
  const story = async (): Promise<{ people: string[]; hours: unknown; parts: unknown[] }> => (await manager.api.get(`/api${page}`)).json()
  t.same((await story()).people, [])
  t.equal((await save({ showsPeople: 'true', showsHours: '' })).statusCode, 303)
  t.match(await story(), { people: ['Test'], hours: null, parts: [{ people: ['Test'], hours: '' }] }, 'first names only, and who made what')
  t.notMatch(await manager.page(`${page}/preview`), '1.5 h')
  const card = await manager.page(`${page}/card`)
  for (const words of ['story-card', 'Two doors, quietly', 'Made: 2 × Speaker ring.']) t.match(card, words)
  t.equal((await save({ showsPeople: '' })).statusCode, 303)
})

t.test('two who choose at once do not overwrite each other unseen', async (t) => {
  const version = hidden(await manager.page(page), '_version')
  t.equal((await save({ [`words.${door!.id}`]: 'As it was found', _version: version })).statusCode, 303)
  t.equal((await save({ [`words.${door!.id}`]: 'As it stood', _version: version })).statusCode, 412)
  t.match(await manager.page(`${page}/preview`), 'As it was found')
})

t.test('behind its link stand the chosen pictures and no other, until the link is withdrawn', async (t) => {
  const links = `/api/builds/${build.id}/links`
  const { id } = await shop.database.reads.buildStory.findUniqueOrThrow({ where: { buildId: build.id } })
  t.equal((await shop.as('delivery').api.post(links, { subject: `build story:${id}`, note: 'x', days: 5 })).statusCode, 422, 'a story is the manager’s to share')
  const made = await shop.database.write((write) => createLink(write, { buildId: String(build.id), subjectKind: 'build story', subjectId: id, subjectName: 'story', note: 'a fair', days: 5 }, { personId: manager.personId, personName: 'Test manager', requestId: 't', now: clock() }))
  const open = (path = ''): Promise<Answer> => shop.as('nobody').get(`/l/${made.secret}${path}`)
  const shared = await open()
  t.equal(shared.statusCode, 200)
  for (const words of ['Two doors, quietly', `/l/${made.secret}/photos/${door!.hash}`]) t.match(shared.body, words)
  t.notMatch(shared.body, /\/photos\/[0-9a-f]{8}-|\/builds\//, 'nothing leads into the shop')
  t.equal((await open(`/photos/${door!.hash}`)).statusCode, 200)
  t.equal((await open(`/photos/${other!.hash}`)).statusCode, 404, 'a picture that was not chosen')
  t.equal((await shop.as('nobody').get(`/photos/${door!.id}`)).statusCode, 303)

  const { version } = (await manager.api.get(`/api/customers/${customer.id}`)).json<{ version: number }>()
  await manager.api.patch(`/api/customers/${customer.id}`, { contact: 'birch' }, { 'if-match': `"${version}"` })
  t.notMatch((await open()).body, 'Turned from birch', 'what became private since is left out')
  await manager.api.post(`/api/photos/${door!.id}/removal`)
  t.notMatch((await open()).body, door!.hash)
  t.equal((await open(`/photos/${door!.hash}`)).statusCode, 404)
  t.equal((await manager.api.post(`/api/links/${made.link.id}/revocations`)).statusCode, 200)
  t.equal((await open()).statusCode, 404)
})

t.test('the demo’s story tells nothing private: every such value of the shop is looked for on the page', { timeout: 120_000 }, async (t) => {
  const demo = await serveDemo()
  t.teardown(() => demo.close())
  const { reads } = demo.database
  const story = await reads.buildStory.findFirstOrThrow({ include: { pictures: true } })
  const person = await reads.person.findFirstOrThrow({ where: { role: 'manager' } })
  const { secret } = await demo.database.write((write) => createLink(write, { buildId: story.buildId, subjectKind: 'build story', subjectId: story.id, subjectName: 'story', note: 'a fair', days: 5 }, { personId: person.id, personName: person.name, requestId: 't', now: new Date() }))
  const { statusCode, body } = await demo.app.inject({ url: `/l/${secret}` })
  t.equal(statusCode, 200)
  t.equal(body.match(/<img /g)?.length, story.pictures.length)
  t.ok(story.pictures.length >= 6)
  // The shop's own name says the town that customers live in, too.
  const { name: shopName } = await reads.shop.findFirstOrThrow()
  const text = body.replaceAll(secret, '').replaceAll(shopName, '').toLowerCase()
  const [customers, vehicles, lines, swaps, people, deliveries] = [await reads.customer.findMany(), await reads.vehicle.findMany(), await reads.equipmentLine.findMany({ where: { buildId: story.buildId } }), await reads.serialSwap.findMany(), await reads.person.findMany(), await reads.delivery.findMany()]
  const values = [
    ...customers.flatMap(({ name, contact, phone, email, address }) => [name, contact, phone, email, address, ...address.split('\n')]), ...vehicles.flatMap(({ vin, plate }) => [vin, plate]),
    ...lines.flatMap(({ serialNumbers, cost, price }) => [...serialNumbers.split('\n'), (cost / 100).toFixed(2), (price / 100).toFixed(2)]), ...swaps.flatMap(({ oldSerial, newSerial }) => [oldSerial, newSerial]),
    ...people.flatMap(({ name, signInName }) => [name, signInName]), ...deliveries.map(({ receivedBy }) => receivedBy),
  ].map((value) => value.trim().toLowerCase()).filter((value) => value.length >= 4 && Number(value) !== 0)
  t.ok(values.length > 100, `${values.length} values`)
  t.same([...new Set(values.filter((value) => text.includes(value)))], [])
  t.notMatch(body, /USD|\$\s?\d/)
})
