import t, { type Test } from 'tap'
import { randomUUID } from 'node:crypto'
import type { RecordKind } from '../../server/shared/records/kind.ts'
import { listKinds } from '../../server/shared/records/kind.ts'
import { aWorld, examplesIn, type Example } from '../support/recordExamples.ts'
import { openShop, type Answer, type Form, type Json } from '../support/shop.ts'

const shop = await openShop(t)
const world = await aWorld(shop)
const examples = examplesIn(world)
const owner = shop.as('owner')
const kinds = listKinds().filter((kind) => !kind.isSingle)

t.test('every kind of record has an example here', async (t) => {
  t.same(kinds.map((kind) => kind.name).sort(), Object.keys(examples).sort())
})

for (const kind of kinds) {
  const example = examples[kind.name]
  if (!example) continue
  t.test(`${kind.plural}: over the API`, async (t) => {
    const id = await createsOnce(t, kind, example)
    await changesByVersion(t, kind, example, id)
    await takesAwayAndBack(t, kind, id)
    await namesWhatIsWrong(t, kind, example)
    await pagesThrough(t, kind)
  })
  t.test(`${kind.plural}: on pages`, async (t) => {
    const id = await createsByForm(t, kind, example)
    await changesByForm(t, kind, example, id)
    await goesAwayByButton(t, kind, example, id)
  })
}

async function createsOnce(t: Test, kind: RecordKind, { json }: Example): Promise<string> {
  const before = await countOf(kind)
  const key = randomUUID()
  const send = (body: Json): Promise<Answer> => owner.api.post(`/api/${kind.path}`, body, { 'idempotency-key': key })
  const answers = await Promise.all(Array.from({ length: 5 }, () => send(json)))
  t.same(answers.map((answer) => answer.statusCode), Array(5).fill(201), answers[0]!.body)
  t.equal(new Set(answers.map((answer) => answer.body)).size, 1, 'five times the same request gets one answer')
  t.equal(await countOf(kind), before + 1, 'and makes one record')
  t.equal((await send({ ...json, ...anotherValue(kind) })).statusCode, 422, 'another request under the same key is refused')
  const stored = answers[0]!.json<Json & { id: string }>()
  t.equal(answers[0]!.headers.location, `/api/${kind.path}/${stored.id}`)
  const read = await owner.api.get(`/api/${kind.path}/${stored.id}`)
  t.equal(read.statusCode, 200)
  t.equal(read.headers.etag, '"1"')
  t.same(read.json(), stored)
  return stored.id
}

async function changesByVersion(t: Test, kind: RecordKind, { change }: Example, id: string): Promise<void> {
  const url = `/api/${kind.path}/${id}`
  t.equal((await owner.api.patch(url, {})).statusCode, 428, 'a change without its version is refused')
  if (!change) {
    t.equal((await owner.api.patch(url, {}, { 'if-match': '"1"' })).statusCode, 200)
    return
  }
  const changed = await owner.api.patch(url, { [change.field]: change.first }, { 'if-match': '"1"' })
  t.equal(changed.statusCode, 200, changed.body)
  t.equal(changed.headers.etag, '"2"')
  const stale = await owner.api.patch(url, { [change.field]: change.second }, { 'if-match': '"1"' })
  t.equal(stale.statusCode, 412, 'a change of an older version is refused')
  const problem = stale.json<{ yours: Json; theirs: Json }>()
  t.equal(problem.yours[change.field], change.second)
  t.same(problem.theirs[change.field], changed.json<Json>()[change.field], 'with both values')
  t.same((await owner.api.get(url)).json(), changed.json(), 'and nothing is overwritten')
}

async function takesAwayAndBack(t: Test, kind: RecordKind, id: string): Promise<void> {
  const url = `/api/${kind.path}/${id}`
  const removed = await owner.api.post(`${url}/removal`)
  t.equal(removed.statusCode, 200, removed.body)
  t.type(removed.json<Json>().removedAt, 'string')
  t.notOk((await idsOf(kind)).includes(id), 'what was taken away is not listed')
  t.ok((await idsOf(kind, 'removed=yes')).includes(id), 'but among what was taken away')
  t.equal((await owner.api.patch(url, {}, { 'if-match': `"${String(removed.json<Json>().version)}"` })).statusCode, 404)
  t.equal((await owner.api.post(`${url}/recovery`)).json<Json>().removedAt, null)
  t.ok((await idsOf(kind)).includes(id))
  const { items } = (await owner.api.get(`${url}/history`)).json<{ items: { action: string; personName: string }[] }>()
  const expected = ['recovered', 'removed', ...(examples[kind.name]?.change ? ['changed'] : []), 'created']
  t.same(items.map((entry) => entry.action), expected, 'its history says all of it')
  t.ok(items.every((entry) => entry.personName === 'Test owner'))
}

