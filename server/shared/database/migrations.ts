import Sqlite from 'better-sqlite3'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { backUp } from './backup.ts'
import { projectFolder } from './projectFolder.ts'

/** How the names of copies begin that are made before a migration. */
export const BEFORE_MIGRATION = 'before-migration'

export const MIGRATIONS = join(projectFolder(), 'prisma', 'migrations')

/** A step of the schema, from its folder under prisma/migrations. */
export interface Migration {
  readonly name: string
  readonly sql: string
  readonly checksum: string
}

/** A migration that failed: nothing of it was kept. */
export class MigrationFailed extends Error {}

/**
 * Brings a database file up to date; each migration in one transaction. A file that holds data is
 * copied and the copy verified first. Returns the names applied.
 */
export async function migrate(file: string, migrations: readonly Migration[] = readMigrations()): Promise<string[]> {
  mkdirSync(dirname(file), { recursive: true })
  const hadData = existsSync(file) && statSync(file).size > 0
  const pending = inspect(file, migrations)
  if (pending.length === 0) return []
  const copy = hadData ? await backUp(file, join(dirname(file), 'backups'), BEFORE_MIGRATION) : null
  const database = new Sqlite(file)
  try {
    for (const migration of pending) applyOne(database, migration, copy)
  } finally {
    database.close()
  }
  return pending.map((migration) => migration.name)
}

/** The migrations that a database file still lacks. Throws where it is newer than this program. */
export function inspect(file: string, migrations: readonly Migration[] = readMigrations()): Migration[] {
  if (!existsSync(file)) return [...migrations]
  const database = new Sqlite(file, { readonly: true })
  try {
    const applied = appliedOf(database)
    refuseStrangers(applied, migrations)
    return migrations.slice(applied.length)
  } finally {
    database.close()
  }
}

/** How many migrations a database file holds; none where it is no database of ours. */
export function countApplied(file: string): number {
  const database = new Sqlite(file, { readonly: true })
  try {
    return appliedOf(database).length
  } finally {
    database.close()
  }
}

export function readMigrations(): Migration[] {
  return readdirSync(MIGRATIONS, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort()
    .map((name) => {
      const sql = readFileSync(join(MIGRATIONS, name, 'migration.sql'), 'utf8')
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') }
    })
}

interface Applied {
  readonly name: string
  readonly checksum: string
}

function appliedOf(database: Sqlite.Database): Applied[] {
  const table = database.prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'AppliedMigration'").get()
  return table ? (database.prepare('SELECT name, checksum FROM AppliedMigration ORDER BY name').all() as Applied[]) : []
}

function refuseStrangers(applied: readonly Applied[], known: readonly Migration[]): void {
  applied.forEach((one, index) => {
    const migration = known[index]
    if (!migration || migration.name !== one.name) {
      throw new MigrationFailed(`This data was written by a newer version of Putback (${one.name}). Start that version, or restore an older backup.`)
    }
    if (migration.checksum !== one.checksum) {
      throw new MigrationFailed(`Migration ${one.name} was edited after it was applied. Put its file back as it was.`)
    }
  })
}

function applyOne(database: Sqlite.Database, migration: Migration, copy: string | null): void {
  database.pragma('foreign_keys = OFF')
  try {
    database.transaction(() => {
      database.exec(migration.sql)
      const broken = database.pragma('foreign_key_check') as unknown[]
      if (broken.length > 0) throw new Error(`${broken.length} rows would point to nothing`)
      database.exec('CREATE TABLE IF NOT EXISTS "AppliedMigration" ("name" TEXT PRIMARY KEY, "checksum" TEXT NOT NULL)')
      database.prepare('INSERT INTO AppliedMigration (name, checksum) VALUES (?, ?)').run(migration.name, migration.checksum)
    })()
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    const kept = copy ? ` A verified copy from before is ${copy}.` : ''
    throw new MigrationFailed(`Migration ${migration.name} failed and the database is unchanged: ${reason}.${kept}`)
  }
}
