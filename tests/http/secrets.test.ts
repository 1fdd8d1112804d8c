import t from 'tap'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { readConfig } from '../../server/config.ts'
import { findKeyProblem } from '../../server/secrets/keeping.ts'
import { encrypt, seal, unseal } from '../../server/secrets/seal.ts'
import { backUp } from '../../server/shared/database/backup.ts'
import { aBuild } from '../support/aBuild.ts'
import { deliver } from '../support/aFinalCheck.ts'
import { openShop, type TestShop } from '../support/shop.ts'

const CODE = 'radio 4711-Quince'

async function openKeeping() {
  const folder = mkdtempSync(join(tmpdir(), 'putback-key-'))
  t.teardown(() => rmSync(folder, { recursive: true, force: true }))
  const keyFile = join(folder, 'theft-key')
  const shop = await openShop(t, { env: { THEFT_KEY_FILE: keyFile } })
  const { build } = await aBuild(shop)
  return { shop, keyFile, folder, page: `/builds/${build.id}/secrets`, buildId: build.id }
}

const keepCode = (shop: TestShop, page: string, text = CODE) => shop.as('manager').post(page, { kind: 'radio code', text })
const secretsOf = (shop: TestShop) => shop.database.reads.vehicleSecret.findMany({ orderBy: [{ createdAt: 'asc' }, { id: 'asc' }] })

t.test('the cipher gives the published answers', async (t) => {
  // McGrew and Viega, The Galois/Counter Mode of Operation, appendix B, test cases 13 and 14 (from memory).
  const none = Buffer.alloc(0)
  const [key, nonce] = [Buffer.alloc(32), Buffer.alloc(12)]
  t.equal(encrypt(key, nonce, none, none).tag.toString('hex'), '530f8afbc74536b9a963b4f1c4cb738b')
  const { ciphertext, tag } = encrypt(key, nonce, Buffer.alloc(16), none)
  t.equal(ciphertext.toString('hex'), 'cea7403d4d606b6e074ec5d3baf39d18')
  t.equal(tag.toString('hex'), 'd0d1c8a799996bf0265b98b5d48ab919')
})

t.test('a sealed text differs each time, and opens only as it was, where it was and with its key', async (t) => {
  const key = Buffer.alloc(32, 7)
  const of = { id: 'a', buildId: 'b', kind: 'radio code' }
  const sealed = seal(key, CODE, of)
  t.equal(unseal(key, sealed, of), CODE)
  t.not(seal(key, CODE, of), sealed)
  t.throws(() => unseal(key, sealed, { ...of, buildId: 'another' }), { message: /^it (was changed|is not of a known form)/ })
  t.throws(() => unseal(key, sealed, { ...of, id: 'another' }), { message: /^it (was changed|is not of a known form)/ })
  t.throws(() => unseal(Buffer.alloc(32, 8), sealed, of), { message: /^it (was changed|is not of a known form)/ })
  const middle = Math.floor(sealed.length / 2)
  t.throws(() => unseal(key, `${sealed.slice(0, middle)}${sealed[middle] === 'A' ? 'B' : 'A'}${sealed.slice(middle + 1)}`, of), { message: /^it (was changed|is not of a known form)/ })
  t.throws(() => unseal(key, CODE, of), { message: /^it (was changed|is not of a known form)/ })
})

t.test('a code is kept encrypted, shown on a press, and each look is written down', async (t) => {
  const { shop, keyFile, folder, page } = await openKeeping()
  t.equal((await keepCode(shop, page)).statusCode, 303)
  t.equal(statSync(keyFile).mode & 0o777, 0o600, 'only its owner may read the key')
  const [secret] = await secretsOf(shop)
  t.notMatch(await shop.as('technician').page(page), CODE, 'the list never says it')
  const answer = await shop.as('technician').post(`${page}/${secret!.id}/looks`)
  t.match(answer.body, CODE)
  t.match(answer.headers['cache-control'], /no-store/)
  t.match(await shop.as('manager').page(page), /Test technician.*looked at: radio code/s)

  const copy = await backUp(shop.config.databaseFile, join(folder, 'copies'))
  const files = [copy, ...readdirSync(shop.config.dataDir).map((name) => join(shop.config.dataDir, name))].filter((file) => statSync(file).isFile())
  for (const file of files) t.notOk(readFileSync(file).includes('4711-Quince'), 'neither the data nor a copy of it holds the code')
})

