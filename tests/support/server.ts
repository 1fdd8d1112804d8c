import { spawn, type ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openDatabase } from '../../server/shared/database/database.ts'
import { migrate } from '../../server/shared/database/migrations.ts'
import { projectFolder } from '../../server/shared/database/projectFolder.ts'
import { hashOfSecret, newSecret } from '../../server/shared/session.ts'

export interface DataFolder {
  readonly dataDir: string
  readonly file: string
  /** Of an owner. */
  readonly token: string
}

/** A data folder with an owner who has an access token, served by nobody yet. */
export async function newData(t: { teardown(work: () => unknown): unknown }): Promise<DataFolder> {
  const dataDir = mkdtempSync(join(tmpdir(), 'putback-data-'))
  t.teardown(() => rmSync(dataDir, { recursive: true, force: true }))
  const file = join(dataDir, 'putback.db')
  const token = newSecret()
  await migrate(file)
  const database = await openDatabase(file)
  await database.write(async (write) => {
    const { id } = await write.person.create({ data: { name: 'Test owner', signInName: 'test.owner', role: 'owner' } })
    const now = new Date()
    await write.accessToken.create({
      data: { tokenHash: hashOfSecret(token), name: 'test', personId: id, role: 'owner', createdAt: now, expiresAt: new Date(now.getTime() + 86_400_000) },
    })
  })
  await database.close()
  return { dataDir, file, token }
}

export interface Ended {
  readonly code: number | null
  readonly output: string
}

/** Runs a file of ours as its own process. */
export async function run(file: string, given: readonly string[], dataDir: string): Promise<Ended> {
  const { ended } = start(file, given, dataDir)
  return ended
}

function start(file: string, given: readonly string[], dataDir: string): { child: ChildProcess; ended: Promise<Ended>; output: () => string } {
  const environment = Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^(TAP|NODE_OPTIONS|DATABASE_URL|PUBLIC_URL)/.test(name)))
  const child = spawn(process.execPath, ['--import=tsx', file, ...given], {
    cwd: projectFolder(), env: { ...environment, DATA_DIR: dataDir, PORT: '0', HOST: '127.0.0.1', LOG_LEVEL: 'info' }, stdio: ['ignore', 'pipe', 'pipe'],
  })
  let output = ''
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (chunk: Buffer) => { output += chunk.toString() })
  const ended = once(child, 'close').then(([code]) => ({ code: code as number | null, output }))
  return { child, ended, output: () => output }
}

export interface RunningServer {
  readonly address: string
  readonly pid: number
  signal(name: 'SIGTERM' | 'SIGKILL'): void
  readonly ended: Promise<Ended>
  /** What it has said so far. */
  output(): string
}

/** Starts the real server on a free port; throws with its words where it does not come up. */
export async function startServer(t: { teardown(work: () => unknown): unknown }, dataDir: string): Promise<RunningServer> {
  const { child, ended, output } = start('server/main.ts', [], dataDir)
  t.teardown(() => child.exitCode === null && child.kill('SIGKILL'))
  const address = await Promise.race([
    new Promise<string>((resolve) => {
      child.stdout?.on('data', () => {
        const found = /listening at (http:\/\/127\.0\.0\.1:\d+)/.exec(output())?.[1]
        if (found) resolve(found)
      })
    }),
    ended.then(({ code, output: words }) => {
      throw new Error(`the server ended with ${code}: ${words}`)
    }),
  ])
  ended.catch(() => undefined)
  return { address, pid: child.pid ?? 0, signal: (name) => child.kill(name), ended, output }
}

/** What a writer was told. */
export interface Written {
  /** Names acknowledged, with the ids of their records. */
  readonly acknowledged: Map<string, string>
  /** Names whose request broke off: whether they were written is not known. */
  readonly unknown: Set<string>
}

export async function postCustomer(address: string, token: string, name: string): Promise<{ id: string }> {
  const answer = await fetch(`${address}/api/customers`, {
    method: 'POST', body: JSON.stringify({ name }),
    headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json', 'idempotency-key': name },
  })
  if (answer.status !== 201) throw new Error(`${answer.status}: ${await answer.text()}`)
  return await answer.json() as { id: string }
}

/** Posts customers under keys, several at once, until told to stop or the server goes away. */
export function keepWriting(address: string, token: string, writers = 3): Written & { stop(): Promise<void> } {
  const acknowledged = new Map<string, string>()
  const unknown = new Set<string>()
  let isStopped = false
  const write = async (writer: number): Promise<void> => {
    for (let count = 1; !isStopped; count += 1) {
      const name = `Customer ${writer}-${count}`
      unknown.add(name)
      const stored = await postCustomer(address, token, name).catch((error: Error) => error)
      if (stored instanceof Error) return
      acknowledged.set(name, stored.id)
      unknown.delete(name)
    }
  }
  const all = Promise.all(Array.from({ length: writers }, (_, index) => write(index + 1)))
  return {
    acknowledged, unknown,
    stop: async () => {
      isStopped = true
      await all
    },
  }
}
