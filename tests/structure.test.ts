import t from 'tap'
import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join, normalize } from 'node:path'
import { findCycle } from '../server/calc/graph.ts'
import { projectFolder } from '../server/shared/database/projectFolder.ts'

process.chdir(projectFolder())

interface Import {
  readonly from: string
  /** A file of ours by its path, or a package by its name. */
  readonly to: string
  readonly isOurs: boolean
  readonly isTypeOnly: boolean
}
interface Source {
  readonly path: string
  /** Without comments, so that a word in one breaks no rule. */
  readonly code: string
  readonly imports: readonly Import[]
}

const sources: readonly Source[] = ['server', 'web', 'seed', 'prisma', 'tests'].flatMap((folder) =>
  readdirSync(folder, { recursive: true }).map((name) => join(folder, String(name))))
  .filter((path) => /\.tsx?$/.test(path) && !path.startsWith('prisma/client/'))
  .map(read)

function read(path: string): Source {
  const code = readFileSync(path, 'utf8').replaceAll(/\/\*.*?\*\//gs, '').replaceAll(/^\s*\/\/.*$|\s\/\/ .*$/gm, '')
  const found = [...code.matchAll(/^(?:import|export)\s+(type\s)?(?:[^'"();]*?\sfrom\s+)?'([^']+)'/gm), ...code.matchAll(/\b()import\(\s*'([^']+)'\s*\)/g)]
  const imports = found.map(([, type, target]): Import => {
    const isOurs = target!.startsWith('.')
    return { from: path, to: isOurs ? normalize(join(dirname(path), target!)) : target!, isOurs, isTypeOnly: Boolean(type) }
  })
  return { path, code, imports }
}

const inside = (folder: string): Source[] => sources.filter(({ path }) => path.startsWith(`${folder}/`))
const importsOf = (folder: string): Import[] => inside(folder).flatMap(({ imports }) => imports)
const told = ({ from, to }: Import): string => `${from} imports ${to}`
const shipped = sources.filter(({ path }) => !path.startsWith('tests/'))

const folderOf = (path: string): string | null => /^server\/([a-z]+)\//.exec(path)?.[1] ?? null
const subjectOf = (path: string): string | null => {
  const folder = folderOf(path)
  return folder && !['calc', 'shared', 'commands'].includes(folder) ? folder : null
}

t.test('the calculations know nothing of the rest, nor of clocks, chance, waiting and the place they run at', async (t) => {
  t.ok(inside('server/calc').length > 30)
  t.same(importsOf('server/calc').filter(({ to, isOurs }) => (isOurs ? !to.startsWith('server/calc/') : true)).map(told), [])
  const impure = /Date\.now|new Date\(\s*\)|Math\.random|\basync\b|\bawait\b|\bPromise\b|process\.|setTimeout|performance\.|\.get(?:FullYear|Month|Date|Day|Hours|Minutes|Seconds|TimezoneOffset)\(|\.set(?:FullYear|Month|Date|Hours|Minutes)\(|\.toLocale(?:Date|Time)?String\(\)|new Date\([^)]*,/
  t.same(inside('server/calc').filter(({ code }) => impure.test(code)).map(({ path, code }) => `${path}: ${impure.exec(code)?.[0]}`), [])
})

t.test('the folders of the calculations take from each other in no circle, and what lies beside them takes from none', async (t) => {
  const calcFolder = (path: string): string => /^server\/calc\/([a-z]+)\//.exec(path)?.[1] ?? 'beside'
  const edges = importsOf('server/calc').map(({ from, to }) => ({ before: calcFolder(to), after: calcFolder(from) })).filter(({ before, after }) => before !== after)
  t.ok(edges.length > 30)
  t.equal(findCycle([...new Set(edges.flatMap(({ before, after }) => [before, after]))], edges), null)
})

t.test('what is shared knows no subject; of the pages it knows the parts and those of any record', async (t) => {
  const allowed = ['server/shared/', 'server/calc/', 'server/config.ts', 'prisma/client/', 'web/shared/', 'web/records/']
  const strange = importsOf('server/shared').filter(({ to, isOurs }) => isOurs && !allowed.some((start) => to.startsWith(start)))
  t.same(strange.map(told), [])
})

t.test('a subject takes from another what it read or worked out, never its routes, forms or records, and none in a circle', async (t) => {
  const across = importsOf('server').filter(({ from, to, isOurs }) => {
    const subject = subjectOf(from)
    return isOurs && subject !== null && subjectOf(to) !== null && subject !== subjectOf(to)
  })
  const reaching = across.filter(({ to }) => /(?:routes|records|rules|forms|schemas|Page|Form)\.ts$/i.test(to))
  t.same(reaching.map(told), [])
  const edges = across.map(({ from, to }) => ({ before: subjectOf(to)!, after: subjectOf(from)! }))
  const subjects = [...new Set(edges.flatMap(({ before, after }) => [before, after]))]
  t.equal(findCycle(subjects, edges), null)
})

// Beside the stores: where a table is written or asked in the file that is about nothing else.
const ALSO_ASK = [
  'server/health/routes.ts', 'server/hours/entries.ts', 'server/hours/timers.ts',
  'server/people/firstOwner.ts', 'server/people/me.ts', 'server/people/tokens.ts',
]

t.test('only stores, the rules of records and what is shared ask the database', async (t) => {
  const asking = /\b(?:reads|write|client)\.[a-zA-Z]+\.(?:find|count|aggregate|groupBy|create|update|upsert|delete)/
  const askers = inside('server').filter(({ path, code }) => !path.startsWith('server/shared/') && asking.test(code)).map(({ path }) => path)
  const isMeant = (path: string): boolean => /(?:store|Store|records|rules)\.ts$/.test(path) || ALSO_ASK.includes(path)
  t.same(askers.filter((path) => !isMeant(path)), [])
  t.same(ALSO_ASK.filter((path) => !askers.includes(path)), [], 'files listed here that no longer do')
})

t.test('the database’s client and its drivers stay behind one door', async (t) => {
  const door = (path: string): boolean => path.startsWith('server/shared/database/') || path === 'prisma/difference.ts'
  const drivers = /^(?:better-sqlite3|sqlite3|@prisma\/|prisma)/
  const past = shipped.flatMap(({ imports }) => imports)
    .filter(({ from, to, isTypeOnly, isOurs }) => !door(from) && (isOurs ? to.startsWith('prisma/client/') && !isTypeOnly : drivers.test(to) && from !== 'prisma.config.ts'))
  t.same(past.map(told), [])
  const raw = shipped.filter(({ path, code }) => !door(path) && /\$(?:queryRaw|executeRaw)|\bPRAGMA\b|\bSELECT\b.*\bFROM\b|\bINSERT INTO\b/.test(code))
  t.same(raw.map(({ path }) => path), [])
  // Two builds of SQLite in one process drop each other's locks on a file: the second driver is for commands and for before the start.
  const copying = importsOf('server').filter(({ to }) => /database\/(?:backup|restore)\.ts$/.test(to)).map(({ from }) => from)
  const meant = /^server\/(?:commands\/|shared\/database\/(?:migrations|restore)\.ts)/
  t.same(copying.filter((path) => !meant.test(path)), [])
})

t.test('pages know other pages’ parts, formats from the calculations, and of the server no more than types', async (t) => {
  const fromServer = importsOf('web').filter(({ to }) => to.startsWith('server/') && !to.startsWith('server/calc/'))
  t.same(fromServer.filter(({ isTypeOnly }) => !isTypeOnly).map(told), [])
  const fromElsewhere = importsOf('web').filter(({ to, isOurs }) => isOurs && !to.startsWith('web/') && !to.startsWith('server/'))
  t.same(fromElsewhere.map(told), [])
  const placeOf = (path: string): string => path.split('/')[1]!
  const across = importsOf('web').filter(({ from, to }) => to.startsWith('web/') && placeOf(to) !== 'shared' && placeOf(from) !== placeOf(to))
  t.same(across.filter(({ isTypeOnly }) => !isTypeOnly).map(told), [])
})

t.test('the demo and the commands stand on the server, and nothing stands on them or on tests', async (t) => {
  const above = /^(?:seed|tests)\/|^server\/(?:commands|main\.ts)/
  const wrong = shipped.flatMap(({ imports }) => imports).filter(({ from, to, isOurs }) => isOurs && above.test(to) && !from.startsWith(to.split('/').slice(0, -1).join('/')))
  t.same(wrong.filter(({ from }) => !above.test(from)).map(told), [])
  t.same(shipped.flatMap(({ imports }) => imports).filter(({ to }) => to.startsWith('tests/')).map(told), [])
})

t.test('every subject is registered by hand in app.ts', async (t) => {
  const app = sources.find(({ path }) => path === 'server/app.ts')!
  const subjects = [...new Set(sources.map(({ path }) => subjectOf(path)).filter((subject) => subject !== null))]
  t.ok(subjects.length > 10)
  t.same(subjects.filter((subject) => !app.imports.some(({ to }) => to === `server/${subject}/routes.ts`)), [])
})

t.test('files are small, and no folder is a room for everything', async (t) => {
  const lengths = shipped.map(({ path }) => ({ path, lines: readFileSync(path, 'utf8').split('\n').length - 1 })).sort((a, b) => a.lines - b.lines)
  t.same(lengths.filter(({ lines }) => lines > 250), [])
  t.ok(lengths[Math.floor(lengths.length / 2)]!.lines < 100)
  t.same(sources.filter(({ path }) => /\/(?:utils?|helpers?|lib|services|common|misc)(?:\/|\.tsx?$)/.test(path)).map(({ path }) => path), [])
})

t.test('types are not talked away, and nothing is printed past the log', async (t) => {
  const talkedAway = /:\s*any\b|\bas any\b|<any>|\bany\[\]|@ts-(?:ignore|nocheck|expect-error)/
  t.same(shipped.filter(({ code }) => talkedAway.test(code)).map(({ path }) => path), [])
  const mayPrint = /^(?:server\/commands\/|server\/main\.ts|seed\/demo\.ts|prisma\/)/
  t.same(shipped.filter(({ path, code }) => /\bconsole\.|process\.stdout/.test(code) && !mayPrint.test(path)).map(({ path }) => path), [])
})

t.test('every index of the schema names the query it serves', async (t) => {
  const indexes = readFileSync('prisma/schema.prisma', 'utf8').split('\n').filter((line) => line.includes('@@index'))
  t.ok(indexes.length > 20)
  t.same(indexes.filter((line) => !/\/\/ \S/.test(line)), [])
})

t.test('the migrations lead to the schema as it is written', async (t) => {
  // In a process of its own: the engine that compares them keeps a handle open.
  const script = "const { schemaDifference } = await import('./prisma/difference.ts'); process.stdout.write(await schemaDifference()); process.exit(0)"
  t.equal(execFileSync(process.execPath, ['--import=tsx', '--input-type=module', '-e', script], { encoding: 'utf8' }), '')
})

t.test('every command that is written down anywhere is there', async (t) => {
  const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> }
  const texts = [...['README.md', 'DEVELOPERS.md'].filter(existsSync), ...inside('server/commands').map(({ path }) => path), ...inside('prisma').map(({ path }) => path)]
  t.ok(texts.includes('README.md'))
  const named = texts.flatMap((path) => [...readFileSync(path, 'utf8').matchAll(/npm (?:run ([a-z][a-z-]*)|(start|test)\b)/g)].map(([, run, own]) => `${run ?? own}`))
  t.ok(named.length > 5)
  t.same([...new Set(named)].filter((name) => !(name in scripts)), [])
  const files = Object.values(scripts).flatMap((script) => [...script.matchAll(/\b((?:server|seed|tests|prisma|\.ci)\/[\w/.-]+\.(?:ts|mjs))/g)].map(([, file]) => file!))
  t.same(files.filter((file) => !existsSync(file)), [], 'and so is every file that a command runs')
})

t.test('the top level holds what a newcomer expects, and nothing that somebody left behind', (t) => {
  const known = ['server', 'prisma', 'web', 'tests', 'seed', 'docker-compose.yml', 'package.json', 'package-lock.json', 'tsconfig.json', 'tsconfig.build.json', 'prisma.config.ts', 'README.md', 'DEVELOPERS.md', 'LICENSE']
  const made = ['node_modules', 'dist']
  t.same(readdirSync('.').filter((name) => !name.startsWith('.') && ![...known, ...made].includes(name)), [])
  t.end()
})
