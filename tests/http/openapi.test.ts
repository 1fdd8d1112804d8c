import t from 'tap'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { randomUUID } from 'node:crypto'
import { subscribe } from 'node:diagnostics_channel'
import type { FastifyInstance } from 'fastify'
import { checkAnswersBy, compileAllSchemas, operationsOf, type ApiDocument, type Described } from '../support/apiDocument.ts'
import { aWorld, examplesIn } from '../support/recordExamples.ts'
import { openShop, type Answer, type Json } from '../support/shop.ts'

const served: string[] = []
subscribe('fastify.initialization', (message) => {
  const { fastify } = message as { fastify: FastifyInstance }
  fastify.addHook('onRoute', ({ method, url }) => void served.push(...[method].flat().map((one) => `${one} ${url}`)))
})

const shop = await openShop(t)
const world = await aWorld(shop)
const owner = shop.as('owner')
const document = (await shop.as('nobody').get('/api/openapi.json')).json<ApiDocument>()
const operations = operationsOf(document)
const wrongWith = checkAnswersBy(document)

// The fixed fields of OpenAPI 3.1.0, https://spec.openapis.org/oas/v3.1.0, as far as this document uses them:
// 4.8.1 OpenAPI, 4.8.2 Info, 4.8.8 Paths, 4.8.10 Operation, 4.8.12 Parameter, 4.8.13 Request Body, 4.8.16 Responses, 4.8.17 Response, 4.8.14 Media Type.
const map = (of: object): object => ({ type: 'object', additionalProperties: of })
const closed = (properties: object, required: readonly string[]): object => ({ type: 'object', properties, required, additionalProperties: false })
const TEXT = { type: 'string' }
const SCHEMA = { type: ['object', 'boolean'] }
const MEDIA = map(closed({ schema: SCHEMA, example: {} }, []))
const HEADERS = map(closed({ description: TEXT, required: { type: 'boolean' }, schema: SCHEMA }, []))
const PARAMETER = {
  ...closed({ name: TEXT, in: { enum: ['query', 'header', 'path', 'cookie'] }, description: TEXT, required: { type: 'boolean' }, deprecated: { type: 'boolean' }, schema: SCHEMA }, ['name', 'in', 'schema']),
  if: { properties: { in: { const: 'path' } } }, then: { properties: { required: { const: true } }, required: ['required'] },
}
const OPERATION = closed({
  tags: { type: 'array', items: TEXT }, summary: TEXT, description: TEXT, operationId: TEXT, deprecated: { type: 'boolean' },
  parameters: { type: 'array', items: PARAMETER, uniqueItems: true },
  requestBody: closed({ description: TEXT, content: MEDIA, required: { type: 'boolean' } }, ['content']),
  responses: { type: 'object', minProperties: 1, patternProperties: { '^([1-5][0-9X]{2}|default)$': closed({ description: TEXT, headers: HEADERS, content: MEDIA }, ['description']) }, additionalProperties: false },
  security: { type: 'array', items: map({ type: 'array', items: TEXT }) },
}, ['responses'])
const DOCUMENT = closed({
  openapi: { type: 'string', pattern: '^3\\.1\\.\\d+$' },
  info: closed({ title: TEXT, version: TEXT, description: TEXT, summary: TEXT }, ['title', 'version']),
  servers: { type: 'array' },
  paths: { type: 'object', patternProperties: { '^/': { type: 'object', propertyNames: { enum: ['get', 'put', 'post', 'delete', 'patch', 'head', 'options', 'trace'] }, additionalProperties: OPERATION } }, additionalProperties: false },
  components: closed({ schemas: { type: 'object', propertyNames: { pattern: '^[a-zA-Z0-9._-]+$' } }, securitySchemes: { type: 'object' } }, []),
  security: { type: 'array' }, tags: { type: 'array' },
}, ['openapi', 'info', 'paths'])

