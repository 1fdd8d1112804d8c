import t, { type Test } from 'tap'
import { randomUUID } from 'node:crypto'
import sharp from 'sharp'
import { aDoor, buildDoor, type ADoor } from '../support/aDoor.ts'
import { openShop, type Json, type TestShop } from '../support/shop.ts'

interface Step { readonly key: string, readonly phase: string, readonly itemNumber: string, readonly text: string, readonly needs: string[], readonly isDone: boolean, readonly skipped: string[], readonly by: string }
interface Sheet { readonly id: string, readonly number: string, readonly contentHash: string, readonly done: number, readonly count: number, readonly differences: string[], readonly steps: Step[], readonly closedOn: string | null, readonly outcome: string }
interface Outcome { readonly items: { id: string, state: string, message: string }[], readonly done: number, readonly steps: { key: string, isDone: boolean, by: string, waitsFor: string[] }[] }

let now = new Date('2031-03-03T09:00:00Z')

async function aSheet(t: Test, more: Json = {}): Promise<{ shop: TestShop, door: ADoor, sheet: Sheet }> {
  now = new Date('2031-03-03T09:00:00Z')
  const shop = await openShop(t, { clock: () => now })
  const door = await aDoor(shop)
  await buildDoor(shop, door)
  const answer = await shop.as('technician').api.post(`/api/builds/${door.build.id}/restorations`, more)
  if (answer.statusCode !== 201) throw new Error(answer.body)
  return { shop, door, sheet: answer.json<Sheet>() }
}

const readSheet = async (shop: TestShop, id: string): Promise<Sheet> => (await shop.as('technician').api.get(`/api/restorations/${id}`)).json()
const stepOf = ({ steps }: Sheet, phase: string, item: string): Step => steps.find((step) => step.phase === phase && step.itemNumber === item)!
const later = (minutes: number): void => { now = new Date(now.getTime() + minutes * 60_000) }
const put = async (shop: TestShop, id: string, ...marks: Json[]): Promise<Outcome> => {
  const answer = await shop.as('technician').api.post(`/api/restorations/${id}/marks`, { marks: marks.map((mark) => ({ id: randomUUID(), ...mark })) })
  if (answer.statusCode !== 200) throw new Error(answer.body)
  return answer.json()
}

t.test('a sheet is frozen from the page, numbered within its build, with the hash of all that stands on it', async (t) => {
  const { shop, door, sheet } = await aSheet(t)
  t.equal(sheet.number, 'R-0001-1')
  t.match(sheet.contentHash, /^[0-9a-f]{64}$/)
  const technician = shop.as('technician')
  const page = await technician.page(`/builds/${door.build.id}/restoration?part=${door.speaker.id}`)
  const form = /<form method="post" action="(\/builds\/[^"]+\/restorations)">([\s\S]*?)<\/form>/.exec(page)
  const values = Object.fromEntries([...form![2]!.matchAll(/name="(f|scope|as)" value="([^"]*)"/g)].map(([, name, value]) => [name, value]))
  const key = randomUUID()
  const answers = [await technician.post(form![1]!, { ...values, _key: key } as never), await technician.post(form![1]!, { ...values, _key: key } as never)]
  t.same(answers.map(({ statusCode }) => statusCode), [303, 303])
  const listed = (await technician.api.get(`/api/builds/${door.build.id}/restorations`)).json<{ items: Sheet[] }>().items
  t.same(listed.map(({ number }) => number), ['R-0001-2', 'R-0001-1'], 'pressed twice, frozen once')
  const frozen = await technician.page(answers[0]!.headers.location as string)
  for (const words of ['R-0001-2', 'F-013 Door speaker', listed[0]!.contentHash]) t.ok(frozen.includes(words), words)
  t.match(await technician.page(`/builds/${door.build.id}/restorations`), /R-0001-2[\s\S]*0 of \d+[\s\S]*R-0001-1/)
  t.match((await technician.api.get(`/api/builds/${door.build.id}/history`)).body, 'froze the return-to-stock sheet R-0001-2')
  const whole = await technician.api.post(`/api/builds/${door.build.id}/restorations`, {})
  t.match(await technician.page(`/restorations/${whole.json<Sheet>().id}/sheet`), /Replaces[\s\S]{0,60}R-0001-1/, 'the sheet that it takes the place of')
})

