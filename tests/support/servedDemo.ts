import { pino } from 'pino'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fillDemo } from '../../seed/fill.ts'
import { buildApp } from '../../server/app.ts'
import { readConfig } from '../../server/config.ts'
import { openDatabase, type Database } from '../../server/shared/database/database.ts'
import { migrate } from '../../server/shared/database/migrations.ts'
import type { App } from '../../server/shared/shell.ts'

export interface ServedDemo {
  readonly app: App
  readonly address: string
  readonly database: Database
  readonly databaseFile: string
  close(): Promise<void>
}

/** The demo shop on a database of its own, served on a free port of this machine. */
export async function serveDemo(): Promise<ServedDemo> {
  const dataDir = mkdtempSync(join(tmpdir(), 'putback-demo-'))
  const config = readConfig({ DATA_DIR: dataDir, PORT: '0', DEMO: 'yes' })
  await migrate(config.databaseFile)
  const database = await openDatabase(config.databaseFile)
  await fillDemo(database, new Date(), config)
  const app = await buildApp({ config, database, clock: () => new Date() }, pino({ level: process.env.LOG_LEVEL ?? 'silent' }))
  const address = await app.listen({ host: '127.0.0.1', port: 0 })
  return {
    app, address, database, databaseFile: config.databaseFile,
    close: async () => {
      await app.close()
      await database.close()
      rmSync(dataDir, { recursive: true, force: true })
    },
  }
}
