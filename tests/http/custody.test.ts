import t from 'tap'
import { randomUUID } from 'node:crypto'
import { aDoor } from '../support/aDoor.ts'
import { factsOfPdf, needsReader, textOfPdf } from '../support/pdfText.ts'
import { openShop, type Answer, type Json } from '../support/shop.ts'

let minutes = 0
const shop = await openShop(t, { clock: () => new Date(Date.UTC(2031, 2, 3, 9, minutes)) })
const door = await aDoor(shop)
const technician = shop.as('technician')
const delivery = shop.as('delivery')
const { api } = technician
const build = `/builds/${door.build.id}`
const number = (part: Json): string => `F-0${String(part.number)}`

interface MoveRead { readonly kind: string; readonly from: string; readonly toWhom: string; readonly signedName: string; readonly isDrawn: boolean; readonly binNumber: number | null; readonly note: string }
const movesOf = async (part: Json): Promise<MoveRead[]> => (await api.get(`/api/factory-parts/${String(part.id)}/moves`)).json<{ items: MoveRead[] }>().items
const standing = async (part: Json): Promise<unknown[]> => {
  const { state, binId, place } = (await api.get(`/api/factory-parts/${String(part.id)}`)).json<Json>()
  return [state, binId, place]
}
const removal = (part: Json, kind: string, more: Json = {}) => {
  minutes += 1
  return api.create('/api/removals', { buildId: door.build.id, factoryPartId: part.id, kind, ...more })
}
const move = (form: Record<string, string>): Promise<Answer> => {
  minutes += 1
  return delivery.post(`${build}/moves`, form)
}

t.test('what comes out is in custody from that press on, in the same bin, and what goes back is not', async (t) => {
  await removal(door.switch, 'came out', { binId: door.bin.id, condition: 'as new' })
  const [first] = await movesOf(door.switch)
  t.match(first, { kind: 'stored', from: 'in the vehicle', binNumber: 1 })
  await removal(door.switch, 'went back')
  t.match((await movesOf(door.switch))[0], { kind: 'back in the vehicle', from: 'bin A-001, rack C, shelf 2' })
  t.same(await standing(door.switch), ['fitted', null, ''])
})

t.test('a removal entered by mistake and taken back stands in the part’s history, and the part is where it was', async (t) => {
  const out = await removal(door.switch, 'came out', { binId: door.bin.id })
  minutes += 1
  t.equal((await api.post(`/api/removals/${out.id}/removal`)).statusCode, 200)
  t.same(await standing(door.switch), ['fitted', null, ''])
  t.match((await movesOf(door.switch))[0], { kind: 'back in the vehicle', note: 'The removal was taken back.' })
  minutes += 1
  t.equal((await api.post(`/api/removals/${out.id}/recovery`)).statusCode, 200)
  t.match((await movesOf(door.switch))[0], { kind: 'stored', binNumber: 1 })
  await removal(door.switch, 'went back')
})

t.test('another bin written into an old removal does not fetch back what the customer has', async (t) => {
  const other = await api.create('/api/bins', { buildId: door.build.id, place: 'rack D' })
  const out = await removal(door.switch, 'came out', { binId: door.bin.id })
  t.equal((await move({ kind: 'handed to the customer', parts: number(door.switch), signedName: 'Imre Vance' })).statusCode, 303)
  t.equal((await api.patch(`/api/removals/${out.id}`, { binId: other.id }, { 'if-match': '1' })).statusCode, 200)
  t.same((await standing(door.switch)).slice(0, 2), ['out with the customer', null])
  t.equal((await movesOf(door.switch)).length, 8)
  await move({ kind: 'brought back', parts: number(door.switch), bin: 'A-2' })
  await removal(door.switch, 'went back')
  const without = await removal(door.switch, 'came out')
  await move({ kind: 'handed to the customer', parts: number(door.switch), signedName: 'Imre Vance' })
  t.equal((await api.patch(`/api/removals/${without.id}`, { binId: other.id }, { 'if-match': '1' })).statusCode, 200)
  t.same((await standing(door.switch)).slice(0, 2), ['out with the customer', null], 'nor where the removal named no bin')
  await move({ kind: 'brought back', parts: number(door.switch), bin: 'A-2' })
  await removal(door.switch, 'went back')
})

t.test('a part that is out without a place stands out at once, on the build’s page and in the ledger, until it lies somewhere', async (t) => {
  await removal(door.panel, 'came out')
  t.match(await technician.page(`${build}/custody`), /Out, and no place recorded: 1 part/)
  t.match(await technician.page(build), /1\.a.*F-012<\/i> Door panel is out, and where it lies is not recorded/s)
  t.equal((await move({ kind: 'stored', parts: number(door.panel), place: 'on the wall, bay 2' })).statusCode, 303)
  const page = await technician.page(`${build}/custody`)
  t.notMatch(page, /no place recorded/)
  t.match(page, /on the wall, bay 2: 1 part/)
  t.notMatch(await technician.page(build), /where it lies is not recorded/)
})