t.test('what is frozen stays as it is; when the records change the sheet says what differs', async (t) => {
  const { shop, door, sheet } = await aSheet(t)
  const paper = async () => (await shop.as('technician').page(`/restorations/${sheet.id}/sheet`)).replaceAll(/name="_csrf" value="[^"]*"/g, '')
  const before = await paper()
  t.same(sheet.differences, [])
  const other = await shop.as('technician').api.create('/api/bins', { buildId: door.build.id, place: 'rack D' })
  const part = (await shop.as('technician').api.get(`/api/factory-parts/${door.speaker.id}`)).json<{ version: number }>()
  await shop.as('technician').api.patch(`/api/factory-parts/${door.speaker.id}`, { binId: other.id, name: 'Speaker, door' }, { 'if-match': String(part.version) })
  t.equal(await paper(), before, 'the paper is the same, sign for sign')
  const now = await readSheet(shop, sheet.id)
  t.same(now.steps, sheet.steps)
  t.match(now.differences.join('\n'), /Step, new: Refit F-013 Speaker, door/)
  t.match(await shop.as('technician').page(`/restorations/${sheet.id}`), /The records have changed since this sheet was frozen[\s\S]*Refit F-013 Speaker, door/)
  await shop.database.write((write) => write.restorationSheet.update({ where: { id: sheet.id }, data: { content: '{}' } }))
  const damaged = await shop.as('technician').get(`/restorations/${sheet.id}`)
  t.equal(damaged.statusCode, 500, 'a content that is not what was frozen is not shown')
  t.match(damaged.body, 'Do not work by it')
})

t.test('ticks say who and when, go on another day, can be taken back, and out of their order say what was open', async (t) => {
  const { shop, sheet } = await aSheet(t)
  const first = stepOf(sheet, 'take out', 'F-011')
  for (const need of first.needs) await put(shop, sheet.id, { step: need, kind: 'done' })
  later(1)
  t.equal((await put(shop, sheet.id, { step: first.key, kind: 'done' })).steps.find(({ key }) => key === first.key)?.isDone, true)
  for (const at of ['2031-03-03T20:00:00Z', '2031-03-04T07:30:00Z', '2031-03-04T08:00:00Z']) {
    now = new Date(at)
    for (const role of ['technician', 'manager'] as const) await shop.as(role).page('/builds')
  }
  const baffle = sheet.steps.find(({ phase, text }) => phase === 'take out' && text.includes('Baffle'))!
  const jump = await put(shop, sheet.id, { step: baffle.key, kind: 'done', text: 'came out together with the panel' })
  t.equal(jump.items[0]?.state, 'new', 'what was done is taken, in whatever order')
  const after = await readSheet(shop, sheet.id)
  t.match(after.steps.find(({ key }) => key === first.key), { isDone: true, by: 'Test technician', skipped: [] })
  t.ok(after.steps.find(({ key }) => key === baffle.key)?.skipped.includes(stepOf(sheet, 'take out', 'E-01').key))
  const page = await shop.as('manager').page(`/restorations/${sheet.id}?step=${baffle.key}`)
  t.match(page, /Ticked while (step|steps|\d+ steps) [^<]* was open: came out together with the panel/)
  later(1)
  await put(shop, sheet.id, { step: baffle.key, kind: 'not done' })
  const marks = (await shop.as('technician').api.get(`/api/restorations/${sheet.id}/marks`)).json<{ items: { step: string, kind: string }[] }>().items
  t.same(marks.filter(({ step }) => step === baffle.key).map(({ kind }) => kind), ['done', 'not done'], 'both stay')
  t.equal((await readSheet(shop, sheet.id)).steps.find(({ key }) => key === baffle.key)?.isDone, false)
  t.match(await shop.as('technician').page(`/restorations/${sheet.id}/history`), /not done/)
})

