import t from 'tap'
import { placesOf } from '../../web/shared/zonePlaces.ts'
import { readFaultCode } from '../../server/calc/faultCodes.ts'
import { aBuild } from '../support/aBuild.ts'
import { phonePicture, postForm, sendPhotos } from '../support/pictures.ts'
import { openShop, type Form, type Json } from '../support/shop.ts'

let now = new Date('2031-03-03T09:00:00Z')
const shop = await openShop(t, { clock: () => now })
const { build, vehicle } = await aBuild(shop)
const page = `/builds/${build.id}/intake`
const technician = shop.as('technician')
const delivery = shop.as('delivery')
const places = placesOf('hatchback')
const later = (): void => { now = new Date(now.getTime() + 60_000) }
const hidden = (html: string, name: string): string => new RegExp(`name="${name}" value="([^"]*)"`).exec(html)?.[1] ?? ''
const intakeRow = () => shop.database.reads.intake.findUniqueOrThrow({ where: { buildId: build.id } })

async function counterForm(more: Form): Promise<Form> {
  const html = await delivery.page(page)
  return { _version: hidden(html, '_version'), vehicleVersion: hidden(html, 'vehicleVersion'), ...more }
}

// Form of a code: ISO 15031-6 and SAE J2012; P0420 is theirs, P1xxx is left to makers (from memory).
t.test('a fault code is a letter for its area and four signs', async (t) => {
  t.match(readFaultCode('p0420'), { code: 'P0420', isStandardForm: true, says: 'powertrain, by the standard' })
  t.match(readFaultCode('C1234'), { says: 'chassis, by the vehicle maker' })
  t.match(readFaultCode('B2AFF'), { isStandardForm: true, says: 'body' })
  t.match(readFaultCode('u0100'), { says: 'network, by the standard' })
  for (const strange of ['P420', 'P04200', 'X0420', 'P4420', 'P04G0', '5E20', '']) t.equal(readFaultCode(strange).isStandardForm, false, strange)
})

t.test('whoever takes a vehicle in writes down how it came; warning lights are said, never assumed', async (t) => {
  const empty = await delivery.page(page)
  t.match(empty, 'whether a warning light is lit is not said')
  t.match(empty, 'nobody has looked yet')
  const typed = { odometer: '41,250 km', energyLevel: '3/4', keys: '2', leftInside: 'Child seat', factoryOptions: 'Factory amplifier', warningLights: ['none', 'engine'] }
  const refused = await delivery.post(page, await counterForm(typed))
  t.equal(refused.statusCode, 422)
  t.match(refused.body, 'Either none is lit, or the ones that are')
  t.match(refused.body, 'Child seat', 'nothing typed is lost')
  t.equal((await delivery.post(page, await counterForm({ ...typed, warningLights: 'none' }))).statusCode, 303)
  t.match(await intakeRow(), { odometer: 41_250_000, energyLevel: '3/4', keys: 2, warningLights: 'none' })
  t.match((await technician.api.get(`/api/vehicles/${vehicle.id}`)).json(), { factoryOptions: 'Factory amplifier' }, 'factory options are kept with the vehicle')
  const stale = await delivery.post(page, { ...(await counterForm({ ...typed, warningLights: 'none', factoryOptions: 'None' })), vehicleVersion: '1' })
  t.match(stale.body, 'Somebody changed this in the meantime to: Factory amplifier')
  t.match(await technician.page(`${page}`), 'Child seat')
})

t.test('ticks are kept from page to page, also those that somebody else made in the meantime', async (t) => {
  await technician.post(`/builds/${build.id}/walks`, { shown: [...places], walkedZones: ['dash', 'seats'] })
  await delivery.post(`/builds/${build.id}/walks`, { shown: ['engine bay', 'console'], walkedZones: ['console'] })
  t.same((await intakeRow()).walkedZones.split(',').sort(), ['console', 'dash', 'seats'])
  t.equal((await intakeRow()).walkedOn, '2031-03-03')
  const tapped = await technician.post(`/builds/${build.id}/walks`, { shown: ['trunk lid'], x: '10', y: '10' })
  t.equal(tapped.statusCode, 422, 'a place that no vehicle has')
  const there = await technician.post(`/builds/${build.id}/walks`, { shown: ['dash'], walkedZones: ['dash'], x: '905', y: '500' })
  t.equal(there.headers.location, `/builds/${build.id}/marks/new?x=905&y=500`, 'a tap saves the ticks and leads to the mark')
})

t.test('damage is marked where the outline was tapped or near a place from the list, with pictures', async (t) => {
  const form = await technician.page(`/builds/${build.id}/marks/new?x=905&y=500`)
  t.match(form, /<option value="outside" selected/, 'the place is guessed from the point')
  const picture = await phonePicture(99)
  const saved = await postForm(shop, technician, `/builds/${build.id}/marks`, { kind: 'scratch', place: 'outside', x: '905', y: '500', size: '4 cm', note: 'to the metal' }, [{ name: 'bumper.jpg', data: picture }])
  t.equal(saved.statusCode, 303, saved.body)
  const listed = await postForm(shop, technician, `/builds/${build.id}/marks`, { kind: 'dent', place: 'front doors', spot: '-1,1', size: '' }, [])
  t.equal(listed.statusCode, 303, listed.body)
  const [first, second] = await shop.database.reads.conditionMark.findMany({ where: { buildId: build.id }, orderBy: { number: 'asc' } })
  t.match(first, { number: 1, x: 905, y: 500, kind: 'scratch' })
  t.ok(second!.y > 700, 'the left side is at the bottom of the plan')
  t.equal(await shop.database.reads.photo.count({ where: { subjectKind: 'condition mark', subjectId: first!.id } }), 1)
  const wrong = await postForm(shop, technician, `/builds/${build.id}/marks`, { kind: 'explosion', place: 'outside', x: '5', y: '5', note: 'typed text' }, [{ name: 'x.jpg', data: picture }])
  t.equal(wrong.statusCode, 422)
  t.match(wrong.body, 'typed text')
  const html = await technician.page(page)
  for (const words of ['D-001', 'D-002', 'to the metal', '?size=small', 'data-taps-into="walk"']) t.match(html, words)
})

