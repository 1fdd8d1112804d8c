import { existsSync, renameSync, rmSync } from 'node:fs'
import { readConfig } from '../server/config.ts'
import { DEMO_PASSWORD } from '../server/people/passwords.ts'
import { openDatabase } from '../server/shared/database/database.ts'
import { migrate } from '../server/shared/database/migrations.ts'
import { fillDemo } from './fill.ts'
import { PEOPLE } from './people.ts'

// The demo has known sign-ins: a data folder of its own, and this machine only.
process.env.DATA_DIR = process.env.DEMO_DATA_DIR ?? '.data/demo'
process.env.DEMO = 'yes'
for (const name of ['DATABASE_URL', 'PUBLIC_URL', 'TLS_CERT_FILE', 'TLS_KEY_FILE', 'TRUST_PROXY']) delete process.env[name]
process.env.HOST = '127.0.0.1'
process.env.LOG_LEVEL ??= 'warn'

const config = readConfig(process.env)
if (!existsSync(config.databaseFile)) await fillNew(config.databaseFile)
await import('../server/main.ts')
announce()

// Filled under another name first: a demo that was stopped half way is begun anew.
async function fillNew(file: string): Promise<void> {
  const unfinished = `${file}.unfinished`
  for (const part of ['', '-wal', '-shm']) rmSync(`${unfinished}${part}`, { force: true })
  await migrate(unfinished)
  const database = await openDatabase(unfinished)
  try {
    await fillDemo(database, new Date(), config)
  } finally {
    await database.close()
  }
  renameSync(unfinished, file)
}

function announce(): void {
  const width = Math.max(...PEOPLE.map(({ name }) => name.length))
  const lines = PEOPLE.map(({ name, role, signInName }) => `  ${name.padEnd(width)}  ${role.padEnd(10)}  ${signInName}`)
  console.log(['', `The demo shop is served at ${config.publicUrl.href}`, '', ...lines, '', `  The password of all: ${DEMO_PASSWORD}`, ''].join('\n'))
}