async function namesWhatIsWrong(t: Test, kind: RecordKind, { json, bad }: Example): Promise<void> {
  const before = await countOf(kind)
  const refused = await owner.api.post(`/api/${kind.path}`, { ...json, [bad.field]: bad.value })
  t.equal(refused.statusCode, 422)
  t.match(refused.headers['content-type'], 'application/problem+json')
  const { fields } = refused.json<{ fields: { field: string; message: string }[] }>()
  t.equal(fields[0]?.field, bad.field)
  t.match(fields[0]?.message, bad.says)
  const strange = await owner.api.post(`/api/${kind.path}`, { ...json, passwordHash: 'x' })
  t.equal(strange.statusCode, 422, 'a field that is not of this record is refused')
  t.equal(await countOf(kind), before)
  for (const url of [`/api/${kind.path}/${randomUUID()}`, `/${kind.path}/${randomUUID()}`, `/${kind.path}/12`, `/api/${kind.path}/${world.build.replace(/./, 'x')}`]) {
    t.equal((url.startsWith('/api') ? await owner.api.get(url) : await owner.get(url)).statusCode, 404, url)
  }
}

async function pagesThrough(t: Test, kind: RecordKind): Promise<void> {
  const all = await idsOf(kind)
  const seen: string[] = []
  for (let cursor = ''; ;) {
    const page = (await owner.api.get(`/api/${kind.path}?limit=2${cursor}`)).json<{ items: { id: string }[]; next: string | null }>()
    t.ok(page.items.length <= 2)
    seen.push(...page.items.map((item) => item.id))
    if (page.next === null) break
    cursor = `&cursor=${page.next}`
  }
  t.same(seen, all, 'two at a time they are all there, once each')
}

async function createsByForm(t: Test, kind: RecordKind, { json, other, bad }: Example): Promise<string> {
  const fresh = await owner.page(`/${kind.path}/new?build=${String(json.buildId ?? world.build)}`)
  // What nobody types is written by an act of its own.
  for (const [name, { changedBy }] of Object.entries(kind.fields)) {
    if (changedBy?.length === 0) t.notMatch(fresh, `name="${name}"`, `nobody types ${name}`)
    else t.match(fresh, `name="${name}"`, `the form asks for ${name}`)
  }
  const key = randomUUID()
  const before = await countOf(kind)
  const form = { ...formIn(fresh), ...asForm(other), _key: key }
  const refused = await owner.post(`/${kind.path}`, { ...form, [bad.field]: bad.value })
  t.equal(refused.statusCode, 422)
  t.match(readable(refused.body), bad.says)
  const isChosen = ['choice', 'reference'].includes(kind.fields[bad.field]!.entry.as)
  const typed = { ...form, [bad.field]: isChosen ? formIn(refused.body)[bad.field]! : bad.value }
  t.same(withoutGuards(formIn(refused.body)), withoutGuards(typed), 'nothing typed is lost')
  const answers = await Promise.all([1, 2, 3, 4, 5].map(() => owner.post(`/${kind.path}`, form)))
  t.same(answers.map((answer) => answer.statusCode), Array(5).fill(303), 'mended, the same form is taken')
  t.equal(new Set(answers.map((answer) => answer.headers.location)).size, 1)
  t.equal(await countOf(kind), before + 1, 'sent five times it makes one record')
  const location = String(answers[0]!.headers.location)
  await owner.page(location)
  return [...location.matchAll(/[0-9a-f-]{36}/g)].at(-1)![0]
}

async function changesByForm(t: Test, kind: RecordKind, { change }: Example, id: string): Promise<void> {
  const form = formIn(await owner.page(`/${kind.path}/${id}/form`))
  t.equal(form._version, '1')
  if (!change) return
  const saved = await owner.post(`/${kind.path}/${id}`, { ...form, [change.field]: change.first })
  t.equal(saved.statusCode, 303, saved.body)
  const stale = await owner.post(`/${kind.path}/${id}`, { ...form, _key: randomUUID(), [change.field]: change.second })
  t.equal(stale.statusCode, 412, 'a form from a stale tab is not saved')
  const words = readable(stale.body)
  t.match(words, change.first, 'it shows what was saved')
  t.match(words, change.second, 'and what was typed')
  const resolved = await owner.post(`/${kind.path}/${id}`, { ...formIn(stale.body), [change.field]: change.second })
  t.equal(resolved.statusCode, 303, 'what is chosen there is saved')
  const latest = formIn(await owner.page(`/${kind.path}/${id}/form`))
  t.equal(latest._version, '3')
  t.match(readable(String(latest[change.field])), change.second)
  t.same(withoutGuards(latest, change.field), withoutGuards(form, change.field), 'and all else is as it was')
}

