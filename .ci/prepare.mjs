// Installs packages only if the lockfile changed, and generates the database client only if its schema did.
import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const home = join(dirname(fileURLToPath(import.meta.url)), '..')
process.chdir(home)

const [major = 0, minor = 0] = process.versions.node.split('.').map(Number)
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Putback needs Node.js 20.19 or later; this is ${process.versions.node}.`)
  process.exit(1)
}

const hashOf = (file) => createHash('sha256').update(readFileSync(file)).digest('hex')
const isMarked = (mark, hash) => existsSync(mark) && readFileSync(mark, 'utf8') === hash

function once(mark, hash, work) {
  if (isMarked(mark, hash)) return
  work()
  writeFileSync(mark, hash)
}

once(join('node_modules', '.putback-installed'), hashOf('package-lock.json'), () => {
  console.log('Installing packages; two of them may be compiled, which takes some minutes the first time.')
  execFileSync('npm', ['ci', '--no-audit', '--no-fund'], { stdio: 'inherit' })
})
const client = join('prisma', 'client', 'client.ts')
const generated = existsSync(client) ? hashOf(join('prisma', 'schema.prisma')) : ''
if (!isMarked(join('node_modules', '.putback-generated'), generated)) {
  execFileSync(process.execPath, [join('node_modules', 'prisma', 'build', 'index.js'), 'generate'], { stdio: 'inherit' })
  writeFileSync(join('node_modules', '.putback-generated'), hashOf(join('prisma', 'schema.prisma')))
}