t.test('on the page a step that waits for others is not ticked unasked, and what was typed stays', async (t) => {
  const { shop, sheet } = await aSheet(t)
  const technician = shop.as('technician')
  await technician.page(`/restorations/${sheet.id}`)
  const speaker = stepOf(sheet, 'reinstall', 'F-013')
  const url = `/restorations/${sheet.id}/marks`
  const id = randomUUID()
  const warned = await technician.post(url, { id, step: speaker.key, kind: 'done', torque_1: '9 N·m', text: 'speaker was never out' })
  t.equal(warned.statusCode, 409)
  t.match(warned.body, /Not ticked yet: .* should be done first/)
  t.match(warned.body, /Tick it all the same/)
  for (const typed of ['value="9 N·m"', 'value="speaker was never out"']) t.ok(warned.body.includes(typed), typed)
  t.equal(await shop.database.reads.sheetMark.count(), 0)
  const anyway = { id, step: speaker.key, kind: 'done', torque_1: '9 N·m', text: 'speaker was never out', anyway: 'yes' }
  t.equal((await technician.post(url, anyway)).statusCode, 303)
  t.equal((await technician.post(url, anyway)).statusCode, 303)
  t.equal(await shop.database.reads.sheetMark.count(), 2, 'sent twice, the tick and its torque are there once')
  const bare = await technician.post(url, { ...anyway, id: randomUUID(), torque_1: '9' })
  t.equal(bare.statusCode, 422)
  t.match(bare.body, /Write the unit of the wrench with it: 9 N·m, 9 lbf·ft or 9 lbf·in/)
  t.equal(await shop.database.reads.sheetMark.count(), 2, 'and nothing of it was written')
})

t.test('a torque applied is kept as it was typed, held against the one noted, and left to the manual where none is', async (t) => {
  const { shop, sheet } = await aSheet(t)
  const speaker = stepOf(sheet, 'reinstall', 'F-013')
  const panel = stepOf(sheet, 'reinstall', 'F-012')
  const answer = await put(shop, sheet.id,
    { step: `${speaker.key}.1`, kind: 'torque', torque: '80 lbf·in' }, { step: `${panel.key}.2`, kind: 'torque', torque: '2 N·m' },
    { step: `${panel.key}.1`, kind: 'torque', torque: '2 N·m' }, { step: `${speaker.key}.1`, kind: 'torque', torque: '9' }, { step: '999', kind: 'done' },
    { step: speaker.key, kind: 'deviation', text: '' }, { step: `${speaker.key}.1`, kind: 'done' })
  t.same(answer.items.map(({ state }) => state), ['new', 'new', 'refused', 'refused', 'refused', 'refused', 'refused'], 'one that cannot be taken keeps no other from being taken')
  t.match(answer.items.slice(2).map(({ message }) => message), [/no fastener/, /Write the unit/, /no step 999/, /Say in words/, /no step/])
  const { items } = (await shop.as('technician').api.get(`/api/restorations/${sheet.id}/marks`)).json<{ items: { torque: number }[] }>()
  // NIST SP 811: 80 × 0.112 984 829 N·m = 9.038 786 N·m.
  t.same(items.map(({ torque }) => torque), [9039, 2000])
  const pageOf = (): Promise<string> => shop.as('technician').page(`/restorations/${sheet.id}?step=${speaker.key}`)
  const page = await pageOf()
  t.match(page, /80 lbf·in, Test technician, Mon 3 Mar 2031 09:00: as noted/)
  t.match(page, /2 N·m, Test technician, Mon 3 Mar 2031 09:00: compare it with the maker’s manual/)
  later(1)
  await put(shop, sheet.id, { step: `${speaker.key}.1`, kind: 'torque', torque: '12 N·m' })
  t.match(await pageOf(), /12 N·m, Test technician[^<]*: more than noted, by more than a torque wrench may be off \(6 %\)/)
})

t.test('signatures are drawn or typed, and only where the sheet asks for one', async (t) => {
  const { shop, sheet } = await aSheet(t)
  const signs = sheet.steps.filter(({ phase }) => phase === 'signature')
  const answer = await put(shop, sheet.id,
    { step: signs[0]!.key, kind: 'signature', signedName: 'S. Penhale', signature: 'M10 10L200 90' }, { step: signs[1]!.key, kind: 'done' },
    { step: signs[1]!.key, kind: 'signature', signedName: ' ' }, { step: signs[1]!.key, kind: 'signature', signedName: 'X', signature: '<script>' }, { step: sheet.steps[0]!.key, kind: 'signature', signedName: 'X' })
  t.same(answer.items.map(({ state }) => state), ['new', 'refused', 'refused', 'refused', 'refused'])
  const page = await shop.as('delivery').page(`/restorations/${sheet.id}?step=${signs[0]!.key}`)
  t.match(page, /S\. Penhale, taken down by Test technician/)
})