t.test('a code of no known form needs its control unit', async (t) => {
  const json = { buildId: build.id, readAt: 'intake', readOn: '2031-03-03' }
  const refused = await technician.api.post('/api/fault-codes', { ...json, code: '5E20' })
  t.match(refused.json<Json>().detail, /“5E20” is not of the form P0420.*name the control unit/)
  const form = await technician.post('/fault-codes', { buildId: build.id, readAt: 'intake', readOn: '2031-03-03', code: '5E20' })
  t.match(form.body, 'Nothing you typed is lost.')
  t.notMatch(form.body, /passwords/, 'a fault code is no password')
  t.match(await technician.api.create('/api/fault-codes', { ...json, code: '5E20', unit: 'seat module' }), { code: '5E20' })
  t.match(await technician.api.create('/api/fault-codes', { ...json, code: 'p0420' }), { code: 'P0420' })
})

t.test('it is signed once all is looked at; what was signed stays, and later marks say that they are later', async (t) => {
  const sign = (version: string, more: Form = {}): ReturnType<typeof delivery.post> =>
    delivery.post(`/builds/${build.id}/signatures`, { signedName: 'Imre Vadas', signature: 'M10 20L30 40L50 45', _version: version, ...more })
  const early = await sign(String((await intakeRow()).version))
  t.equal(early.statusCode, 409)
  t.match(early.body, /Still open: not looked at yet: engine bay/)
  await delivery.post(`/builds/${build.id}/walks`, { shown: [...places], walkedZones: [...places] })
  t.match(await delivery.page(page), 'Sign how the vehicle came')
  t.equal((await sign('1')).statusCode, 409, 'what is signed is what was read')
  const version = String((await intakeRow()).version)
  t.equal((await sign(version, { signature: 'M1 1"/><script>' })).statusCode, 422)
  t.equal((await sign(version, { signedName: ' ' })).statusCode, 422)
  later()
  t.equal((await sign(version)).statusCode, 303)
  t.equal((await sign(String((await intakeRow()).version))).statusCode, 409)

  later()
  const mark = await shop.database.reads.conditionMark.findFirstOrThrow({ where: { buildId: build.id, number: 1 } })
  const patch = await technician.api.patch(`/api/condition-marks/${mark.id}`, { note: 'was worse' }, { 'if-match': '"1"' })
  t.match(patch.json(), { status: 409, detail: /Imre Vadas signed this.*Add a new condition mark/ })
  t.equal((await technician.api.post(`/api/condition-marks/${mark.id}/removal`)).statusCode, 409)
  t.equal((await sendPhotos(shop, technician, { subjectKind: 'condition mark', subjectId: mark.id }, [{ name: 'late.jpg', data: await phonePicture(5) }])).statusCode, 409, 'nor does it get pictures afterwards')
  t.equal((await technician.api.patch(`/api/intakes/${(await intakeRow()).id}`, { keys: 1 }, { 'if-match': `"${(await intakeRow()).version}"` })).statusCode, 409)
  t.equal((await delivery.post(page, { odometer: '1 km' })).statusCode, 409)
  t.equal((await delivery.post(`/builds/${build.id}/walks`, { shown: ['dash'] })).statusCode, 409)
  const code = await shop.database.reads.faultCode.findFirstOrThrow({ where: { code: 'P0420' } })
  t.equal((await technician.api.patch(`/api/fault-codes/${code.id}`, { clearedOn: '2031-03-04' }, { 'if-match': '"1"' })).statusCode, 200, 'that it was cleared may still be said')
  t.equal((await technician.api.patch(`/api/fault-codes/${code.id}`, { code: 'P0421' }, { 'if-match': '"2"' })).statusCode, 409)

  t.equal((await postForm(shop, technician, `/builds/${build.id}/marks`, { kind: 'chip', place: 'outside', x: '100', y: '400' }, [])).statusCode, 303)
  for (const url of [page, `/builds/${build.id}/condition`]) {
    const html = await technician.page(url)
    t.equal(html.match(/after signature<\/span>/g)?.length, 1, url)
    t.match(html, 'Imre Vadas')
    t.match(html, '<path d="M10 20L30 40L50 45"')
  }
  const report = await technician.page(`/builds/${build.id}/condition`)
  for (const words of ['Condition report', 'C-0001-1', 'P0420', 'seat module', '41,250 km', 'as signed', '?size=small']) t.match(report, words)
})

t.test('a build that is past intake and was not looked at all over says so on its page', async (t) => {
  const other = await shop.as('manager').api.create('/api/builds', { title: 'Not looked at', kind: 'everyday build', vehicleId: vehicle.id, stage: 'intake' })
  const says = /was not looked at all over at intake/
  t.notMatch(await technician.page(`/builds/${other.id}`), says)
  await shop.as('manager').api.patch(`/api/builds/${other.id}`, { stage: 'scope' }, { 'if-match': '"1"' })
  t.match(await technician.page(`/builds/${other.id}`), says)
  await shop.as('manager').api.patch(`/api/builds/${build.id}`, { stage: 'scope' }, { 'if-match': '"1"' })
  t.notMatch(await technician.page(`/builds/${build.id}`), says)
})
