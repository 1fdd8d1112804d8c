import { dirname, join, resolve } from 'node:path'
import { listPhotoRows } from '../shared/database/backup.ts'
import { readMigrations } from '../shared/database/migrations.ts'
import { restoreDatabase } from '../shared/database/restore.ts'
import { copyPhotos } from '../shared/photos/copies.ts'
import { command, Incomplete, Refused } from './command.ts'

// npm run restore -- FILE: puts a copy in the place of the database, and its pictures back; only while no server runs.
await command(async ({ databaseFile, photosDir }, [named, ...more]) => {
  if (!named || more.length > 0) throw new Refused('Usage: npm run restore -- FILE')
  const copy = resolve(named)
  let lost: string[] = []
  const { keptAs, applied, verified } = await restoreDatabase(copy, databaseFile, readMigrations(), async (prepared) => {
    const hashes = (await listPhotoRows(prepared)).map(({ hash }) => hash)
    lost = await copyPhotos(join(dirname(copy), 'photos'), photosDir, hashes)
  })
  const said = [
    `Restored ${databaseFile} from ${copy}: ${verified.tables} tables, ${verified.rows} rows.`,
    ...(applied.length > 0 ? [`The copy was older and was brought up to date: ${applied.join(', ')}.`] : []),
    ...(keptAs ? [`What stood there before is kept as ${keptAs}.`] : []),
  ].join('\n')
  if (lost.length > 0) throw new Incomplete(`${said}\nNot complete: ${lost.length} pictures lie neither in ${photosDir} nor whole beside the copy: ${lost.slice(0, 5).join(', ')}`)
  return said
})
