import t from 'tap'
import fc from 'fast-check'
import { listFindable } from '../../server/search/findable.ts'
import { fold, loosely, readSearch } from '../../server/search/words.ts'
import { aBuild } from '../support/aBuild.ts'
import { openShop, type TestShop } from '../support/shop.ts'
import type { Role } from '../../web/shared/viewer.ts'

interface Item { readonly id: string, readonly number: string, readonly name: string, readonly build: { name: string } | null, readonly foundIn: { field: string, text: string }[] }
interface Found { readonly note: string, readonly groups: { kind: string, path: string, total: number, isCapped: boolean, next: number | null, items: Item[] }[] }

const shop = await openShop(t)
const { create, patch } = shop.as('manager').api
const { build, zone, vehicle, department } = await aBuild(shop, 'Front doors of the baker')
const floor = await create('/api/builds', { title: 'Load floor', vehicleId: vehicle.id })
const item = await create('/api/catalog', { kind: 'speaker', maker: 'Averne', model: 'B-21 Ödland', cost: '1.00', price: '2.00' })
const ofDoor = { buildId: build.id, zoneId: zone.id }
const line = await create('/api/equipment-lines', { ...ofDoor, name: 'Midbass pair', itemId: item.id, quantity: 2, serialNumbers: 'AV-900-31\nAV-900-32' })
await create('/api/factory-parts', { ...ofDoor, name: 'Door panel left', partNumber: '8K1 867_05%' })
const pod = await create('/api/parts', { ...ofDoor, name: 'Pod of the left door', family: 'pod', quantity: 1 })
await create('/api/bins', { buildId: build.id, place: 'Rack C, shelf 2' })
await create('/api/alterations', { ...ofDoor, kind: 'drilled', what: 'Four holes in the door', reversal: 'plugs' })
await create('/api/operations', { buildId: build.id, partId: pod.id, kind: 'sand', work: 'to 240 grit', departmentId: department.id })
await create('/api/materials', { name: 'Polyester resin', form: 'volume', packName: 'can', packSize: '5 L', packCost: '1.00', packPrice: '2.00', supplier: 'Marsh Street Resins' })
await patch(`/api/vehicles/${vehicle.id}`, { vin: '0CV5T7RN7V1084213', plate: 'HARROW 7' }, { 'if-match': '"1"' })

const ask = async (find: string, role: Role = 'manager', more = ''): Promise<Found> => {
  const answer = await shop.as(role).api.get(`/api/search?find=${encodeURIComponent(find)}${more}`)
  if (answer.statusCode !== 200) throw new Error(answer.body)
  return answer.json<Found>()
}
const names = ({ groups }: Found): string[] => groups.flatMap(({ items }) => items.map(({ number, name }) => `${number} ${name}`.trim()))

t.test('everything in the shop is found by its short number, with its letter or by its digits, and stands first', async (t) => {
  t.same(names(await ask('F-011')), ['F-011 Door panel left'])
  t.same(names(await ask('f11')), ['F-011 Door panel left'])
  t.same(names(await ask('P-101')), ['P-101 Pod of the left door'])
  t.same(names(await ask('A-1')), ['A-001 Rack C, shelf 2'])
  t.same(names(await ask('B-0001')), ['B-0001 Front doors of the baker'])
  t.equal(names(await ask('b-21'))[0], 'E-01 Midbass pair', 'no build has that number: it is part of a model’s name, and the line is of that model')
  const digits = await ask('101')
  t.same(names(digits), ['P-101 Pod of the left door'])
  t.same(digits.groups[0]!.items[0]!.build, { id: build.id, name: 'B-0001 Front doors of the baker' })
})