async function goesAwayByButton(t: Test, kind: RecordKind, { json }: Example, id: string): Promise<void> {
  const removed = await owner.post(`/${kind.path}/${id}/removal`)
  t.equal(removed.statusCode, 303, removed.body)
  t.match(await owner.page(String(removed.headers.location)), `/${kind.path}/${id}/recovery`, 'its page offers to take it back')
  const list = await owner.page(`/${kind.path}?removed=yes&build=${String(json.buildId ?? world.build)}`)
  if (!kind.hasOwnList) t.match(list, id)
  t.equal((await owner.post(`/${kind.path}/${id}/recovery`)).statusCode, 303)
  await owner.page(`/${kind.path}/${id}`)
}

t.test('the shop’s own settings are changed, never created or removed', async (t) => {
  const read = await owner.api.get('/api/shop/shop')
  t.match(read.json(), { name: 'Rivet Lane', currency: 'USD' })
  t.equal((await owner.api.patch('/api/shop/shop', { phone: '555-0100' }, { 'if-match': '"1"' })).statusCode, 200)
  t.equal((await owner.api.patch('/api/shop/shop', { phone: '555-0101' }, { 'if-match': '"1"' })).statusCode, 412)
  for (const [field, value] of [['currency', 'dollars'], ['timeZone', 'Mars/Olympus'], ['closesAt', '7:00'], ['opensAt', 'early']]) {
    const refused = await owner.api.patch('/api/shop/shop', { [field!]: value }, { 'if-match': '"2"' })
    t.equal(refused.statusCode, 422)
    t.equal(refused.json<{ fields: { field: string }[] }>().fields[0]?.field, field)
  }
  t.equal((await owner.api.post('/api/shop', { name: 'Another' })).statusCode, 404)
  t.equal((await owner.api.post('/api/shop/shop/removal')).statusCode, 404)
  const form = formIn(await owner.page('/shop/shop/form'))
  t.equal((await owner.post('/shop/shop', { ...form, address: '4 Rivet Lane' })).statusCode, 303)
  t.match(await owner.page('/shop/shop'), '4 Rivet Lane')
})

async function countOf(kind: RecordKind): Promise<number> {
  return (await idsOf(kind)).length
}

async function idsOf(kind: RecordKind, query = ''): Promise<string[]> {
  return (await owner.api.get(`/api/${kind.path}?limit=200&${query}`)).json<{ items: { id: string }[] }>().items.map((item) => item.id)
}

/** Something that makes the request another one. */
function anotherValue(kind: RecordKind): Json {
  const [name] = Object.entries(kind.fields).find(([, field]) => ['text', 'long'].includes(field.entry.as)) ?? Object.entries(kind.fields)[0]!
  return { [name]: 'another' }
}

function withoutGuards(form: Form, ...others: string[]): Form {
  return Object.fromEntries(Object.entries(form).filter(([name]) => !['_csrf', '_key', '_version', ...others].includes(name)))
}

const asForm = (json: Json): Form =>
  Object.fromEntries(Object.entries(json).map(([name, value]) => [name, Array.isArray(value) ? value.map(String) : String(value)]))

/** HTML as a person reads it, entities resolved. */
function readable(html: string): string {
  return html.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll(/&#34;|&quot;/g, '"').replaceAll(/&#39;|&#x27;|&apos;/g, '\'').replaceAll('&amp;', '&')
}

/** What a browser would send of the form on a page: the one for typing or choosing. */
function formIn(html: string): Record<string, string | string[]> {
  const form = [...html.matchAll(/<form[^>]*>.*?<\/form>/gs)].map(([text]) => text).find((text) => /name="_version"|data-keep="typed"/.test(text)) ?? ''
  const sent: Record<string, string | string[]> = {}
  const put = (name: string, value: string, isMany = false): void => {
    const before = sent[name]
    sent[name] = isMany ? [...(before === undefined ? [] : [before].flat()), readable(value)] : readable(value)
  }
  for (const [tag] of form.matchAll(/<input[^>]*>/g)) {
    const name = /name="([^"]*)"/.exec(tag)?.[1]
    const kind = /type="([^"]*)"/.exec(tag)?.[1]
    if (!name || ((kind === 'checkbox' || kind === 'radio') && !/\bchecked\b/.test(tag))) continue
    put(name, /value="([^"]*)"/.exec(tag)?.[1] ?? '', kind === 'checkbox')
  }
  for (const [, name, text] of form.matchAll(/<textarea[^>]*name="([^"]*)"[^>]*>(.*?)<\/textarea>/gs)) put(name!, text!.replace(/^\n/, ''))
  for (const [, name, options] of form.matchAll(/<select[^>]*name="([^"]*)"[^>]*>(.*?)<\/select>/gs)) {
    const chosen = /<option[^>]*selected[^>]*>/.exec(options!)?.[0] ?? /<option[^>]*>/.exec(options!)?.[0] ?? ''
    put(name!, /value="([^"]*)"/.exec(chosen)?.[1] ?? '')
  }
  return sent
}
