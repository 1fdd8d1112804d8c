import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { MIGRATIONS } from '../server/shared/database/migrations.ts'
import { schemaDifference } from './difference.ts'

// npm run migration -- what_changes: writes the next migration from schema.prisma.
const name = process.argv[2]
if (!name || !/^[a-z0-9_]+$/.test(name)) {
  console.error('Name the migration in small letters: npm run migration -- add_bin_photo')
  process.exit(1)
}
const sql = await schemaDifference()
if (sql === '') {
  console.log('The migrations agree with schema.prisma: nothing to write.')
} else {
  const stamp = new Date().toISOString().replace(/\D/g, '').slice(0, 14)
  const folder = join(MIGRATIONS, `${stamp}_${name}`)
  mkdirSync(folder)
  writeFileSync(join(folder, 'migration.sql'), sql)
  console.log(`Written: prisma/migrations/${stamp}_${name}/migration.sql. Read it before you commit it.`)
}
// The engine keeps a handle open.
process.exit(0)
