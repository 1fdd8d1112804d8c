import t from 'tap'
import { pino } from 'pino'
import { execFile } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { buildApp } from '../../server/app.ts'
import { readConfig } from '../../server/config.ts'
import { newCode } from '../../server/people/codes.ts'
import { openDatabase } from '../../server/shared/database/database.ts'
import { migrate } from '../../server/shared/database/migrations.ts'
import { projectFolder } from '../../server/shared/database/projectFolder.ts'
import { codeOn, cookieOf, isSignedIn, PASSWORD, send, signIn } from '../support/signingIn.ts'

const OWNER = { shopName: 'Pear & Plane', name: 'Ansa Quill', signInName: 'a.quill', password: PASSWORD }

/** An empty shop as the server opens it, with what it writes to its log. */
async function openEmptyShop(t: { teardown(work: () => unknown): unknown }) {
  const dataDir = mkdtempSync(join(tmpdir(), 'putback-empty-'))
  const config = readConfig({ DATA_DIR: dataDir, PORT: '3799' })
  await migrate(config.databaseFile)
  const database = await openDatabase(config.databaseFile)
  const log: string[] = []
  const logger = pino({ level: 'info' }, { write: (line: string) => void log.push(line) })
  const app = await buildApp({ config, database, clock: () => new Date() }, logger)
  t.teardown(async () => {
    await app.close()
    await database.close()
    rmSync(dataDir, { recursive: true, force: true })
  })
  return { app, database, config, dataDir, log }
}

t.test('an empty shop leads its first owner in, once', async (t) => {
  const { app, database, log } = await openEmptyShop(t)
  const get = (url: string) => app.inject({ method: 'GET', url })
  t.equal((await get('/')).headers.location, '/first-owner')
  const announced = log.find((line) => line.includes('one-time code')) ?? ''
  t.match(announced, 'http://127.0.0.1:3799/first-owner')
  const code = codeOn(announced)

  const wrong = await send({ app }, '/first-owner', { ...OWNER, code: newCode() })
  t.equal(wrong.statusCode, 422)
  t.match(wrong.body, 'but passwords are typed again')
  t.match(wrong.body, 'value="Pear & Plane"', 'what was typed stands')
  t.notMatch(wrong.body, PASSWORD)
  t.equal((await send({ app }, '/first-owner', { ...OWNER, code, password: '12345678' })).statusCode, 422)
  t.equal(await database.reads.person.count(), 0)

  const opened = await send({ app }, '/first-owner', { ...OWNER, code })
  t.equal(opened.headers.location, '/settings')
  t.ok(await isSignedIn({ app }, cookieOf(opened)))
  t.match(await database.reads.person.findMany(), [{ name: 'Ansa Quill', role: 'owner', isActive: true }])
  t.equal((await database.reads.shop.findFirstOrThrow()).name, 'Pear & Plane')

  const again = await send({ app }, '/first-owner', { ...OWNER, code, signInName: 'b.quill' })
  t.equal(again.statusCode, 409)
  t.equal(await database.reads.person.count(), 1)
  t.equal((await get('/first-owner')).headers.location, '/')
  t.equal((await get('/')).headers.location, '/sign-in')
  t.equal((await signIn({ app }, 'a.quill', PASSWORD)).statusCode, 303)
  t.notOk(log.some((line) => line.includes(PASSWORD)), 'no password is logged')
})

t.test('two who open the shop at once do not both become its owner', async (t) => {
  const { app, database, log } = await openEmptyShop(t)
  const code = codeOn(log.join())
  const answers = await Promise.all(['a.quill', 'b.quill'].map((signInName) => send({ app }, '/first-owner', { ...OWNER, code, signInName })))
  t.same(answers.map((answer) => answer.statusCode).sort(), [303, 409])
  t.equal(await database.reads.person.count(), 1)
})

t.test('the code of the first owner cannot be guessed at for long', async (t) => {
  const { app, log } = await openEmptyShop(t)
  for (let tries = 1; tries <= 10; tries += 1) t.equal((await send({ app }, '/first-owner', { ...OWNER, code: newCode() })).statusCode, 422)
  t.equal((await send({ app }, '/first-owner', { ...OWNER, code: codeOn(log.join()) })).statusCode, 429)
})

