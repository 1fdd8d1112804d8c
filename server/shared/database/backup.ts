import { mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import sqlite3 from 'sqlite3'

// The driver's own types leave its online backup out.
declare module 'sqlite3' {
  interface Backup {
    step(pages: number, done: (failure: Error | null) => void): void
    finish(done: (failure: Error | null) => void): void
  }
  interface Database {
    backup(target: string, opened: (failure: Error | null) => void): Backup
  }
}

export const KEPT_COPIES = 7

/** What an independent reading of a database file found. */
export interface Verified {
  readonly tables: number
  readonly rows: number
}

/**
 * Copies a database while it is in use, verifies the copy and keeps the last seven of its name. What
 * belongs beside it is put there before the copy gets its name: a copy with its name is complete.
 * Uses a driver of its own, so that a fault in the server's cannot hide in its copies.
 */
export async function backUp(file: string, folder: string, name = 'putback', beside: (unfinished: string) => Promise<void> = async () => undefined): Promise<string> {
  mkdirSync(folder, { recursive: true })
  const stamp = new Date().toISOString().replace(/[:.]/g, '-')
  const finished = join(folder, `${name}-${stamp}.db`)
  const unfinished = `${finished}.part`
  await copyOnline(file, unfinished)
  await verify(unfinished)
  await beside(unfinished)
  renameSync(unfinished, finished)
  forgetOld(folder, name)
  return finished
}

/** A copy of a database that may be in use, complete up to its last commit. */
export async function copyOnline(file: string, target: string): Promise<void> {
  const source = await open(file, sqlite3.OPEN_READONLY)
  try {
    await new Promise<void>((resolve, reject) => {
      const backup = source.backup(target, (failure: Error | null) => {
        if (failure) return reject(failure)
        // All pages in one step: stepwise copies start over at every write that comes between.
        backup.step(-1, (stepFailure: Error | null) => {
          backup.finish((finishFailure: Error | null) => {
            const reason = stepFailure ?? finishFailure
            if (reason) reject(reason)
            else resolve()
          })
        })
      })
    })
  } finally {
    await close(source)
  }
  await makeSingleFile(target)
}

// A copy takes over the write-ahead mode of its source, and reading it would leave a log beside it.
async function makeSingleFile(file: string): Promise<void> {
  const database = await open(file, sqlite3.OPEN_READWRITE)
  try {
    await all(database, 'PRAGMA journal_mode = DELETE')
  } finally {
    await close(database)
  }
}

/** Reads every table of a database file; throws with what is wrong. */
export async function verify(file: string): Promise<Verified> {
  const database = await open(file, sqlite3.OPEN_READONLY)
  try {
    const integrity = await all(database, 'PRAGMA integrity_check')
    const findings = integrity.map((row) => String(row.integrity_check))
    if (findings.join() !== 'ok') throw new Error(`integrity check: ${findings.slice(0, 5).join('; ')}`)
    const broken = await all(database, 'PRAGMA foreign_key_check')
    if (broken.length > 0) throw new Error(`${broken.length} rows point to nothing`)
    const tables = await all(database, "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    if (tables.length === 0) throw new Error('it holds no tables')
    let rows = 0
    for (const table of tables) {
      const [counted] = await all(database, `SELECT count(*) AS n FROM "${String(table.name).replaceAll('"', '""')}"`)
      rows += Number(counted?.n ?? 0)
    }
    return { tables: tables.length, rows }
  } finally {
    await close(database)
  }
}

/** The pictures that a database file names; none where it is older than pictures. */
export async function listPhotoRows(file: string): Promise<{ hash: string; bytes: number }[]> {
  const database = await open(file, sqlite3.OPEN_READONLY)
  try {
    const [table] = await all(database, "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'Photo'")
    const rows = table ? await all(database, 'SELECT DISTINCT hash, bytes FROM "Photo"') : []
    return rows.map(({ hash, bytes }) => ({ hash: String(hash), bytes: Number(bytes) }))
  } finally {
    await close(database)
  }
}

function forgetOld(folder: string, name: string): void {
  const copies = readdirSync(folder).filter((one) => one.startsWith(`${name}-`) && one.endsWith('.db')).sort()
  for (const old of copies.slice(0, -KEPT_COPIES)) rmSync(join(folder, old))
}

function open(file: string, mode: number): Promise<sqlite3.Database> {
  return new Promise((resolve, reject) => {
    const database: sqlite3.Database = new sqlite3.Database(file, mode, (failure) => (failure ? reject(failure) : resolve(database)))
  })
}

function close(database: sqlite3.Database): Promise<void> {
  return new Promise((resolve, reject) => database.close((failure) => (failure ? reject(failure) : resolve())))
}

function all(database: sqlite3.Database, sql: string): Promise<Record<string, unknown>[]> {
  return new Promise((resolve, reject) =>
    database.all(sql, (failure: Error | null, rows: Record<string, unknown>[]) => (failure ? reject(failure) : resolve(rows))))
}
