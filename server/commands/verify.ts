import { existsSync } from 'node:fs'
import { resolve } from 'node:path'
import { verify } from '../shared/database/backup.ts'
import { command, Refused } from './command.ts'

// npm run verify [-- FILE]: reads every table of the database, or of a copy, by another driver.
await command(async ({ databaseFile }, [named, ...more]) => {
  if (more.length > 0) throw new Refused('Usage: npm run verify [-- FILE]')
  const file = named ? resolve(named) : databaseFile
  if (!existsSync(file)) throw new Refused(`There is no file ${file}.`)
  const { tables, rows } = await verify(file).catch((error: unknown) => {
    throw new Refused(`${file} is not sound: ${error instanceof Error ? error.message : String(error)}. Do not restore from it.`)
  })
  return `${file} is sound: ${tables} tables, ${rows} rows read.`
})
