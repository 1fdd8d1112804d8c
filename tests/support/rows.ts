import { execFileSync } from 'node:child_process'
import type { Database } from '../../server/shared/database/database.ts'

// In a process of its own: two copies of SQLite in one process would drop each other's locks.
const READ_ALL = `
  const sqlite3 = require('sqlite3')
  const database = new sqlite3.Database(process.argv[1], sqlite3.OPEN_READONLY)
  const leave = (failure) => { console.error(failure); process.exit(1) }
  database.all("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name", (failure, tables) => {
    if (failure) leave(failure)
    const rows = {}
    let left = tables.length
    for (const { name } of tables) {
      database.all('SELECT * FROM "' + name + '" ORDER BY rowid', (failed, found) => {
        if (failed) leave(failed)
        rows[name] = found
        if (--left === 0) process.stdout.write(JSON.stringify(rows))
      })
    }
  })`

export type AllRows = Record<string, Record<string, unknown>[]>

/** Every row of every table, read by another driver than the server's. */
export function readAllRows(file: string): AllRows {
  const text = execFileSync(process.execPath, ['-e', READ_ALL, file], { encoding: 'utf8', maxBuffer: 1 << 28 })
  return JSON.parse(text) as AllRows
}

/** The same through the server's own reading connection, which sees what is committed. */
export async function rowsOf({ reads }: Database): Promise<AllRows> {
  const tables = await reads.$queryRawUnsafe<{ name: string }[]>("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
  const rows: AllRows = {}
  for (const { name } of tables) rows[name] = await reads.$queryRawUnsafe(`SELECT * FROM "${name}" ORDER BY rowid`)
  return rows
}
