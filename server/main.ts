import { pino, type Logger } from 'pino'
import { mkdirSync } from 'node:fs'
import { buildApp } from './app.ts'
import { ConfigError, readConfig, type Config } from './config.ts'
import { forgetOldAnswers } from './shared/once.ts'
import { openDatabase, type Database } from './shared/database/database.ts'
import { migrate, MigrationFailed } from './shared/database/migrations.ts'
import { warnOfNetworkMount } from './shared/database/mount.ts'
import { lockData, DataInUse } from './shared/database/lock.ts'
import { listStored } from './shared/photos/rows.ts'
import { findingsOf, sweepPhotos } from './shared/photos/sweep.ts'
import { findKeyProblem } from './secrets/keeping.ts'
import type { App } from './shared/shell.ts'

const STOP_WITHIN_MS = 9_000

/** Opens the data, serves it, and closes both again on SIGTERM or SIGINT. */
async function serve(config: Config, logger: Logger): Promise<void> {
  mkdirSync(config.dataDir, { recursive: true, mode: 0o700 })
  warnOfNetworkMount(config.dataDir, logger)
  const release = await lockData(config.databaseFile)
  const applied = await migrate(config.databaseFile)
  if (applied.length > 0) logger.info({ applied }, 'database brought up to date')
  const database = await openDatabase(config.databaseFile)
  await forgetOldAnswers(database, new Date())
  sweepAtStart(config, database, logger)
  const keyProblem = await findKeyProblem(database.reads, config)
  if (keyProblem !== null) logger.error({ setting: 'THEFT_KEY_FILE' }, keyProblem)
  const app = await buildApp({ config, database, clock: () => new Date() }, logger)
  await app.listen({ host: config.host, port: config.port })
  for (const signal of ['SIGTERM', 'SIGINT'] as const) {
    process.once(signal, () => void stop(app, logger, async () => {
      await database.close()
      release()
    }))
  }
}

// Beside the serving: a large store takes a while. Lengths only; `npm run verify` reads every picture.
function sweepAtStart({ photosDir }: Config, { reads }: Database, logger: Logger): void {
  listStored(reads)
    .then((rows) => sweepPhotos(photosDir, rows, false))
    .then((sweep) => {
      const findings = findingsOf(sweep)
      if (findings.length > 0) logger.warn({ findings }, 'pictures and records do not fit together: see npm run verify')
    })
    .catch((error: unknown) => logger.error({ err: error }, 'the pictures could not be looked through'))
}

async function stop(app: App, logger: Logger, close: () => Promise<void>): Promise<void> {
  logger.info('stopping: requests under way are finished first')
  const late = setTimeout(() => {
    logger.error('some requests did not finish in time')
    process.exit(1)
  }, STOP_WITHIN_MS)
  await app.close()
  await close()
  clearTimeout(late)
  process.exit(0)
}

try {
  const config = readConfig(process.env)
  const logger = pino({ level: config.logLevel, redact: ['req.headers.authorization', 'req.headers.cookie'] })
  await serve(config, logger)
} catch (error) {
  const isExpected = error instanceof ConfigError || error instanceof MigrationFailed || error instanceof DataInUse
  console.error(isExpected ? error.message : error)
  process.exit(1)
}
