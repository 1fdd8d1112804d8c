import { ConfigError, readConfig, type Config } from '../config.ts'
import { DataInUse } from '../shared/database/lock.ts'
import { MigrationFailed } from '../shared/database/migrations.ts'
import { NotRestorable } from '../shared/database/restore.ts'

/** What stands in the way of a command, in words for whoever typed it. */
export class Refused extends Error {}

/** Done as far as it goes: what is missing. */
export class Incomplete extends Error {}

const SAID_PLAINLY = [Refused, Incomplete, ConfigError, DataInUse, MigrationFailed, NotRestorable]

/** Runs a command with the server's own settings: says what came of it, or says why not and ends with 1. */
export async function command(work: (config: Config, given: readonly string[]) => Promise<string>): Promise<void> {
  try {
    console.log(await work(readConfig(process.env), process.argv.slice(2)))
  } catch (error) {
    const isPlain = error instanceof Error && SAID_PLAINLY.some((kind) => error instanceof kind)
    console.error(isPlain ? error.message : error)
    process.exitCode = 1
  }
}
