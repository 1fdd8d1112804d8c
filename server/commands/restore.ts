import { resolve } from 'node:path'
import { restoreDatabase } from '../shared/database/restore.ts'
import { command, Refused } from './command.ts'

// npm run restore -- FILE: puts a copy in the place of the database; only while no server runs.
await command(async ({ databaseFile }, [named, ...more]) => {
  if (!named || more.length > 0) throw new Refused('Usage: npm run restore -- FILE')
  const { keptAs, applied, verified } = await restoreDatabase(resolve(named), databaseFile)
  return [
    `Restored ${databaseFile} from ${resolve(named)}: ${verified.tables} tables, ${verified.rows} rows.`,
    ...(applied.length > 0 ? [`The copy was older and was brought up to date: ${applied.join(', ')}.`] : []),
    ...(keptAs ? [`What stood there before is kept as ${keptAs}.`] : []),
  ].join('\n')
})
