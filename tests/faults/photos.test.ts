import t from 'tap'
import { execFile } from 'node:child_process'
import * as nodeDisk from 'node:fs/promises'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { setTimeout as delay } from 'node:timers/promises'
import { openPhotoFiles, type Disk } from '../../server/shared/photos/files.ts'
import { toPicture } from '../../server/shared/photos/picture.ts'
import { openDatabase } from '../../server/shared/database/database.ts'
import { aBuild } from '../support/aBuild.ts'
import { newFault, withFault } from '../support/faulty.ts'
import { phonePicture, sendPhotos } from '../support/pictures.ts'
import { newData, run, startServer } from '../support/server.ts'
import { openShop, type TestShop } from '../support/shop.ts'

const MOST_CALLS = 40
const backup = (dataDir: string): ReturnType<typeof run> => run('server/commands/backup.ts', [], dataDir)
const verify = (dataDir: string, ...given: string[]): ReturnType<typeof run> => run('server/commands/verify.ts', given, dataDir)
const restore = (dataDir: string, ...given: string[]): ReturnType<typeof run> => run('server/commands/restore.ts', given, dataDir)
const filesIn = (folder: string): string[] => (existsSync(folder) ? readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile()).map(({ name }) => name).sort() : [])

/** A disk whose n-th call fails, counted from 1; writes and syncs of an opened file count too. */
function failingDisk(fault: { failAt: number; code: string; calls: number }): Disk {
  const meet = (): void => {
    fault.calls += 1
    if (fault.calls === fault.failAt) throw Object.assign(new Error(`${fault.code}: the disk refuses`), { code: fault.code })
  }
  const through = <Of extends object>(target: Of): Of => new Proxy(target, {
    get: (on, name) => {
      const own: unknown = Reflect.get(on, name)
      if (typeof own !== 'function' || name === 'close' || name === 'rm') return typeof own === 'function' ? own.bind(on) : own
      return async (...given: unknown[]) => {
        meet()
        const result: unknown = await Reflect.apply(own, on, given)
        return name === 'open' ? through(result as object) : result
      }
    },
  })
  return through({ ...nodeDisk })
}

async function shopOnDisk(t: { teardown(work: () => unknown): unknown }, fault: Parameters<typeof failingDisk>[0]): Promise<{ shop: TestShop; folder: string; buildId: string }> {
  const folder = mkdtempSync(join(tmpdir(), 'putback-photos-'))
  t.teardown(() => rmSync(folder, { recursive: true, force: true }))
  const shop = await openShop(t, { photoFiles: openPhotoFiles(folder, failingDisk(fault)) })
  return { shop, folder, buildId: (await aBuild(shop)).build.id }
}

for (const [code, status, says] of [['EIO', 500, /Something broke/], ['ENOSPC', 507, /The disk is full/]] as const) {
  t.test(`whichever call of the disk fails with ${code}, no photo is recorded and nothing half written stays`, async (t) => {
    const fault = { failAt: 0, code, calls: 0 }
    const { shop, folder, buildId } = await shopOnDisk(t, fault)
    const send = (): ReturnType<typeof sendPhotos> => sendPhotos(shop, shop.as('technician'), { subjectKind: 'build', subjectId: buildId }, [{ name: 'a.jpg', data: picture }])
    const picture = await phonePicture()
    for (let failAt = 1; failAt <= MOST_CALLS; failAt += 1) {
      Object.assign(fault, { failAt, calls: 0 })
      const answer = await send()
      if (fault.calls < failAt) {
        t.equal(answer.statusCode, 201)
        t.ok(failAt > 8, `${failAt - 1} calls were made to fail, one by one`)
        break
      }
      t.equal(answer.statusCode, status, answer.body)
      t.match(answer.json<{ title: string }>().title, says)
      t.notMatch(answer.body, /refuses|\.ts:\d/, 'the failure itself is not told to the outside')
      t.equal(await shop.database.reads.photo.count(), 0)
      t.same(filesIn(folder).filter((name) => name.endsWith('.part')), [])
    }
    t.equal(await shop.database.reads.photo.count(), 1)
    t.equal(filesIn(folder).length, 2, 'the large and the small size')
  })
}