t.test('what a customer takes home is signed for, all parts with one signature, and there is a receipt to print', async (t) => {
  await removal(door.speaker, 'came out', { binId: door.bin.id, condition: 'as new' })
  const answer = await move({ kind: 'handed to the customer', parts: `${number(door.panel)}, ${number(door.speaker)}`, place: 'at home, in the garage', signedName: 'Imre Vance', signature: 'M10 10L20 20' })
  t.equal(answer.statusCode, 303)
  t.same(await standing(door.speaker), ['out with the customer', null, 'at home, in the garage'])
  t.match((await movesOf(door.speaker))[0], { kind: 'handed to the customer', from: 'bin A-001, rack C, shelf 2', signedName: 'Imre Vance', isDrawn: true })
  const said = await delivery.page(String(answer.headers.location))
  t.match(said, /the move of 2 parts/)
  const receipt = await delivery.page(/\/custody-moves\/[0-9a-f-]+\/receipt/.exec(said)![0])
  t.match(receipt, /H-0001-3/)
  for (const words of ['F-012', 'Door panel', 'F-013', 'Door speaker', 'bin A-001, rack C, shelf 2', 'as new', 'at home, in the garage', 'Imre Vance', 'd="M10 10L20 20"']) t.ok(receipt.includes(words), words)
  t.notMatch(receipt, /F-011/, 'what was not handed over then is not on it')
  const href = /\/custody-moves\/[0-9a-f-]+\/receipt\.pdf\?paper=Letter/.exec(receipt)![0]
  const pdf = await delivery.get(href)
  t.equal(pdf.headers['content-type'], 'application/pdf')
  t.equal((await shop.as('nobody').get(href)).statusCode, 303)
  if (needsReader.skip) return t.comment(needsReader.skip)
  t.match(factsOfPdf(pdf.rawPayload).get('Page size'), /612 x 792/)
  const text = textOfPdf(pdf.rawPayload)
  for (const words of ['H-0001-3', 'F-012', 'Door panel', 'F-013', 'Door speaker', 'bin A-001, rack C, shelf 2', 'as new', 'at home, in the garage', 'Imre Vance', 'cannot go back to how it left its maker']) t.ok(text.includes(words), `PDF: ${words}`)
  t.notMatch(text, /F-011/)
})

t.test('moves that cannot be are refused in words, and nothing is written', async (t) => {
  const before = await shop.database.reads.custodyMove.count()
  const refused = async (form: Record<string, string>, says: RegExp): Promise<void> => {
    const answer = await move(form)
    t.equal(answer.statusCode, 422, JSON.stringify(form))
    t.match(answer.body, says)
  }
  await refused({ kind: 'handed to the customer', parts: number(door.switch), signedName: 'Imre' }, /F-011 Window switch: It is in the vehicle: record first that it came out/)
  await refused({ kind: 'stored', parts: number(door.panel), bin: 'A-001' }, /The customer has it: record first that it was brought back/)
  await refused({ kind: 'brought back', parts: number(door.panel) }, /Where does it lie now\?/)
  await refused({ kind: 'brought back', parts: number(door.panel), bin: 'A-9' }, /There is no bin A-9 in this build/)
  await refused({ kind: 'brought back', parts: number(door.panel), bin: 'A-1', place: 'shelf' }, /A bin or a place, not both/)
  await refused({ kind: 'disposed with consent', parts: number(door.panel) }, /Whose consent is it\?/)
  await refused({ kind: 'missing', parts: 'F-099' }, /This build has no F-099/)
  await refused({ kind: 'missing', parts: 'the panel' }, /Write the numbers of factory parts/)
  await refused({ kind: 'missing', parts: '' }, /Which parts\?/)
  await refused({ kind: 'back in the vehicle', parts: number(door.panel) }, /kind/i)
  await refused({ kind: 'handed to the customer', parts: number(door.panel), signedName: 'X', signature: '<script>' }, /drawn signature cannot be read/)
  t.equal((await move({ kind: 'brought back', parts: number(door.panel), bin: '1' })).statusCode, 303)
  await refused({ kind: 'stored', parts: number(door.panel), bin: 'A-001' }, /F-012 lies there already/)
  await refused({ kind: 'handed to the customer', parts: number(door.panel) }, /Who takes it home\?/)
  t.equal(await shop.database.reads.custodyMove.count(), before + 1)
})

t.test('what was typed in a refused move is still there', async (t) => {
  const { body } = await move({ kind: 'disposed with consent', parts: number(door.panel), note: 'cracked right through' })
  t.match(body, /cracked right through/)
  t.match(body, /value="F-012"/)
  t.match(body, /Door panel/)
})

