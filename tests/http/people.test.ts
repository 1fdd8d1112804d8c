import t from 'tap'
import { randomUUID } from 'node:crypto'
import { hashOfCode, newCode } from '../../server/people/codes.ts'
import { openShop, type Answer } from '../support/shop.ts'
import { codeOn, cookieOf, HOUR_MS, isSignedIn, MINUTE_MS, PASSWORD, send, setPassword, signIn } from '../support/signingIn.ts'

t.test('disabling or removing a person ends their sessions and tokens', async (t) => {
  const shop = await openShop(t)
  const [owner, technician, delivery] = [shop.as('owner'), shop.as('technician'), shop.as('delivery')]
  const at = `/api/people/${technician.personId}`
  t.equal((await owner.api.patch(at, { isActive: false }, { 'if-match': '"1"' })).statusCode, 200)
  t.notOk(await isSignedIn(shop, technician.cookie))
  t.equal((await technician.api.get('/api/me/tokens')).statusCode, 401)
  t.equal((await owner.api.patch(at, { isActive: true }, { 'if-match': '"2"' })).statusCode, 200)
  t.notOk(await isSignedIn(shop, technician.cookie), 'letting them in again does not revive the session')
  t.equal((await owner.post(`/people/${delivery.personId}/removal`)).statusCode, 303)
  t.notOk(await isSignedIn(shop, delivery.cookie))
})

t.test('a one-time code lets its person set a password, once, within a day', async (t) => {
  let now = new Date('2027-03-01T09:00:00Z')
  const shop = await openShop(t, { clock: () => now })
  const technician = shop.as('technician')
  const codes = `/people/${technician.personId}/codes`
  const key = { _key: randomUUID() }
  const given = await shop.as('manager').post(codes, key)
  const code = codeOn(given.body)
  t.ok(code, 'the page shows it')
  t.equal(codeOn((await shop.as('manager').post(codes, key)).body), '', 'the same press again does not show it')
  t.equal(codeOn(await shop.as('manager').page(codes)), '', 'nor does the page later')
  const kept = await shop.database.reads.idempotencyKey.findMany()
  t.notOk(JSON.stringify(kept).includes(code), 'and it is kept nowhere')

  const set = (typed: string, password = PASSWORD): Promise<Answer> =>
    send(shop, '/new-password', { signInName: 'test.technician', code: typed, password })
  t.equal((await set(newCode())).statusCode, 401)
  t.match((await set(code, 'test.technician')).body, 'A password differs from the sign-in name.')
  now = new Date(now.getTime() + 24 * HOUR_MS)
  t.equal((await set(code)).statusCode, 401, 'too old')
  now = new Date(now.getTime() - MINUTE_MS)
  const done = await set(code.toLowerCase().replaceAll('-', ' '))
  t.equal(done.headers.location, '/now')
  t.ok(await isSignedIn(shop, cookieOf(done)))
  t.notOk(await isSignedIn(shop, technician.cookie), 'earlier sessions are ended')
  t.equal((await set(code)).statusCode, 401, 'used')
  t.equal((await signIn(shop, 'test.technician', PASSWORD)).statusCode, 303)
})

t.test('the same code sent twice at once sets one password', async (t) => {
  const shop = await openShop(t)
  const code = newCode()
  await shop.database.write((write) => write.person.update({
    where: { id: shop.people.technician }, data: { codeHash: hashOfCode(code), codeUntil: new Date(Date.now() + HOUR_MS) },
  }))
  const answers = await Promise.all(['one for the lathe', 'two for the lathe'].map((password) =>
    send(shop, '/new-password', { signInName: 'test.technician', code, password })))
  t.same(answers.map((answer) => answer.statusCode).sort(), [303, 401])
})

t.test('passwords that are too short, too long or too common are refused in words', async (t) => {
  const shop = await openShop(t)
  const set = async (password: string): Promise<string> =>
    (await send(shop, '/new-password', { signInName: 'test.owner', code: newCode(), password })).body
  t.match(await set('seven77'), 'A password has 8 characters or more.')
  t.match(await set('x'.repeat(65)), 'A password has 64 characters at most; this has 65.')
  t.match(await set('PassWord123'), 'among the first that a guesser tries')
  t.match(await set('ä'.repeat(64)), 'This sign-in name and code do not go together', 'characters count, not bytes')
})