t.test('the description of the API is a valid OpenAPI 3.1 document', async (t) => {
  const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true, strictTypes: false, strictRequired: false })
  const check = ajv.compile(DOCUMENT)
  t.ok(check(document), ajv.errorsText(check.errors))
  t.ok(compileAllSchemas(document) > 300, 'and each schema in it is one of JSON Schema 2020-12')
  for (const { method, path, operation } of operations) {
    const inPath = [...path.matchAll(/\{([^}]+)\}/g)].map(([, name]) => name)
    const described = (operation.parameters ?? []).filter((one) => one.in === 'path').map((one) => one.name)
    t.same(described.sort(), inPath.sort(), `${method} ${path} describes what stands in its address`)
    t.ok(operation.summary && operation.tags?.length === 1, `${method} ${path} says what it is for`)
  }
})

t.test('every address under /api is described, and no other', async (t) => {
  const described = operations.map(({ method, path }) => `${method.toUpperCase()} ${path.replaceAll(/\{([^}]+)\}/g, ':$1')}`)
  const standing = served.filter((route) => route.includes(' /api/') && !route.startsWith('HEAD') && !route.endsWith('openapi.json'))
  t.same(described.sort(), standing.sort())
})

t.test('answers are as described: records made, read, listed, changed, taken away', async (t) => {
  const matches = (method: string, url: string, answer: Answer, status: number): void => {
    t.equal(answer.statusCode, status, `${method} ${url}: ${answer.body.slice(0, 300)}`)
    const wrong = wrongWith(method, url, answer.statusCode, String(answer.headers['content-type']), answer.json())
    t.equal(wrong, '', `${method} ${url} answers ${status}`)
  }
  const paths = operations.filter(({ method, path }) => method === 'post' && `${path}/{id}/removal` in document.paths && !path.endsWith('/photos')).map(({ path }) => path)
  const examples = Object.values(examplesIn(world))
  for (const url of paths) {
    const properties = Object.keys(bodyOf(document.paths[url]!.post!) ?? {})
    const example = examples.find(({ json }) => Object.keys(json).every((name) => properties.includes(name)) && required(url).every((name) => name in json))
    if (!example) {
      t.fail(`no example fits ${url}`)
      continue
    }
    const made = await owner.api.post(url, example.json)
    if (made.statusCode !== 201) {
      t.fail(`${url}: ${made.body}`)
      continue
    }
    const one = `${url}/${made.json<{ id: string }>().id}`
    matches('POST', url, made, 201)
    matches('GET', one, await owner.api.get(one), 200)
    matches('GET', url, await owner.api.get(`${url}?limit=3`), 200)
    matches('PATCH', one, await owner.api.patch(one, {}, { 'if-match': '"1"' }), 200)
    if (example.change) {
      const { field, first, second } = example.change
      if (field in (bodyOf(document.paths[`${url}/{id}`]!.patch!) ?? {})) {
        await owner.api.patch(one, { [field]: first }, { 'if-match': '"1"' })
        matches('PATCH', one, await owner.api.patch(one, { [field]: second }, { 'if-match': '"1"' }), 412)
      }
    }
    matches('PATCH', one, await owner.api.patch(one, {}), 428)
    matches('POST', `${one}/removal`, await owner.api.post(`${one}/removal`), 200)
    matches('GET', `${one}/history`, await owner.api.get(`${one}/history`), 200)
    matches('POST', `${one}/recovery`, await owner.api.post(`${one}/recovery`), 200)
    matches('POST', url, await owner.api.post(url, { strange: 1 }), 422)
    matches('GET', one, await shop.as('nobody').api.get(one), 401)
    matches('GET', `${url}/x`, await owner.api.get(`${url}/${randomUUID()}`), 404)
  }
  for (const role of ['owner', 'technician', 'delivery'] as const) {
    for (const { method, path } of operations.filter((one) => one.method === 'get' && !/\{id\}\/history$/.test(one.path))) {
      const url = path.startsWith('/api/builds/{id}') ? path.replace('{id}', world.build) : path
      if (url.includes('{')) continue
      const answer = await shop.as(role).api.get(url)
      matches(method, url, answer, answer.statusCode === 403 ? 403 : 200)
    }
  }
})

