import t from 'tap'
import { randomUUID } from 'node:crypto'
import { hashDemoPassword, hashPassword, isPassword } from '../../server/people/passwords.ts'
import { newSecret } from '../../server/shared/session.ts'
import { openShop, type Answer, type TestShop } from '../support/shop.ts'
import { cookieOf, csrfOf, HOUR_MS, isSignedIn, MINUTE_MS, PASSWORD, send, setCookieOf, setPassword, signIn } from '../support/signingIn.ts'

t.test('a person signs in and begins where the work is', async (t) => {
  const shop = await openShop(t)
  for (const role of ['owner', 'technician'] as const) await setPassword(shop, role)
  t.equal((await signIn(shop, 'test.technician', PASSWORD)).headers.location, '/now')
  t.equal((await signIn(shop, 'test.owner', PASSWORD)).headers.location, '/builds')
  t.equal((await signIn(shop, ' Test.Owner ', PASSWORD)).statusCode, 303, 'a phone that capitalizes does not keep anybody out')
  const cookie = setCookieOf(await signIn(shop, 'test.owner', PASSWORD))
  t.match(cookie, /HttpOnly/)
  t.match(cookie, /SameSite=Lax/)
  t.match(cookie, /Path=\//)
  t.notMatch(cookie, /Secure/, 'a plain network keeps the cookie')
})

t.test('over TLS the cookie is bound to this host and to TLS', async (t) => {
  const shop = await openShop(t, { env: { PUBLIC_URL: 'https://shop.example' } })
  await setPassword(shop, 'owner')
  const line = [(await signIn(shop, 'test.owner', PASSWORD)).headers['set-cookie']].flat().join()
  t.match(line, /^__Host-putback=/)
  t.match(line, /Secure/)
})

t.test('a wrong password and a name that nobody has get the same answer', async (t) => {
  const shop = await openShop(t)
  await setPassword(shop, 'owner')
  const wrong = await signIn(shop, 'test.owner', 'not this one')
  const unknown = await signIn(shop, 'test.absent', 'not this one')
  t.equal(wrong.statusCode, 401)
  t.equal(unknown.statusCode, 401)
  t.equal(wrong.body.replaceAll('test.owner', 'X'), unknown.body.replaceAll('test.absent', 'X'))
  t.equal(cookieOf(wrong), '')
  const noPassword = await signIn(shop, 'test.manager', '')
  t.equal(noPassword.statusCode, 401, 'somebody without a password cannot be let in by an empty one')
})

t.test('a name that nobody has takes as long to refuse as a wrong password', async (t) => {
  const stored = await hashPassword(PASSWORD)
  const took = async (hash: string): Promise<number> => {
    const from = performance.now()
    await isPassword(hash, 'not this one', false)
    return performance.now() - from
  }
  await took('')
  const median = async (hash: string): Promise<number> => {
    const times: number[] = []
    for (let i = 0; i < 5; i += 1) times.push(await took(hash))
    return times.sort((a, b) => a - b)[2]!
  }
  // No more than a factor of three, on a machine that does other things too; without a stand-in it is hundreds.
  const [known, unknown] = [await median(stored), await median('')]
  t.ok(unknown > known / 3, `${unknown} ms against ${known} ms`)
})

t.test('passwords are stored with the cost that OWASP asks for', async (t) => {
  // OWASP Password Storage Cheat Sheet: "Argon2id with a minimum configuration of 19 MiB of memory,
  // an iteration count of 2, and 1 degree of parallelism"; 19 MiB = 19,456 KiB.
  t.match(await hashPassword(PASSWORD), /^\$argon2id\$v=19\$m=19456,t=2,p=1\$/)
})

t.test('after ten wrong tries a sign-in name rests for fifteen minutes', async (t) => {
  let now = new Date('2027-03-01T09:00:00Z')
  const shop = await openShop(t, { clock: () => now })
  await setPassword(shop, 'owner')
  await setPassword(shop, 'manager')
  for (let tries = 1; tries <= 10; tries += 1) t.equal((await signIn(shop, 'test.owner', 'not this one')).statusCode, 401)
  const resting = await signIn(shop, 'test.owner', PASSWORD)
  t.equal(resting.statusCode, 429, 'the right password does not help now')
  t.match(resting.body, 'Too many wrong tries under this sign-in name. Wait 15 minutes')
  t.equal(resting.headers['retry-after'], '900')
  t.equal((await signIn(shop, 'test.manager', PASSWORD)).statusCode, 303, 'others are not held up')
  now = new Date(now.getTime() + 15 * MINUTE_MS)
  t.equal((await signIn(shop, 'test.owner', PASSWORD)).statusCode, 303)
})

t.test('tries sent all at once are counted like tries in a row', async (t) => {
  const shop = await openShop(t)
  await setPassword(shop, 'owner')
  const answers = await Promise.all(Array.from({ length: 14 }, () => signIn(shop, 'test.owner', 'not this one')))
  t.equal(answers.filter((answer) => answer.statusCode === 429).length, 4)
})

t.test('one address may try many names only so often', async (t) => {
  const shop = await openShop(t)
  const from = (address: string): Promise<Answer> => send(shop, '/new-password', { signInName: randomUUID(), password: 'short' }, {}, address)
  for (let tries = 1; tries <= 100; tries += 1) await from('192.0.2.7')
  t.equal((await from('192.0.2.7')).statusCode, 429)
  t.equal((await from('192.0.2.8')).statusCode, 422)
})

t.test('each sign-in has a new secret, and one planted before is not taken up', async (t) => {
  const shop = await openShop(t)
  await setPassword(shop, 'owner')
  const planted = `putback=${newSecret()}`
  const first = cookieOf(await send(shop, '/sign-in', { signInName: 'test.owner', password: PASSWORD }, { cookie: planted }))
  t.not(first, planted)
  t.notOk(await isSignedIn(shop, planted))
  const again = await send(shop, '/sign-in', { signInName: 'test.owner', password: PASSWORD, _csrf: await csrfOf(shop, first) }, { cookie: first })
  t.not(cookieOf(again), first)
  t.ok(await isSignedIn(shop, cookieOf(again)))
  t.notOk(await isSignedIn(shop, first), 'the browser’s earlier session is ended')
  const stored = await shop.database.reads.session.findMany({ select: { tokenHash: true } })
  t.notOk(stored.some(({ tokenHash }) => cookieOf(again).includes(tokenHash)), 'the database does not hold the secret')
})

t.test('signing out ends the session and not only the cookie', async (t) => {
  const shop = await openShop(t)
  const owner = shop.as('owner')
  const out = await owner.post('/sign-out')
  t.equal(out.headers.location, '/sign-in')
  t.match(setCookieOf(out), /^putback=;/)
  t.notOk(await isSignedIn(shop, owner.cookie))
  t.equal((await send(shop, '/sign-out', {})).headers.location, '/sign-in', 'signing out twice is no error')
})

t.test('a session ends by itself, unused after half a day and used after a week', async (t) => {
  let now = new Date('2027-03-01T09:00:00Z')
  const shop = await openShop(t, { clock: () => now })
  const { cookie } = shop.as('owner')
  for (let hours = 11; hours < 7 * 24; hours += 11) {
    now = new Date(Date.parse('2027-03-01T09:00:00Z') + hours * HOUR_MS)
    t.ok(await isSignedIn(shop, cookie), `after ${hours} hours`)
  }
  now = new Date('2027-03-08T09:00:00Z')
  t.notOk(await isSignedIn(shop, cookie))
  now = new Date('2027-03-01T21:00:01Z')
  t.notOk(await isSignedIn(shop, shop.as('manager').cookie))
})

t.test('after signing in a person goes on to our own pages alone', async (t) => {
  const shop = await openShop(t)
  await setPassword(shop, 'owner')
  const asked = await shop.as('nobody').get('/people?removed=yes')
  t.equal(asked.headers.location, '/sign-in?to=%2Fpeople%3Fremoved%3Dyes')
  const on = async (to: string): Promise<unknown> =>
    (await signIn(shop, 'test.owner', PASSWORD, `?to=${encodeURIComponent(to)}`)).headers.location
  t.equal(await on('/people?removed=yes'), '/people?removed=yes')
  for (const to of ['https://elsewhere.example', '//elsewhere.example', '/\\elsewhere.example', '/\t/elsewhere.example', ' //elsewhere.example', 'javascript:alert(1)', '/sign-out', '']) {
    t.equal(await on(to), '/builds', JSON.stringify(to))
  }
  t.match((await shop.as('nobody').get('/sign-in?to=/people')).body, 'action="/sign-in?to=%2Fpeople"', 'the form remembers')
})

t.test('a demo’s sign-ins work in the demo alone', async (t) => {
  const store = async (shop: TestShop): Promise<void> => {
    const passwordHash = await hashDemoPassword()
    await shop.database.write((write) => write.person.update({ where: { id: shop.people.manager }, data: { passwordHash } }))
  }
  const demo = await openShop(t, { env: { DEMO: 'yes' } })
  await store(demo)
  t.equal((await signIn(demo, 'test.manager', 'put-it-back')).statusCode, 303)
  const page = (await demo.as('nobody').get('/sign-in')).body
  t.match(page, 'put-it-back')
  t.match(page, 'test.manager')
  t.notMatch(page, 'test.owner', 'only sign-ins that the demo itself made are shown')
  const served = await openShop(t)
  await store(served)
  t.equal((await signIn(served, 'test.manager', 'put-it-back')).statusCode, 401)
  t.notMatch((await served.as('nobody').get('/sign-in')).body, 'put-it-back')
})