t.test('whichever store call fails after the file is written, no photo is recorded, and the same sending comes through later', async (t) => {
  const fault = newFault()
  const shop = await openShop(t, { through: (database) => withFault(database, fault) })
  const { build } = await aBuild(shop)
  const picture = await phonePicture()
  const send = (): ReturnType<typeof sendPhotos> => sendPhotos(shop, shop.as('technician'), { subjectKind: 'build', subjectId: build.id }, [{ name: 'a.jpg', data: picture }], { 'idempotency-key': 'one' })
  for (let failAt = 1; failAt <= MOST_CALLS; failAt += 1) {
    Object.assign(fault, { failAt, hasFired: false })
    const answer = await send()
    if (!fault.hasFired) break
    t.equal(answer.statusCode, 500)
    t.same([await shop.database.reads.photo.count(), await shop.database.reads.auditEntry.count({ where: { changes: { contains: '"Photo"' } } })], [0, 0])
  }
  t.equal(await shop.database.reads.photo.count(), 1)
  t.equal((await send()).statusCode, 201)
  t.equal(await shop.database.reads.photo.count(), 1)
})

t.test('killed between file and record, the file is reported as one that no record names; killed while writing, nothing has the picture’s name', async (t) => {
  const { dataDir } = await newData(t)
  const { data } = await toPicture('a.jpg', await phonePicture())
  writeFileSync(join(dataDir, 'sent.jpg'), data)
  const script = (last: string): string => `
    import { readFileSync } from 'node:fs'
    import { openPhotoFiles } from './server/shared/photos/files.ts'
    import * as disk from 'node:fs/promises'
    const die = () => process.kill(process.pid, 'SIGKILL')
    ${last}`
  const kill = async (last: string): Promise<void> => {
    await new Promise<void>((resolve) => execFile(process.execPath, ['--import=tsx', '--input-type=module', '-e', script(last)], () => resolve()))
  }
  const [photos, sent] = [JSON.stringify(join(dataDir, 'photos')), JSON.stringify(join(dataDir, 'sent.jpg'))]
  await kill(`await openPhotoFiles(${photos}, { ...disk, rename: async () => { die(); await new Promise(() => undefined) } }).store(readFileSync(${sent}))`)
  t.match(filesIn(join(dataDir, 'photos')), [/\.part$/])
  await kill(`await openPhotoFiles(${photos}).store(readFileSync(${sent})); die()`)
  const { code, output } = await verify(dataDir)
  t.equal(code, 0, output)
  t.match(output, /2 files are named by no record and may be deleted: [0-9a-f]{2}\/[0-9a-f]{64}\.jpg/)
  const server = await startServer(t, dataDir)
  // Pictures are looked through beside the serving.
  for (let tries = 0; tries < 100 && !/named by no record/.test(server.output()); tries += 1) await delay(50)
  server.signal('SIGTERM')
  t.match((await server.ended).output, /named by no record/, 'the log says so at the start')
})

