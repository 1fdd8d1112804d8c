import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { backUp, KEPT_COPIES } from '../shared/database/backup.ts'
import { command, Refused } from './command.ts'

// npm run backup: copies the database, also while the server runs.
await command(async ({ databaseFile, dataDir }, given) => {
  if (given.length > 0) throw new Refused('Usage: npm run backup')
  if (!existsSync(databaseFile)) throw new Refused(`There is no database ${databaseFile} to copy. Is DATA_DIR right?`)
  const copy = await backUp(databaseFile, join(dataDir, 'backups'))
  return `Copied and verified: ${copy}\nThe last ${KEPT_COPIES} copies are kept. Keep one on another machine too.`
})
