import t from 'tap'
import Sqlite from 'better-sqlite3'
import { copyFileSync, mkdirSync, openSync, readdirSync, readFileSync, statSync, truncateSync, writeFileSync, writeSync, closeSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { backUp } from '../../server/shared/database/backup.ts'
import { openDatabase } from '../../server/shared/database/database.ts'
import { migrate, readMigrations } from '../../server/shared/database/migrations.ts'
import { restoreDatabase } from '../../server/shared/database/restore.ts'
import { readAllRows } from '../support/rows.ts'
import { keepWriting, newData, run, startServer } from '../support/server.ts'

const backup = (dataDir: string): ReturnType<typeof run> => run('server/commands/backup.ts', [], dataDir)
const verify = (dataDir: string, ...given: string[]): ReturnType<typeof run> => run('server/commands/verify.ts', given, dataDir)
const restore = (dataDir: string, ...given: string[]): ReturnType<typeof run> => run('server/commands/restore.ts', given, dataDir)
const namesIn = (file: string): Set<unknown> => new Set(readAllRows(file).Customer?.map((row) => row.name))
const NEXT = { name: '29990101000000_next', sql: 'CREATE TABLE "Next" ("id" TEXT PRIMARY KEY)', checksum: 'next' }

t.test('copies made while the server writes are complete, and can be gone back to', async (t) => {
  const { dataDir, file, token } = await newData(t)
  const server = await startServer(t, dataDir)
  const writing = keepWriting(server.address, token)
  const copies: { path: string; before: string[] }[] = []
  for (let round = 1; round <= 3; round += 1) {
    while (writing.acknowledged.size < round * 15) await pause(5)
    const before = [...writing.acknowledged.keys()]
    const { code, output } = await backup(dataDir)
    t.equal(code, 0, output)
    const path = /^Copied and verified: (.*)$/m.exec(output)?.[1] ?? ''
    copies.push({ path, before })
  }
  for (const { path, before } of copies) {
    const stored = namesIn(path)
    t.same(before.filter((name) => !stored.has(name)), [], `all ${before.length} records acknowledged before the copy are in it`)
  }

  const first = copies[0]!
  const refused = await restore(dataDir, first.path)
  t.equal(refused.code, 1, 'nothing is restored under a running server')
  t.match(refused.output, `is served by process ${server.pid} already. Stop it first.`)
  const live = await verify(dataDir)
  t.equal(live.code, 0, 'the database can be verified while it is in use')
  t.match(live.output, /is sound: \d+ tables, \d+ rows read/)

  server.signal('SIGKILL')
  await server.ended
  await writing.stop()
  t.ok(statSync(`${file}-wal`).size > 0, 'the killed server left writes in its log')
  const restored = await restore(dataDir, first.path)
  t.equal(restored.code, 0, restored.output)
  t.same(readAllRows(file), readAllRows(first.path))
  t.equal((await verify(dataDir)).code, 0)
  const kept = /is kept as (.*)\.$/m.exec(restored.output)?.[1] ?? ''
  const inKept = namesIn(kept)
  t.same([...writing.acknowledged.keys()].filter((name) => !inKept.has(name)), [], 'what stood before is kept whole')

  const database = await openDatabase(file)
  t.ok(await database.reads.customer.count() >= first.before.length, 'the server opens the restored data')
  await database.close()
})

t.test('only the last seven copies are kept, and nothing else is left beside them', async (t) => {
  const { dataDir, file } = await newData(t)
  const folder = join(dataDir, 'backups')
  const made: string[] = []
  for (let count = 0; count < 9; count += 1) made.push(await backUp(file, folder))
  t.same(readdirSync(folder).sort().map((name) => join(folder, name)), made.slice(-7))
})

t.test('a damaged copy, a strange file and a newer copy are refused in words, and the database stays as it was', async (t) => {
  const { dataDir, file } = await newData(t)
  const copy = await backUp(file, join(dataDir, 'backups'))
  const before = readFileSync(file)
  const damaged = join(dataDir, 'damaged.db')
  copyFileSync(copy, damaged)
  scribble(damaged)
  const cut = join(dataDir, 'cut.db')
  copyFileSync(copy, cut)
  truncateSync(cut, Math.floor(statSync(cut).size / 2))
  const letter = join(dataDir, 'letter.db')
  writeFileSync(letter, 'Dear shop, '.repeat(500))
  const strange = join(dataDir, 'strange.db')
  new Sqlite(strange).exec('CREATE TABLE song (id INTEGER PRIMARY KEY)').close()
  const newer = join(dataDir, 'newer.db')
  copyFileSync(copy, newer)
  await migrate(newer, [...readMigrations(), NEXT])

  const cases = [
    [damaged, /damaged or no database/], [cut, /damaged or no database/], [letter, /damaged or no database/],
    [strange, /not one of Putback/], [newer, /written by a newer version/], [join(dataDir, 'gone.db'), /There is no file/],
  ] as const
  for (const [path, words] of cases) {
    await t.rejects(restoreDatabase(path, file), words)
    t.same(readFileSync(file), before)
  }
  const typed = await restore(dataDir, damaged)
  t.equal(typed.code, 1)
  t.match(typed.output, /damaged or no database/)
  t.notMatch(typed.output, /\bat .*:\d+:\d+/, 'in words, without a stack')
  t.equal((await verify(dataDir, damaged)).code, 1)
  t.equal((await restore(dataDir)).code, 1, 'without a file it says how it is used')
  t.notOk(readdirSync(dataDir).some((name) => name.includes('.restoring')))
})

t.test('an older copy is brought up to date when it is restored', async (t) => {
  const { dataDir, file } = await newData(t)
  const copy = await backUp(file, join(dataDir, 'backups'))
  const { applied } = await restoreDatabase(copy, file, [...readMigrations(), NEXT])
  t.same(applied, [NEXT.name])
  t.ok('Next' in readAllRows(file))
})

t.test('a copy can be restored where no database stands', async (t) => {
  const { dataDir, file } = await newData(t)
  const copy = await backUp(file, join(dataDir, 'backups'))
  const elsewhere = join(dataDir, 'new', 'putback.db')
  t.equal((await restoreDatabase(copy, elsewhere)).keptAs, null)
  t.same(readAllRows(elsewhere), readAllRows(file))
})

t.test('a migration that fails ends the start, leaves the database as it was, and names the copy made before', async (t) => {
  const { file } = await newData(t)
  const before = readAllRows(file)
  const broken = { ...NEXT, sql: `${NEXT.sql}; INSERT INTO "NoSuchTable" VALUES (1)` }
  const failure = await migrate(file, [...readMigrations(), broken]).then(() => null, (error: Error) => error)
  t.match(failure?.message, /29990101000000_next failed and the database is unchanged: no such table/)
  t.same(readAllRows(file), before)
  const copy = /A verified copy from before is (.*)\.$/.exec(failure?.message ?? '')?.[1] ?? ''
  t.same(readAllRows(copy), before)
  const orphan = { ...NEXT, sql: `UPDATE "AccessToken" SET "personId" = 'nobody'` }
  await t.rejects(migrate(file, [...readMigrations(), orphan]), /rows would point to nothing/)
  t.same(readAllRows(file), before)
})

t.test('data that is newer, or whose migrations were edited, is refused; the server ends with 1 and says why', async (t) => {
  const newer = await newData(t)
  await migrate(newer.file, [...readMigrations(), NEXT])
  await t.rejects(migrate(newer.file), /written by a newer version of Putback \(29990101000000_next\)/)
  const edited = await newData(t)
  new Sqlite(edited.file).exec("UPDATE AppliedMigration SET checksum = 'another'").close()
  await t.rejects(migrate(edited.file), /was edited after it was applied/)

  const foreign = join(newer.dataDir, 'foreign')
  mkdirSync(foreign)
  new Sqlite(join(foreign, 'putback.db')).exec('CREATE TABLE "Shop" (id TEXT PRIMARY KEY)').close()
  const { code, output } = await run('server/main.ts', [], foreign)
  t.equal(code, 1)
  t.match(output, /failed and the database is unchanged: .*already exists.* A verified copy from before is/)
  t.notMatch(output, /\bat .*:\d+:\d+/)
  t.same(Object.keys(readAllRows(join(foreign, 'putback.db'))), ['Shop'])
})

/** Overwrites pages in the middle, as a failing disk does. */
function scribble(file: string): void {
  const handle = openSync(file, 'r+')
  writeSync(handle, Buffer.alloc(20_000, 0x5a), 0, 20_000, Math.floor(statSync(file).size / 3))
  closeSync(handle)
}

t.test('a clip whose share that breaks was left at 0 has none said after the migration; every other share stays', async (t) => {
  const { file } = await newData(t)
  const earlier = join(file, '..', 'earlier.db')
  const migrations = readMigrations()
  const first = migrations.findIndex(({ name }) => name.endsWith('_unsaid_break_share'))
  t.ok(first > 0)
  await migrate(earlier, migrations.slice(0, first))
  const database = new Sqlite(earlier)
  database.exec(`
    INSERT INTO Customer (id, number, name) VALUES ('c', 1, 'Nan');
    INSERT INTO Vehicle (id, number, customerId, make, model, body, energy) VALUES ('v', 1, 'c', 'Parr', 'Two', 'wagon', 'fuel');
    INSERT INTO Build (id, number, title, kind, stage, vehicleId) VALUES ('b', 1, 'Front', 'counter job', 'intake', 'v');
    INSERT INTO Zone (id, buildId, number, name, place) VALUES ('z', 'b', 1, 'Doors', 'front doors');
    INSERT INTO FactoryPart (id, buildId, zoneId, number, name) VALUES ('f', 'b', 'z', 11, 'Panel');
    INSERT INTO Fastener (id, buildId, factoryPartId, kind, count, breakShare, entered) VALUES
      ('unsaid', 'b', 'f', 'clip', 9, 0, '{"breakShare":"0 %"}'), ('said', 'b', 'f', 'clip', 9, 350, '{"breakShare":"35 %"}'), ('bolt', 'b', 'f', 'bolt', 4, 0, '{}');
  `)
  database.close()
  await migrate(earlier)
  const rows = readAllRows(earlier).Fastener?.map(({ id, breakShare, entered }) => [id, breakShare, entered])
  t.same(rows?.sort(), [['bolt', 0, '{}'], ['said', 350, '{"breakShare":"35 %"}'], ['unsaid', null, '{}']])
})