t.test('a new code takes the place of the old; delivery leaves nothing', async (t) => {
  const { shop, page, buildId } = await openKeeping()
  const manager = shop.as('manager')
  await keepCode(shop, page)
  await keepCode(shop, page, 'another')
  const [old, kept] = await secretsOf(shop)
  t.equal(old!.sealed, '')
  t.equal((await manager.post(`${page}/${old!.id}/looks`)).statusCode, 404)
  await deliver(shop, buildId, { deliveredOn: '2031-03-01' })
  t.same((await secretsOf(shop)).map(({ sealed }) => sealed), ['', ''])
  t.equal((await manager.post(`${page}/${kept!.id}/looks`)).statusCode, 404)
  t.match(await manager.page(page), /erased at delivery: radio code/)
  t.equal((await keepCode(shop, page)).statusCode, 409, 'and nothing is kept from then on')
})

t.test('a code of another build, or one that was tampered with, does not open', async (t) => {
  const { shop, page } = await openKeeping()
  await keepCode(shop, page)
  const [secret] = await secretsOf(shop)
  const vehicle = await shop.database.reads.vehicle.findFirstOrThrow()
  const other = await shop.as('manager').api.create('/api/builds', { title: 'Another', vehicleId: vehicle.id })
  t.equal((await shop.as('manager').post(`/builds/${other.id}/secrets/${secret!.id}/looks`)).statusCode, 404)
  await shop.database.write((write) => write.vehicleSecret.update({ where: { id: secret!.id }, data: { buildId: other.id } }))
  const answer = await shop.as('manager').post(`/builds/${other.id}/secrets/${secret!.id}/looks`)
  t.equal(answer.statusCode, 409)
  t.match(answer.body, /It does not open/)
})

t.test('without the right key nothing is kept or opened, and no second key is made', async (t) => {
  const { shop, keyFile, page } = await openKeeping()
  await keepCode(shop, page)
  const [secret] = await secretsOf(shop)
  rmSync(keyFile)
  t.equal((await shop.as('manager').post(`${page}/${secret!.id}/looks`)).statusCode, 503)
  t.equal((await keepCode(shop, page, 'another')).statusCode, 503)
  t.notOk(existsSync(keyFile))
  t.match(await findKeyProblem(shop.database.reads, shop.config), /their key is missing/)
  writeFileSync(keyFile, `${Buffer.alloc(32, 1).toString('base64')}\n`)
  t.match(await findKeyProblem(shop.database.reads, shop.config), /does not open what is kept/)
  t.match(await shop.as('manager').page(page), /The key is missing or wrong/)
})

t.test('what cannot be kept is refused without repeating it', async (t) => {
  const { shop, page } = await openKeeping()
  for (const form of [{ kind: 'radio code', text: ' ' }, { kind: 'wage', text: CODE }, { kind: 'radio code', text: `${CODE}${'x'.repeat(500)}` }]) {
    const answer = await shop.as('manager').post(page, form)
    t.ok(answer.statusCode === 400 || answer.statusCode === 422, String(answer.statusCode))
    t.notMatch(answer.body, CODE)
  }
  t.equal((await secretsOf(shop)).length, 0)
  t.throws(() => readConfig({ DATA_DIR: '/srv/shop', THEFT_KEY_FILE: '/srv/shop/key' }), /must not lie inside DATA_DIR/)
})
