import { existsSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { listPhotoRows, verify } from '../shared/database/backup.ts'
import { BEFORE_MIGRATION } from '../shared/database/migrations.ts'
import { findingsOf, isSound, sweepPhotos } from '../shared/photos/sweep.ts'
import { command, Refused } from './command.ts'

// npm run verify [-- FILE]: reads every table of the database, or of a copy, by another driver, and every picture it names.
await command(async ({ databaseFile, photosDir }, [named, ...more]) => {
  if (more.length > 0) throw new Refused('Usage: npm run verify [-- FILE]')
  const file = named ? resolve(named) : databaseFile
  if (!existsSync(file)) throw new Refused(`There is no file ${file}.`)
  const { tables, rows } = await verify(file).catch((error: unknown) => {
    throw new Refused(`${file} is not sound: ${error instanceof Error ? error.message : String(error)}. Do not restore from it.`)
  })
  const folder = picturesOf(file)
  const sweep = await sweepPhotos(folder, await listPhotoRows(file), true)
  const findings = findingsOf(isShared(file) ? { ...sweep, unnamed: [] } : sweep)
  const said = `${file} is sound: ${tables} tables, ${rows} rows read.`
  if (!isSound(sweep)) throw new Refused([said, `Its pictures in ${folder} are not:`, ...findings].join('\n'))
  return [said, `${sweep.counted} pictures in ${folder} are there and whole.`, ...findings].join('\n')

  // The copy made before a migration has none of its own: migrations leave pictures alone.
  function picturesOf(path: string): string {
    return path === databaseFile || basename(path).startsWith(BEFORE_MIGRATION) ? photosDir : join(dirname(path), 'photos')
  }
  // Copies share one folder, so one of them does not name what another does.
  function isShared(path: string): boolean {
    return path !== databaseFile
  }
})