t.test('closing brings the records to where the ticked steps leave the vehicle, in one write, and says so before', async (t) => {
  const { shop, door, sheet } = await aSheet(t)
  const technician = shop.as('technician')
  const refused = await technician.post(`/restorations/${sheet.id}/closings`, { note: '' })
  t.equal(refused.statusCode, 422)
  t.match(refused.body, /steps are not done\. Say why the sheet ends here/)
  for (const { key, phase } of sheet.steps) {
    later(1)
    await put(shop, sheet.id, phase === 'signature' ? { step: key, kind: 'signature', signedName: 'S. Penhale' } : { step: key, kind: 'done' })
  }
  t.match(await readSheet(shop, sheet.id), { done: sheet.count, differences: [] })
  const asked = await technician.page(`/restorations/${sheet.id}/closings/new`)
  for (const words of ['F-013 Door speaker: out and stored → fitted', 'E-01 Midbass 165 mm: no longer fitted', ' Baffle: no longer fitted']) t.ok(asked.includes(words), words)
  t.notMatch(asked, /F-012/, 'the panel is where the records have it')
  const key = randomUUID()
  t.equal((await technician.post(`/restorations/${sheet.id}/closings`, { records: 'bring', _key: key })).statusCode, 303)
  t.equal((await technician.post(`/restorations/${sheet.id}/closings`, { records: 'bring', _key: key })).statusCode, 303)
  t.equal((await technician.post(`/restorations/${sheet.id}/closings`, { records: 'bring' })).statusCode, 409, 'closed once')
  const { reads } = shop.database
  t.match(await reads.factoryPart.findUnique({ where: { id: door.speaker.id } }), { state: 'fitted', binId: null })
  t.match(await reads.equipmentLine.findUnique({ where: { id: door.midbass.id } }), { isFitted: false })
  t.match(await reads.fabricatedPart.findUnique({ where: { id: door.baffle.id } }), { isFitted: false })
  t.equal(await reads.removal.count({ where: { factoryPartId: door.speaker.id, kind: 'went back' } }), 1)
  t.ok((await reads.factoryPart.findMany({ where: { buildId: door.build.id } })).every(({ state }) => state === 'fitted'), 'as before teardown')
  const closed = await readSheet(shop, sheet.id)
  t.match(closed, { closedOn: '2031-03-03', outcome: 'all done', differences: [] })
  const late = await put(shop, sheet.id, { step: '1', kind: 'deviation', text: 'one clip short', age: 3600_000 })
  t.equal(late.items[0]?.state, 'new', 'what a phone still had to send is not lost')
})

t.test('a sheet that is broken off changes only what was ticked', async (t) => {
  const { shop, door, sheet } = await aSheet(t)
  for (const item of ['F-011', 'F-012', 'E-01']) await put(shop, sheet.id, { step: stepOf(sheet, 'take out', item).key, kind: 'done' })
  const answer = await shop.as('technician').api.post(`/api/restorations/${sheet.id}/closings`, { note: 'the customer took the vehicle' })
  t.match(answer.json(), { outcome: `broken off with 3 of ${sheet.count} steps done`, changes: ['F-011 Window switch: fitted → out and stored', 'F-012 Door panel: fitted → out and stored', 'E-01 Midbass 165 mm: no longer fitted'] })
  const { reads } = shop.database
  t.match(await reads.factoryPart.findUnique({ where: { id: door.speaker.id } }), { state: 'out and stored' })
  t.match(await reads.fabricatedPart.findUnique({ where: { id: door.baffle.id } }), { isFitted: true })
  t.equal((await shop.as('delivery').api.post(`/api/restorations/${sheet.id}/closings`, { note: 'x' })).statusCode, 403)
})