t.test('a person changes their password knowing the present one, and other sessions end', async (t) => {
  const shop = await openShop(t)
  await setPassword(shop, 'technician')
  const elsewhere = cookieOf(await signIn(shop, 'test.technician', PASSWORD))
  const technician = shop.as('technician')
  const guessed = await technician.post('/me/password', { present: 'not this one', password: 'another plane of pear' })
  t.equal(guessed.statusCode, 422)
  t.match(guessed.body, 'This is not your present password.')
  const changed = await technician.post('/me/password', { present: PASSWORD, password: 'another plane of pear' })
  t.equal(changed.headers.location, '/me?saved=password')
  t.ok(await isSignedIn(shop, cookieOf(changed)))
  for (const cookie of [elsewhere, technician.cookie]) t.notOk(await isSignedIn(shop, cookie))
  t.equal((await signIn(shop, 'test.technician', PASSWORD)).statusCode, 401)
  t.equal((await signIn(shop, 'test.technician', 'another plane of pear')).statusCode, 303)
})

t.test('a person chooses units and paper, and this browser keeps the paper', async (t) => {
  const shop = await openShop(t)
  await setPassword(shop, 'technician')
  const saved = await shop.as('technician').post('/me/preferences', { units: 'inch', theme: 'dark' })
  t.equal(saved.headers.location, '/me?saved=preferences')
  t.match(await shop.as('technician').page('/me'), '<html lang="en" data-theme="dark">')
  t.equal((await shop.database.reads.person.findUniqueOrThrow({ where: { id: shop.people.technician } })).units, 'inch')
  const kept = [saved.headers['set-cookie']].flat().join().split(';')[0]!
  const cookie = cookieOf(await send(shop, '/sign-in', { signInName: 'test.technician', password: PASSWORD }, { cookie: kept }))
  t.match((await shop.app.inject({ method: 'GET', url: '/me', headers: { cookie } })).body, 'data-theme="dark"')
})

t.test('people are for managers to see, and owners for owners to change', async (t) => {
  const shop = await openShop(t)
  const [owner, manager] = [shop.as('owner'), shop.as('manager')]
  for (const role of ['technician', 'delivery'] as const) {
    t.equal((await shop.as(role).get('/people')).statusCode, 403)
    t.equal((await shop.as(role).api.get('/api/people')).statusCode, 403)
    t.equal((await shop.as(role).get('/settings')).statusCode, 403)
    t.equal((await shop.as(role).post(`/people/${manager.personId}/codes`)).statusCode, 403)
  }
  t.match(await manager.page('/people'), 'Test technician')
  await owner.api.create('/api/people', { name: 'Second owner', signInName: 'second.owner', role: 'owner' })
  for (const address of ['codes', 'removal', '']) {
    const answer = await manager.post(`/people/${owner.personId}${address && `/${address}`}`, { role: 'technician', _version: '1' })
    t.equal(answer.statusCode, 403, `manager, owner/${address}`)
  }
  t.equal((await manager.api.patch(`/api/people/${manager.personId}`, { role: 'owner' }, { 'if-match': '"1"' })).statusCode, 403)
})

t.test('the list of people shows their skills and who has no password yet', async (t) => {
  const shop = await openShop(t)
  const owner = shop.as('owner')
  const department = await owner.api.create('/api/departments', { name: 'Wood room', costRate: 3800, sellRate: 9500 })
  const skill = await owner.api.create('/api/skills', { name: 'joinery', departmentId: department.id })
  await owner.api.create('/api/people', { name: 'Tam Orrel', signInName: 't.orrel', role: 'technician', skills: [skill.id] })
  await setPassword(shop, 'technician')
  const rows = (await owner.page('/people')).split('<tr>')
  const rowOf = (name: string): string => rows.find((row) => row.includes(name)) ?? ''
  t.match(rowOf('Tam Orrel'), 'joinery')
  t.match(rowOf('Tam Orrel'), 'none yet')
  t.match(rowOf('Test technician'), '>set<')
})

t.test('the settings say what they hold and what to enter first', async (t) => {
  const shop = await openShop(t)
  const owner = shop.as('owner')
  t.match(await owner.page('/settings'), 'Hours are estimated, costed and sold by department.')
  await owner.api.create('/api/departments', { name: 'Wood room', costRate: 3800, sellRate: 9500 })
  const page = await owner.page('/settings')
  t.match(page, 'Wood room')
  t.notMatch(page, 'Hours are estimated, costed and sold by department.')
  t.match(page, 'href="/shop/shop/form"', 'the shop itself is still as it came')
  t.notMatch(await shop.as('manager').page('/settings'), 'href="/shop/shop/form"', 'which only an owner changes')
})