t.test('words are found wherever they stand, all of them in one record, in capitals or not', async (t) => {
  t.same(names(await ask('LEFT door')), ['P-101 Pod of the left door', 'F-011 Door panel left'])
  t.same(names(await ask('marsh street')), ['M-001 Polyester resin'])
  t.same(names(await ask('240 grit')), ['10 sand, to 240 grit'])
  t.same(names(await ask('shelf')), ['A-001 Rack C, shelf 2'])
  t.same(names(await ask('holes')), ['X-001 Four holes in the door'])
  t.same(names(await ask('ödLAND')).toSorted(), ['E-01 Midbass pair', 'K-001 Averne B-21 Ödland'], 'letters of other scripts too')
  t.same(names(await ask('harrow lane')), ['B-0002 Load floor', 'B-0001 Front doors of the baker', 'V-001 Corvane Tern 2031', 'C-001 Harrow Lane Bakery'])
  t.same(names(await ask('B-0001 door midbass')), [], 'the name of the build is not the name of its records')
  t.same(names(await ask('B-0001 midbass')), ['E-01 Midbass pair'])
  t.same(names(await ask('B-0002 midbass')), [])
})

t.test('serial numbers are found in part, a VIN whole or by its last six or more', async (t) => {
  const [serial] = (await ask('900-32')).groups
  t.same(serial!.items.map(({ id }) => id), [line.id])
  t.same(serial!.items[0]!.foundIn, [{ field: 'Serial numbers', text: 'AV-900-31, AV-900-32' }])
  for (const vin of ['0CV5T7RN7V1084213', '084213', '1-084213']) t.same(names(await ask(vin)), ['V-001 Corvane Tern 2031'], vin)
  for (const part of ['84213', '0CV5T7RN', '108421']) t.same(names(await ask(part)), [], `${part} is no end of six`)
})

t.test('signs that mean something to a database mean themselves', async (t) => {
  t.same(names(await ask('8K1 867_05%')), ['F-011 Door panel left'])
  for (const nothing of ['%%', '__', '_9_', '%door%', '\'; DROP TABLE', '"door', '\\door', 'a%b']) t.same(names(await ask(nothing)), [], nothing)
  t.same(names(await ask('7_05')), ['F-011 Door panel left'])
})

t.test('the database leaves out nothing that compares equal', (t) => {
  const sign = fc.constantFrom('a', 'B', 'é', 'É', 'Ж', 'ж', '%', '_', '\\', '1', 'ß', '字')
  fc.assert(fc.property(fc.string({ unit: sign, maxLength: 8 }), fc.nat(7), fc.nat(7), (text, from, length) => {
    const part = fold([...text].slice(from, from + length).join(''))
    // What the database does: A to Z alike, "_" one sign, "%" any.
    const pattern = new RegExp(`^.*${loosely(part).replaceAll(/[\\^$.*+?()[\]{}|]/g, '\\$&').replaceAll('_', '.').replaceAll('%', '.*')}.*$`, 'isu')
    return !fold(text).includes(part) || pattern.test(text)
  }), { seed: 7, numRuns: 100 })
  t.end()
})

t.test('nobody is told by a match what they may not see', async (t) => {
  const held = { 'HARROW 7': 'V-001 Corvane Tern 2031', 'imre': 'C-001 Harrow Lane Bakery', '555-0142': 'C-001 Harrow Lane Bakery' }
  for (const [find, name] of Object.entries(held)) {
    for (const role of ['owner', 'manager', 'delivery'] as const) t.same(names(await ask(find, role)), [name], `${find}, ${role}`)
    t.same(names(await ask(find, 'technician')), [], `${find}, technician`)
  }
  t.same(names(await ask('test.owner', 'manager')), ['Test owner'])
  for (const role of ['technician', 'delivery'] as const) t.same(names(await ask('test.owner', role)), [])
  t.match(await shop.as('technician').page('/search?find=harrow'), /Harrow Lane Bakery/, 'the name itself is known to all')
  for (const role of ['owner', 'manager', 'technician', 'delivery'] as const) {
    for (const { kind, fields } of listFindable(role)) {
      t.ok(kind.seenBy.includes(role))
      t.notOk(fields.some(({ label }) => /plate|phone|email|ask for/i.test(label)) && role === 'technician', `${kind.name}, ${role}`)
    }
  }
})