t.test('what was disposed of comes back only as found again; what is missing likewise', async (t) => {
  t.equal((await move({ kind: 'disposed with consent', parts: number(door.panel), toWhom: 'Imre Vance' })).statusCode, 303)
  t.same(await standing(door.panel), ['disposed with consent', null, ''])
  for (const kind of ['stored', 'brought back', 'missing']) t.match((await move({ kind, parts: number(door.panel), bin: 'A-1' })).body, /It was disposed of: it can only be found again/)
  t.equal((await move({ kind: 'found again', parts: number(door.panel), bin: 'A-1' })).statusCode, 303)
  t.same(await standing(door.panel), ['out and stored', door.bin.id, ''])
  t.equal((await move({ kind: 'missing', parts: number(door.panel) })).statusCode, 303)
  t.match((await move({ kind: 'handed to the customer', parts: number(door.panel), signedName: 'X' })).body, /It is missing: record first that it was found again/)
  t.equal((await move({ kind: 'found again', parts: number(door.panel), place: 'behind rack D' })).statusCode, 303)
  const page = await technician.page(`/factory-parts/${door.panel.id}/custody`)
  for (const words of ['disposed of, consent of Imre Vance', 'found again', 'behind rack D', 'Test delivery']) t.ok(page.includes(words), words)
})

t.test('the part’s own form does not hand over or dispose of anything, and where else it puts a part is a move too', async (t) => {
  const { version } = (await api.get(`/api/factory-parts/${door.panel.id}`)).json<{ version: number }>()
  const change = (json: Json): Promise<Answer> => api.patch(`/api/factory-parts/${door.panel.id}`, json, { 'if-match': String(version) })
  const refused = await change({ state: 'disposed with consent' })
  t.equal(refused.statusCode, 422)
  t.match(refused.json(), { fields: [{ field: 'state', help: { href: `/factory-parts/${door.panel.id}/custody` } }] })
  t.equal((await change({ state: 'missing', place: '' })).statusCode, 200)
  t.match((await movesOf(door.panel))[0], { kind: 'missing', from: 'behind rack D', note: 'Entered on the part’s own form.' })
  await move({ kind: 'found again', parts: number(door.panel), bin: 'A-1' })
})

t.test('the same press sent twice moves once; two people handing over the same part get one receipt', async (t) => {
  const form = { kind: 'stored', parts: number(door.panel), place: 'shelf 9', _key: randomUUID() }
  const before = (await movesOf(door.panel)).length
  const [one, two] = [await move(form), await move(form)]
  t.equal(one.headers.location, two.headers.location)
  t.equal((await movesOf(door.panel)).length, before + 1)
  const both = await Promise.all([1, 2].map(() => delivery.post(`${build}/moves`, { kind: 'handed to the customer', parts: number(door.panel), signedName: 'Imre' })))
  t.same(both.map(({ statusCode }) => statusCode).sort(), [303, 422])
  t.equal((await movesOf(door.panel)).length, before + 2)
})

t.test('all that the shop keeps is found by customer, build, vehicle, part and place', async (t) => {
  const find = async (words: string, where = 'all'): Promise<string[]> =>
    (await api.get(`/api/custody?${new URLSearchParams({ find: words, where }).toString()}`)).json<{ items: { name: string }[] }>().items.map(({ name }) => name)
  t.same(await find(''), ['Door panel', 'Door speaker'])
  t.same(await find('b-0001 panel'), ['Door panel'])
  t.same(await find('', 'stored'), [])
  t.same(await find('garage', 'with the customer'), ['Door speaker'])
  t.same(await find('nobody’s'), [])
  const { name } = await shop.database.reads.customer.findFirstOrThrow()
  t.equal((await find(name)).length, 2)
  const page = await delivery.page(`/custody?find=${encodeURIComponent(name)}`)
  t.match(page, /Door panel/)
  t.equal((await api.get('/api/custody?where=nowhere')).statusCode, 422)
  t.equal((await technician.get(`/builds/${randomUUID()}/custody`)).statusCode, 404)
  t.equal((await technician.get(`/custody-moves/${randomUUID()}/receipt`)).statusCode, 404)
})

t.test('a move under the API says what it moved, and a wrong one which field', async (t) => {
  const url = `/api${build}/moves`
  minutes += 1
  const made = await api.post(url, { kind: 'brought back', parts: [door.panel.number], bin: 1 })
  t.equal(made.statusCode, 201)
  t.equal(made.json<{ ids: string[] }>().ids.length, 1)
  const bad = await api.post(url, { kind: 'handed to the customer', parts: [door.panel.number] })
  t.equal(bad.statusCode, 422)
  t.match(bad.json(), { fields: [{ field: 'signedName' }] })
  t.equal((await api.post(url, { kind: 'lost', parts: [1] })).statusCode, 422)
  t.equal((await api.post(url, { kind: 'stored', parts: [] })).statusCode, 422)
})
