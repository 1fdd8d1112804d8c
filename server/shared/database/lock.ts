import Sqlite from 'better-sqlite3'
import { existsSync, mkdirSync } from 'node:fs'
import { dirname } from 'node:path'

/** Another server has the data open. */
export class DataInUse extends Error {}

// A lock inside a small database of its own: the system lets go of it when its holder ends, however
// it ends, where a number left in a file could by then be that of another process.
const lockFile = (databaseFile: string): string => `${databaseFile}.lock`

/** Marks the data as served by this process; returns what takes the mark away again. Throws DataInUse. */
export async function lockData(databaseFile: string): Promise<() => void> {
  mkdirSync(dirname(databaseFile), { recursive: true })
  const mark = new Sqlite(lockFile(databaseFile), { timeout: 0 })
  try {
    mark.exec('CREATE TABLE IF NOT EXISTS holder (pid INTEGER NOT NULL)')
    mark.transaction(() => {
      mark.exec('DELETE FROM holder')
      mark.prepare('INSERT INTO holder (pid) VALUES (?)').run(process.pid)
    })()
    mark.exec('BEGIN IMMEDIATE')
  } catch (error) {
    mark.close()
    if (!isBusy(error)) throw error
    throw new DataInUse(`The data ${databaseFile} is served by process ${holderOf(databaseFile) ?? 'unknown'} already. Stop it first.`)
  }
  return () => mark.close()
}

/** The process that serves this data, or null. */
export function holderOf(databaseFile: string): number | null {
  if (!existsSync(lockFile(databaseFile))) return null
  const mark = new Sqlite(lockFile(databaseFile), { timeout: 0 })
  try {
    mark.exec('BEGIN IMMEDIATE')
    return null
  } catch (error) {
    if (!isBusy(error)) throw error
    const holder = mark.prepare('SELECT pid FROM holder').get() as { pid: number } | undefined
    return holder?.pid ?? null
  } finally {
    mark.close()
  }
}

const isBusy = (error: unknown): boolean => error instanceof Sqlite.SqliteError && error.code.startsWith('SQLITE_BUSY')