t.test('what was removed, or belongs to a removed build, is not found', async (t) => {
  const gone = await create('/api/factory-parts', { buildId: floor.id, zoneId: (await create('/api/zones', { buildId: floor.id, name: 'Floor', place: 'load floor' })).id, name: 'Sill trim' })
  t.same(names(await ask('sill')), ['F-011 Sill trim'])
  await shop.as('manager').api.post(`/api/builds/${floor.id}/removal`)
  t.same(names(await ask('sill')), [])
  await shop.as('manager').api.post(`/api/builds/${floor.id}/recovery`)
  await shop.as('manager').api.post(`/api/factory-parts/${gone.id}/removal`)
  t.same(names(await ask('sill')), [])
})

t.test('twenty of a kind stand on a page, each is on one page exactly, the exact number before the rest', async (t) => {
  await manyParts(shop, build.id, zone.id, 45)
  const first = await ask('bracket', 'manager', '&kind=factory-parts')
  t.same([first.groups[0]!.total, first.groups[0]!.items.length, first.groups[0]!.next, first.groups[0]!.isCapped], [45, 20, 2, false])
  const pages = [first, await ask('bracket', 'manager', '&kind=factory-parts&page=2'), await ask('bracket', 'manager', '&kind=factory-parts&page=3')]
  t.same(pages.map(({ groups }) => groups[0]!.items.length), [20, 20, 5])
  t.equal(new Set(pages.flatMap(names)).size, 45)
  t.equal(pages[2]!.groups[0]!.next, null)
  const page = await shop.as('manager').page('/search?find=bracket')
  t.match(page, /1 to 20 of 45/)
  t.match(page, /href="\/search\?find=bracket&kind=factory-parts&page=2"/)
  t.match(await shop.as('manager').page('/search?find=bracket&kind=factory-parts&page=2'), /21 to 40 of 45/)
  t.equal(names(await ask('F-110'))[0], 'F-110 Bracket 10', 'before those whose text holds it')
})

t.test('an empty, too short or strange question is answered in words, and typed text stays in the field', async (t) => {
  const technician = shop.as('technician')
  t.match(await technician.page('/search'), /Type what you look for/)
  t.match(await technician.page('/search?find=+'), /Type what you look for/)
  t.match(await technician.page('/search?find=x'), /One sign fits nearly everything/)
  t.match(await technician.page(`/search?find=${'x'.repeat(101)}`), /longer than 100 signs/)
  t.match(await technician.page('/search?find=nowhere+at+all'), /Nothing fits/)
  t.match(await technician.page(`/search?find=${encodeURIComponent('<b>"door"')}`), /value="<b>&#34;door&#34;"/)
  for (const query of ['find=a&find=b', 'find=door&page=-1', 'find=door&page=9999999', 'find=door&kind=nothing', 'find=door&kind=a&kind=b', 'find=%00%01', 'find=%ED%A0%80']) {
    for (const path of ['/search', '/api/search']) t.equal((await (path === '/search' ? technician.get(`${path}?${query}`) : technician.api.get(`${path}?${query}`))).statusCode, 200, `${path}?${query}`)
  }
  t.match(await technician.page('/now'), /<form class="search" role="search"[^>]* action="\/search">/, 'every page has the field')
})

t.test('a search is read as numbers and words', (t) => {
  t.same(readSearch('B-0231 F-021').builds.map(({ number }) => number!.number), [231])
  t.same(readSearch('b231').words, [{ folded: 'b231', number: { prefix: 'B', number: 231 } }])
  t.same(readSearch('door DOOR').words, [{ folded: 'door', number: null }])
  t.same(readSearch('1234567890').words[0]!.number, null, 'longer than any number')
  t.end()
})

async function manyParts({ database }: TestShop, buildId: string, zoneId: string, count: number): Promise<void> {
  await database.write(async (write) => {
    for (let index = 0; index < count; index += 1) {
      await write.factoryPart.create({ data: { buildId, zoneId, number: 100 + index, name: `Bracket ${index}`, partNumber: index === 3 ? 'as F-110' : '' } })
    }
  })
}
