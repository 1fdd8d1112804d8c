import { spawn } from 'node:child_process'
import { once } from 'node:events'

const HOLD = `
  const Sqlite = require('better-sqlite3')
  const database = new Sqlite(process.argv[1])
  database.exec('BEGIN IMMEDIATE')
  process.stdout.write('held')
  const leave = () => { database.exec('ROLLBACK'); process.exit(0) }
  if (process.argv[2] !== '0') setTimeout(leave, Number(process.argv[2]))
  process.stdin.on('data', leave)`

export interface ForeignLock {
  release(): void
  readonly released: Promise<void>
}

/** Another process that holds the database's write lock, for so long or until it is told to let go. */
export async function lockFromOutside(file: string, forMs = 0): Promise<ForeignLock> {
  const holder = spawn(process.execPath, ['-e', HOLD, file, String(forMs)], { stdio: ['pipe', 'pipe', 'inherit'] })
  const released = once(holder, 'exit').then(() => undefined)
  await once(holder.stdout, 'data')
  return { release: () => holder.stdin.write('go'), released }
}

/** The longest time that nothing else could run while `work` went on. */
export async function longestStall(work: () => Promise<unknown>): Promise<number> {
  let longest = 0
  let last = performance.now()
  const look = (): void => {
    const now = performance.now()
    longest = Math.max(longest, now - last)
    last = now
  }
  const timer = setInterval(look, 10)
  try {
    await work()
  } finally {
    clearInterval(timer)
    look()
  }
  return longest
}