t.test('whoever keeps the server gives a locked-out person a code', async (t) => {
  const { app, database, dataDir } = await openEmptyShop(t)
  await database.write((write) => write.person.create({ data: { name: 'Ansa Quill', signInName: 'a.quill', role: 'owner' } }))
  const command = (...words: string[]) => promisify(execFile)(process.execPath, ['--import=tsx', 'server/commands/people.ts', ...words], {
    cwd: projectFolder(), env: { PATH: process.env.PATH ?? '', DATA_DIR: dataDir },
  })
  t.match((await command('list')).stdout, /a\.quill\tAnsa Quill\towner\tpassword none yet/)
  const code = codeOn((await command('code', 'a.quill')).stdout)
  const set = await send({ app }, '/new-password', { signInName: 'a.quill', code, password: PASSWORD })
  t.equal(set.headers.location, '/builds', 'while the server runs')
  const history = await database.reads.auditEntry.findMany({ where: { recordKind: 'person' }, orderBy: { at: 'asc' } })
  t.match(history, [{ personName: 'the command line', action: 'gave a one-time code' }, { personName: 'Ansa Quill', action: 'set a password' }])
  await t.rejects(command('code', 'nobody.here'), { code: 1, stderr: /Nobody has the sign-in name nobody\.here/ })
  await t.rejects(command('open the door'), { code: 1, stderr: /Usage:/ })
})

t.test('an empty shop is led step by step; steps tick themselves off and can be put away', async (t) => {
  const { app, database, log } = await openEmptyShop(t)
  await app.ready()
  const opened = await send({ app }, '/first-owner', { ...OWNER, code: codeOn(log.find((line) => line.includes('one-time code')) ?? '') })
  const cookie = cookieOf(opened)
  const get = async (url: string, more = ''): Promise<string> => (await app.inject({ method: 'GET', url, headers: { cookie: `${cookie}${more}` } })).body
  const post = async (url: string, form: Record<string, string>) => {
    const csrf = /name="_csrf" value="([^"]+)"/.exec(await get('/settings'))![1]!
    return send({ app }, url, { _csrf: csrf, ...form }, { cookie })
  }
  const builds = await get('/builds')
  for (const title of ['The shop', 'Departments and skills', 'People', 'Bays', 'Equipment', 'Materials', 'Standard fittings', 'The first customer', 'The first vehicle', 'The first build or counter job', 'The first plan']) {
    t.match(builds, `<h2 class="subject">${title}</h2>`)
  }
  t.equal(builds.match(/class="button first"/g)?.length, 1, 'one button is filled: the next')
  t.notMatch(builds, /class="done"/)

  const usual = await get('/departments/usual')
  t.notMatch(usual, /name="costRate-\d" [^>]*value="[^"]+"/, 'no rate is made up')
  t.equal((await post('/departments/usual', { 'name-0': 'Wood room' })).statusCode, 422)
  const half = await post('/departments/usual', { 'name-0': 'Wood room', 'costRate-0': '38' })
  t.match([half.statusCode, half.body], [422, /Wood room: Price of an hour is needed/])
  t.equal(await database.reads.department.count(), 0)
  t.equal((await post('/departments/usual', { 'name-0': 'Wood room', 'costRate-0': '38', 'sellRate-0': '95', 'skills-0': 'joinery, milling', 'name-1': 'Paint' })).statusCode, 303)
  t.match(await database.reads.department.findMany({ include: { skills: true } }), [{ name: 'Wood room', costRate: 3800, sellRate: 9500, skills: { length: 2 } }])
  t.match(await get('/builds'), /<li class="done">.*Departments and skills/s)

  const away = await post('/settings/first-steps', { show: 'no', from: '/builds' })
  t.match(away.headers, { location: '/builds', 'set-cookie': /putback-first-day=no/ })
  t.notMatch(await get('/builds', '; putback-first-day=no'), /first-steps/)
  t.match(await get('/settings', '; putback-first-day=no'), /Show the steps of the first day/)
})
