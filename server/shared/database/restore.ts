import Sqlite from 'better-sqlite3'
import { copyFileSync, existsSync, mkdirSync, renameSync, rmSync } from 'node:fs'
import { dirname } from 'node:path'
import { copyOnline, verify, type Verified } from './backup.ts'
import { lockData } from './lock.ts'
import { countApplied, inspect, migrate, readMigrations, type Migration } from './migrations.ts'

/** A file that cannot be restored from, and why. */
export class NotRestorable extends Error {}

export interface Restored {
  /** Where the database that stood before lies now; null where none did. */
  readonly keptAs: string | null
  /** Migrations that the restored data still lacked. */
  readonly applied: readonly string[]
  readonly verified: Verified
}

/**
 * Puts a copy in the place of the database. The copy is verified and brought up to date beside it
 * first, so that whatever fails leaves the database as it was. Throws NotRestorable, MigrationFailed
 * where the copy is newer than this program, DataInUse while a server runs.
 */
export async function restoreDatabase(
  copy: string, databaseFile: string, migrations: readonly Migration[] = readMigrations(), beforeSwap: (prepared: string) => Promise<void> = async () => undefined,
): Promise<Restored> {
  if (!existsSync(copy)) throw new NotRestorable(`There is no file ${copy}.`)
  await check(copy, migrations)
  mkdirSync(dirname(databaseFile), { recursive: true, mode: 0o700 })
  const release = await lockData(databaseFile)
  const prepared = `${databaseFile}.restoring`
  try {
    discard(prepared)
    await copyOnline(copy, prepared)
    const applied = await migrate(prepared, migrations)
    const verified = await verify(prepared)
    await beforeSwap(prepared)
    discardLogs(prepared)
    const keptAs = keepAside(databaseFile)
    renameSync(prepared, databaseFile)
    return { keptAs, applied, verified }
  } finally {
    discard(prepared)
    release()
  }
}

async function check(copy: string, migrations: readonly Migration[]): Promise<void> {
  await verify(copy).catch((error: unknown) => {
    throw new NotRestorable(`${copy} is damaged or no database: ${error instanceof Error ? error.message : String(error)}.`)
  })
  if (countApplied(copy) === 0) throw new NotRestorable(`${copy} is a database, but not one of Putback.`)
  inspect(copy, migrations)
}

// The database stands in its place until the moment another takes it, whatever happens in between.
function keepAside(databaseFile: string): string | null {
  if (!existsSync(databaseFile)) {
    discardLogs(databaseFile)
    return null
  }
  const kept = `${databaseFile}.before-restore-${new Date().toISOString().replace(/[:.]/g, '-')}`
  foldInLog(databaseFile)
  copyFileSync(databaseFile, kept)
  for (const log of logsOf('')) if (existsSync(databaseFile + log)) renameSync(databaseFile + log, kept + log)
  return kept
}

// A database too damaged to be opened keeps its log beside it: see keepAside.
function foldInLog(databaseFile: string): void {
  try {
    const database = new Sqlite(databaseFile)
    database.pragma('wal_checkpoint(TRUNCATE)')
    database.close()
  } catch (error) {
    if (!(error instanceof Sqlite.SqliteError)) throw error
  }
}

const logsOf = (file: string): string[] => [`${file}-wal`, `${file}-shm`]

function discardLogs(file: string): void {
  for (const log of logsOf(file)) rmSync(log, { force: true })
}

function discard(file: string): void {
  rmSync(file, { force: true })
  discardLogs(file)
}
