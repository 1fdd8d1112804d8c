import { mkdirSync } from 'node:fs'
import { readConfig } from '../server/config.ts'
import { openDatabase } from '../server/shared/database/database.ts'
import { migrate } from '../server/shared/database/migrations.ts'
import { fillDemo } from './fill.ts'
import { PASSWORD, PEOPLE } from './people.ts'

// The demo has known sign-ins: a data folder of its own, and this machine only.
process.env.DATA_DIR = process.env.DEMO_DATA_DIR ?? '.data/demo'
process.env.DEMO = 'yes'
process.env.HOST = '127.0.0.1'
process.env.LOG_LEVEL ??= 'warn'

const config = readConfig(process.env)
mkdirSync(config.dataDir, { recursive: true, mode: 0o700 })
await migrate(config.databaseFile)
await fillIfEmpty()
await import('../server/main.ts')
announce()

async function fillIfEmpty(): Promise<void> {
  const database = await openDatabase(config.databaseFile)
  try {
    if ((await database.reads.person.count()) === 0) await fillDemo(database, new Date())
  } finally {
    await database.close()
  }
}

function announce(): void {
  const width = Math.max(...PEOPLE.map(({ name }) => name.length))
  const lines = PEOPLE.map(({ name, role, signInName }) => `  ${name.padEnd(width)}  ${role.padEnd(10)}  ${signInName}`)
  console.log(['', `The demo shop is served at ${config.publicUrl.href}`, '', ...lines, '', `  The password of all: ${PASSWORD}`, ''].join('\n'))
}
