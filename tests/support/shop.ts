import type { InjectOptions, LightMyRequestResponse } from 'fastify'
import { pino } from 'pino'
import { randomUUID } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { buildApp } from '../../server/app.ts'
import { readConfig, type Config } from '../../server/config.ts'
import { CSRF } from '../../server/shared/csrf.ts'
import { openDatabase, type Database } from '../../server/shared/database/database.ts'
import { migrate } from '../../server/shared/database/migrations.ts'
import { ROLES } from '../../server/shared/roles.ts'
import { hashOfSecret, newSecret, openSession, SESSION_COOKIE } from '../../server/shared/session.ts'
import type { PhotoFiles } from '../../server/shared/photos/files.ts'
import type { App } from '../../server/shared/shell.ts'
import type { Role } from '../../web/shared/viewer.ts'

export type Form = Readonly<Record<string, string | readonly string[]>>
export type Json = Record<string, unknown>
export type Answer = LightMyRequestResponse
type Headers = Readonly<Record<string, string>>

/** Somebody at a browser, and with an access token under /api. */
export interface Visitor {
  readonly personId: string
  readonly cookie: string
  readonly token: string
  get(url: string, headers?: Headers): Promise<Answer>
  /** The HTML of a page that answers 200; anything else throws. */
  page(url: string): Promise<string>
  /** Sends a form as a browser does, with the session's token and a fresh key unless the form brings its own. */
  post(url: string, form?: Form, headers?: Headers): Promise<Answer>
  readonly api: {
    get(url: string, headers?: Headers): Promise<Answer>
    post(url: string, json?: unknown, headers?: Headers): Promise<Answer>
    patch(url: string, json: unknown, headers?: Headers): Promise<Answer>
    /** Posts and returns the record; anything but 201 throws. */
    create(url: string, json: unknown): Promise<Json & { id: string; version: number }>
  }
}

export interface TestShop {
  readonly app: App
  readonly database: Database
  readonly config: Config
  readonly clock: () => Date
  readonly people: Readonly<Record<Role, string>>
  as(role: Role | 'nobody'): Visitor
}

interface Test {
  teardown(work: () => unknown): unknown
}

interface Opening {
  readonly clock?: () => Date
  readonly env?: Readonly<Record<string, string>>
  /** Puts something between the app and its database, as a fault. */
  readonly through?: (database: Database) => Database
  /** Where pictures lie, as on a disk that fails. */
  readonly photoFiles?: PhotoFiles
}

/** A shop of its own on a fresh database, with one person of each role signed in. */
export async function openShop(t: Test, { clock = () => new Date(), env = {}, through = (database) => database, photoFiles }: Opening = {}): Promise<TestShop> {
  const dataDir = mkdtempSync(join(tmpdir(), 'putback-shop-'))
  const config = readConfig({ DATA_DIR: dataDir, PORT: '0', ...env })
  await migrate(config.databaseFile)
  const database = await openDatabase(config.databaseFile)
  const app = await buildApp({ config, database: through(database), clock, ...(photoFiles ? { photoFiles } : {}) }, pino({ level: process.env.LOG_LEVEL ?? 'silent' }))
  t.teardown(async () => {
    await app.close()
    await database.close()
    rmSync(dataDir, { recursive: true, force: true })
  })
  const shopRow = { name: 'Rivet Lane', currency: 'USD', timeZone: 'UTC' }
  await database.write((write) => write.shop.upsert({ where: { id: 'shop' }, create: shopRow, update: shopRow }))
  const visitors = new Map<string, Visitor>([['nobody', visitor(app, { personId: '', cookie: '', csrfSecret: '', token: '' })]])
  const people: Partial<Record<Role, string>> = {}
  for (const role of ROLES) {
    const keys = await signIn(database, role, clock(), config.isSecure)
    people[role] = keys.personId
    visitors.set(role, visitor(app, keys))
  }
  return { app, database, config, clock, people: people as Record<Role, string>, as: (role) => visitors.get(role)! }
}

interface Keys {
  readonly personId: string
  readonly cookie: string
  readonly csrfSecret: string
  readonly token: string
}

async function signIn(database: Database, role: Role, now: Date, isSecure: boolean): Promise<Keys> {
  const token = newSecret()
  return database.write(async (write) => {
    const { id: personId } = await write.person.create({ data: { name: `Test ${role}`, signInName: `test.${role}`, role } })
    const secret = await openSession(write, personId, now)
    const { csrfSecret } = await write.session.findUniqueOrThrow({ where: { tokenHash: hashOfSecret(secret) } })
    const expiresAt = new Date(now.getTime() + 365 * 24 * 3600_000)
    await write.accessToken.create({ data: { tokenHash: hashOfSecret(token), name: 'test', personId, role, createdAt: now, expiresAt } })
    return { personId, cookie: `${SESSION_COOKIE(isSecure)}=${secret}`, csrfSecret, token }
  })
}

function visitor(app: App, keys: Keys): Visitor {
  const send = (options: InjectOptions): Promise<Answer> => app.inject(options)
  const browser: Headers = keys.cookie ? { cookie: keys.cookie } : {}
  const bearer: Headers = keys.token ? { authorization: `Bearer ${keys.token}` } : {}
  const get: Visitor['get'] = (url, headers = {}) => send({ method: 'GET', url, headers: { ...browser, ...headers } })
  const post: Visitor['api']['post'] = (url, json, headers = {}) =>
    send({ method: 'POST', url, headers: { ...bearer, ...headers }, ...(json === undefined ? {} : { payload: json as object }) })
  return {
    personId: keys.personId,
    cookie: keys.cookie,
    token: keys.token,
    get,
    page: async (url) => {
      const answer = await get(url)
      if (answer.statusCode !== 200) throw new Error(`GET ${url} answered ${answer.statusCode}: ${answer.body.slice(0, 2000)}`)
      return answer.body
    },
    post: (url, form = {}, headers = {}) => send({
      method: 'POST', url, headers: { ...browser, 'content-type': 'application/x-www-form-urlencoded', ...headers },
      payload: encodeForm({ ...(keys.csrfSecret ? { _csrf: CSRF.create(keys.csrfSecret) } : {}), _key: randomUUID(), ...form }),
    }),
    api: {
      get: (url, headers = {}) => send({ method: 'GET', url, headers: { ...bearer, ...headers } }),
      post,
      patch: (url, json, headers = {}) => send({ method: 'PATCH', url, headers: { ...bearer, ...headers }, payload: json as object }),
      create: async (url, json) => {
        const answer = await post(url, json)
        if (answer.statusCode !== 201) throw new Error(`POST ${url} answered ${answer.statusCode}: ${answer.body.slice(0, 2000)}`)
        return answer.json()
      },
    },
  }
}

export function encodeForm(form: Form): string {
  const fields = new URLSearchParams()
  for (const [name, value] of Object.entries(form)) {
    for (const one of typeof value === 'string' ? [value] : value) fields.append(name, one)
  }
  return fields.toString()
}