t.test('requests drawn from the description, right and hostile, never break the server and are answered as described', async (t) => {
  const draw = seeded(20_310_303)
  const pick = <Of>(many: readonly Of[]): Of => many[Math.floor(draw() * many.length)]!
  const ids = Object.values(world)
  const hostile = ['', ' ', '0', '-1', '1e9', '99999999999999999999', 'NaN', 'null', '9 mm', '3/0', '1/64 in', '2:30', '½', '٣', '\'; DROP TABLE "Build"; --', '<script>alert(1)</script>',
    '../../etc/passwd', '%00', '\u202egnp', '😀'.repeat(60), 'x'.repeat(5_000), '2031-02-29', '2031-13-01', 'yes', 'owner', 'as found', 'each', 'bolt', '12.50', '5 kg', '1 h']
  const values = (): unknown => pick<unknown>([pick(hostile), pick(hostile), pick(ids), randomUUID(), 0, -1, 1, 3.7, 2 ** 31, -0, 1e300, true, false, null, [], [pick(hostile)], [pick(ids)], {}, [[1]]])
  const filledIn = (path: string): string => path.replaceAll(/\{[^}]+\}/g, () => pick([pick(ids), pick(ids), randomUUID(), 'shop', encodeURIComponent(pick(hostile).slice(0, 80)) || 'x']))
  let accepted = 0
  for (const { method, path, operation } of operations) {
    for (let round = 0; round < 4; round += 1) {
      const { url, json } = request({ method, path, operation }, round)
      const headers = { 'idempotency-key': randomUUID(), ...(method === 'patch' ? { 'if-match': pick(['"1"', '"2"', '*', 'x', '']) } : {}) }
      const answer = method === 'get' ? await owner.api.get(url) : method === 'post' ? await owner.api.post(url, json, headers) : await owner.api.patch(url, json, headers)
      const told = `${method} ${url} ${JSON.stringify(json)?.slice(0, 300) ?? ''}`
      if (answer.statusCode >= 500) t.fail(`${told}: ${answer.statusCode}`)
      if (/node_modules|\.tsx?:\d|prisma|sqlite/i.test(answer.body.replace(/DROP TABLE/g, ''))) t.fail(`${told} tells of the inside: ${answer.body.slice(0, 300)}`)
      if (answer.statusCode < 300) accepted += 1
      const wrong = new URL(url, 'http://shop').pathname === url.replace(/\?.*/, '') ? wrongWith(method, url, answer.statusCode, String(answer.headers['content-type']), answer.json()) : ''
      if (wrong !== '') t.fail(`${told} answers ${answer.statusCode} other than described: ${wrong}`)
    }
  }
  t.ok(accepted > 60, `${accepted} of ${operations.length * 4} requests were taken`)
  t.equal((await owner.api.get(`/api/builds/${world.build}/estimate`)).statusCode, 200)
  for (const url of ['', '/estimate', '/materials', '/removal', '/restoration']) t.equal((await owner.get(`/builds/${world.build}${url}`)).statusCode, 200)

  function request({ path, operation }: Described, round: number): { url: string; json: Json | undefined } {
    const query = (operation.parameters ?? []).filter((one) => one.in === 'query' && draw() < 0.4).map((one) => `${one.name}=${encodeURIComponent(pick([...hostile, ...ids]))}`)
    const url = `${filledIn(path)}${query.length > 0 && round > 0 ? `?${query.join('&')}` : ''}`
    const properties = bodyOf(operation)
    if (!properties) return { url, json: undefined }
    const example = round < 2 ? Object.values(examplesIn(world)).find(({ json }) => Object.keys(json).every((name) => name in properties))?.json ?? {} : {}
    const drawn = Object.keys(properties).filter(() => draw() < [0, 0.15, 0.6, 0.6][round]!).map((name) => [name, values()])
    return { url, json: { ...example, ...Object.fromEntries(drawn) as Json } }
  }
})

const bodyOf = (operation: Described['operation']): Readonly<Record<string, object>> | undefined =>
  operation.requestBody?.content['application/json']?.schema.properties
const required = (url: string): readonly string[] => document.paths[url]?.post?.requestBody?.content['application/json']?.schema.required ?? []

/** The same numbers in each run. */
function seeded(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
}