t.test('a mark sent again adds nothing, and its id cannot be used for another', async (t) => {
  const { shop, sheet } = await aSheet(t)
  const mark = { id: randomUUID(), step: '1', kind: 'done' }
  t.equal((await put(shop, sheet.id, mark)).items[0]?.state, 'new')
  t.equal((await put(shop, sheet.id, mark, mark)).items[1]?.state, 'there already')
  t.equal(await shop.database.reads.sheetMark.count(), 1)
  const other = await shop.as('technician').api.post(`/api/restorations/${sheet.id}/marks`, { marks: [{ ...mark, step: '2' }] })
  t.equal(other.statusCode, 409)
  t.equal(await shop.database.reads.sheetMark.count(), 1)
  const quick = [{ step: '3', kind: 'done', age: 0 }, { step: '3', kind: 'not done', age: 5000 }]
  for (const one of quick) await put(shop, sheet.id, one)
  t.equal((await readSheet(shop, sheet.id)).steps[2]?.isDone, false, 'one phone sends in order; a slow network does not turn it around')
})

t.test('the sheet can be read by link: without prices, with its pictures and PDF, and nothing else of the shop', async (t) => {
  const { shop, door, sheet } = await aSheet(t)
  const picture = await sharp({ create: { width: 80, height: 60, channels: 3, background: '#345' } }).jpeg().toBuffer()
  const technician = shop.as('technician')
  const form = new FormData()
  for (const [name, value] of [['subjectKind', 'factory part'], ['subjectId', door.panel.id], ['caption', 'clips along the lower edge']] as const) form.append(name, value)
  form.append('files', new Blob([new Uint8Array(picture)], { type: 'image/jpeg' }), 'panel.jpg')
  const encoded = new Response(form)
  const sent = await shop.app.inject({ method: 'POST', url: '/api/photos', headers: { 'authorization': `Bearer ${technician.token}`, 'content-type': encoded.headers.get('content-type')! }, payload: Buffer.from(await encoded.arrayBuffer()) })
  t.equal(sent.statusCode, 201, sent.body)
  const { hash, id: photoId } = sent.json<{ items: { hash: string, id: string }[] }>().items[0]!
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { restoreDepartmentId: door.department.id } }))
  const priced = (await technician.api.post(`/api/builds/${door.build.id}/restorations`, {})).json<Sheet>()
  const manager = shop.as('manager')
  t.match(await manager.page(`/restorations/${priced.id}/sheet`), /117\.98 USD/)
  t.notMatch(await technician.page(`/restorations/${priced.id}/sheet`), /\d USD/)
  t.match(await technician.page(`/restorations/${priced.id}?step=${stepOf(priced, 'take out', 'F-012').key}`), new RegExp(`/restorations/${priced.id}/photos/${hash}`))

  const made = await shop.as('delivery').api.post(`/api/builds/${door.build.id}/links`, { subject: `return-to-stock sheet:${priced.id}`, note: 'Imre', days: 3653 })
  t.equal(made.statusCode, 201, made.body)
  const path = new URL(made.json<{ address: string }>().address).pathname
  const outside = await shop.app.inject({ url: path })
  t.equal(outside.statusCode, 200)
  for (const words of ['R-0001-2', 'Door panel', 'Corvane Tern 2031', `${path}/photos/${hash}`, 'clips along the lower edge']) t.ok(outside.body.includes(words), words)
  t.notMatch(outside.body, /\d USD|117\.98|href="\/builds|Test technician, technician|_csrf/)
  t.equal((await shop.app.inject({ url: `${path}/photos/${hash}?size=small` })).statusCode, 200)
  const pdf = await shop.app.inject({ url: `${path}/files/sheet-Letter.pdf` })
  t.equal(pdf.headers['content-type'], 'application/pdf')
  t.equal(pdf.rawPayload.subarray(0, 5).toString(), '%PDF-')
  t.equal((await shop.app.inject({ url: `${path}/files/sheet-A5.pdf` })).statusCode, 404)

  await technician.api.post(`/api/photos/${photoId}/removal`)
  t.equal((await shop.app.inject({ url: `${path}/photos/${hash}` })).statusCode, 404, 'a picture that was taken away is no longer given out')
  t.notMatch((await shop.app.inject({ url: path })).body, hash)
  t.equal((await technician.get(`/restorations/${sheet.id}/photos/${hash}`)).statusCode, 404, 'nor through a sheet that never showed it')
  const elsewhere = await shop.as('technician').api.post(`/api/builds/${door.build.id}/links`, { subject: `return-to-stock sheet:${priced.id}`, note: 'Imre' })
  t.equal(elsewhere.statusCode, 403)
})
