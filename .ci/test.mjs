// Runs test files with tap and closes with one line that says how many passed and failed.
// node .ci/test.mjs            what `npm test` runs: type check, escaping check, all *.test.ts
// node .ci/test.mjs prove      what `npm run prove` runs: all *.prove.ts, and the calculations in four time zones
import { execFileSync, spawn, spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { createInterface } from 'node:readline'

const isProof = process.argv[2] === 'prove'
const ZONES = ['UTC', 'America/St_Johns', 'Pacific/Chatham', 'America/Sao_Paulo']
const TAP = 'node_modules/tap/dist/esm/run.mjs'
const totals = { passed: 0, failed: 0, skipped: 0 }

if (!existsSync('/usr/bin/chromium')) {
  console.log('Chromium is missing (/usr/bin/chromium): tests that draw pages in it name what they skip.')
}

leaveOutPlugins()
if (isProof) {
  await runTap(testFiles('.prove.ts'), {})
  for (const zone of ZONES) {
    console.log(`# calculations in ${zone}`)
    await runTap(testFiles('.test.ts', 'calc'), { TZ: zone })
  }
} else {
  check('types', ['node_modules/typescript/bin/tsc', '--noEmit', '-p', 'tsconfig.json'])
  check('escaping', ['node_modules/@kitajs/ts-html-plugin/dist/cli.js'])
  await runTap(testFiles('.test.ts'), {})
}

if (process.env.CI === 'true' && totals.skipped > 0) {
  console.log(`${totals.skipped} tests were skipped; here none may be.`)
  totals.failed += totals.skipped
}
console.log(`${totals.passed} passed, ${totals.failed} failed${totals.skipped > 0 ? `, ${totals.skipped} skipped` : ''}`)
process.exit(totals.failed === 0 && totals.passed > 0 ? 0 : 1)

// What .taprc leaves out is loaded all the same until tap is built without it; its TypeScript plugin costs each file 40 s.
function leaveOutPlugins() {
  const mark = 'node_modules/.putback-tap'
  const hash = createHash('sha256').update(readFileSync('package-lock.json')).update(readFileSync('.taprc')).digest('hex')
  if (existsSync(mark) && readFileSync(mark, 'utf8') === hash) return
  execFileSync(process.execPath, [TAP, 'build'], { stdio: 'inherit' })
  writeFileSync(mark, hash)
}

function check(name, args) {
  const { status } = spawnSync(process.execPath, args, { stdio: 'inherit' })
  if (status === 0) totals.passed += 1
  else totals.failed += 1
  console.log(`${status === 0 ? 'ok' : 'not ok'} - ${name}`)
}

function testFiles(ending, folder = '.') {
  return readdirSync(join('tests', folder), { recursive: true }).filter((name) => name.endsWith(ending)).map((name) => join('tests', folder, name)).sort()
}

async function runTap(files, environment) {
  if (files.length === 0) return
  const tap = spawn(process.execPath, [TAP, 'run', '--reporter=tap', ...(isProof ? ['--timeout=600'] : []), ...files], {
    stdio: ['ignore', 'pipe', 'inherit'], env: { ...process.env, ...environment },
  })
  let summary = null
  let isFailing = false
  for await (const line of createInterface({ input: tap.stdout })) {
    summary = /^# \{ (.*) \}$/.exec(line)?.[1] ?? summary
    const isFailure = /^\s*not ok /.test(line)
    isFailing = isFailure || (isFailing && !/^\s*\.\.\.$/.test(line))
    if (isFailing || /^(ok|Bail out)/.test(line) || /^\s+ok .*# (SKIP|TODO)/i.test(line)) console.log(line)
  }
  const code = await new Promise((resolve) => (tap.exitCode === null ? tap.on('close', resolve) : resolve(tap.exitCode)))
  count(summary, code)
}

function count(summary, code) {
  const numbers = Object.fromEntries((summary ?? '').split(', ').map((pair) => pair.split(': ')))
  const failed = Number(numbers.fail ?? 0)
  totals.passed += Number(numbers.pass ?? 0)
  totals.skipped += Number(numbers.skip ?? 0) + Number(numbers.todo ?? 0)
  totals.failed += failed === 0 && code !== 0 ? 1 : failed
}
