import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { backUp, KEPT_COPIES, listPhotoRows } from '../shared/database/backup.ts'
import { copyPhotos } from '../shared/photos/copies.ts'
import { command, Incomplete, Refused } from './command.ts'

// npm run backup: copies the database and the pictures, also while the server runs.
await command(async ({ databaseFile, dataDir, photosDir }, given) => {
  if (given.length > 0) throw new Refused('Usage: npm run backup')
  if (!existsSync(databaseFile)) throw new Refused(`There is no database ${databaseFile} to copy. Is DATA_DIR right?`)
  const folder = join(dataDir, 'backups')
  let lost: string[] = []
  let count = 0
  const copy = await backUp(databaseFile, folder, 'putback', async (unfinished) => {
    const hashes = (await listPhotoRows(unfinished)).map(({ hash }) => hash)
    count = hashes.length
    lost = await copyPhotos(photosDir, join(folder, 'photos'), hashes)
  })
  const said = `Copied and verified: ${copy}\nWith ${count - lost.length} pictures, in ${join(folder, 'photos')}.\nThe last ${KEPT_COPIES} copies are kept. Keep one on another machine too, with the pictures beside it.`
  if (lost.length > 0) throw new Incomplete(`${said}\nNot complete: ${lost.length} pictures are missing or damaged in ${photosDir}: ${lost.slice(0, 5).join(', ')}`)
  return said
})