t.test('pictures are part of a backup: missing and damaged ones are named, and a restore brings whole ones back', async (t) => {
  const { dataDir, file } = await newData(t)
  const photos = join(dataDir, 'photos')
  const hashes = await addRows(file, photos, [10, 120, 230])
  const places = hashes.map((hash) => join(hash.slice(0, 2), `${hash}.jpg`))
  const first = await backup(dataDir)
  t.equal(first.code, 0, first.output)
  t.match(first.output, /With 3 pictures/)
  const copy = /^Copied and verified: (.*)$/m.exec(first.output)?.[1] ?? ''
  const beside = join(dirname(copy), 'photos')
  for (const place of places) t.same(readFileSync(join(beside, place)), readFileSync(join(photos, place)))
  t.match((await verify(dataDir, copy)).output, /3 pictures in .*backups\/photos are there and whole/)

  flip(join(photos, places[0]!))
  rmSync(join(photos, places[1]!))
  const found = await verify(dataDir)
  t.equal(found.code, 1)
  t.match(found.output, new RegExp(`1 picture of the records has no file: ${places[1]}`))
  t.match(found.output, new RegExp(`1 file is not the picture that its name says: ${places[0]}`))
  const second = await backup(dataDir)
  t.equal(second.code, 0, 'what the folder of copies holds whole already is complete')

  rmSync(join(beside, places[1]!))
  const incomplete = await backup(dataDir)
  t.equal(incomplete.code, 1, 'a backup that lacks a picture does not end well')
  t.match(incomplete.output, /Copied and verified: .*\n(.*\n)*Not complete: 1 pictures are missing or damaged/)
  flip(join(beside, places[2]!))
  const damaged = await verify(dataDir, copy)
  t.equal(damaged.code, 1)
  t.match(damaged.output, new RegExp(`1 file is not the picture that its name says: ${places[2]}`))
  t.match(damaged.output, new RegExp(`1 picture of the records has no file: ${places[1]}`))

  const back = await restore(dataDir, copy)
  t.equal(back.code, 1, 'the database is back, but not every picture')
  t.match(back.output, new RegExp(`Restored .*\n(.*\n)*Not complete: 1 pictures .*${places[1]}`))
  t.same((await verify(dataDir)).output.match(/has no file: (.*)/)?.[1], places[1], 'the flipped one came back from the copy, the lost one is named')
})

t.test('a backup that broke off leaves no copy with a name; the next one is complete', async (t) => {
  const { dataDir, file } = await newData(t)
  const photos = join(dataDir, 'photos')
  await addRows(file, photos, [10])
  // A file where the folder of pictures should be stops the copying after the database was copied.
  const folder = join(dataDir, 'backups')
  await nodeDisk.mkdir(folder)
  writeFileSync(join(folder, 'photos'), '')
  t.equal((await backup(dataDir)).code, 1)
  t.same(readdirSync(folder).filter((name) => name.endsWith('.db')), [])
  rmSync(join(folder, 'photos'))
  t.equal((await backup(dataDir)).code, 0)
  const elsewhere = await newData(t)
  const copy = join(folder, readdirSync(folder).find((name) => name.endsWith('.db'))!)
  const restored = await restore(elsewhere.dataDir, copy)
  t.equal(restored.code, 0, restored.output)
  t.match((await verify(elsewhere.dataDir)).output, /1 pictures in .* are there and whole/, 'on another machine too')
})

/** Pictures with their rows, as the service writes them. */
async function addRows(file: string, folder: string, shades: readonly number[]): Promise<string[]> {
  const database = await openDatabase(file)
  const hashes: string[] = []
  const buildId = await database.write(async (write) => {
    const customer = await write.customer.create({ data: { number: 1, name: 'Harrow Lane Bakery' } })
    const vehicle = await write.vehicle.create({ data: { number: 1, customerId: customer.id, make: 'Corvane', model: 'Tern', body: 'van', energy: 'fuel' } })
    return (await write.build.create({ data: { number: 1, title: 'Shelves', kind: 'everyday build', stage: 'intake', vehicleId: vehicle.id } })).id
  })
  for (const shade of shades) {
    const { data, width, height } = await toPicture('a.jpg', await phonePicture(shade))
    const hash = await openPhotoFiles(folder).store(data)
    hashes.push(hash)
    await database.write((write) => write.photo.create({ data: { buildId, subjectKind: 'build', subjectId: buildId, hash, bytes: data.length, width, height, personId: '' } }))
  }
  await database.close()
  return hashes
}

/** Turns one bit, as a failing disk does. */
function flip(file: string): void {
  const data = readFileSync(file)
  data[Math.floor(data.length / 2)]! ^= 1
  writeFileSync(file, data)
}
