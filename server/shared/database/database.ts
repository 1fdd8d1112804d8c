import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3'
import { setTimeout as pause } from 'node:timers/promises'
import { Prisma, PrismaClient } from '../../../prisma/client/client.ts'
import { StorageBusy } from '../problems.ts'

/** What can be asked outside a write: every subject's queries go through this. */
export type Reads = Omit<PrismaClient, '$transaction' | '$connect' | '$disconnect' | '$on' | '$extends' | '$use'>
/** The one open write. */
export type Write = Prisma.TransactionClient

export interface Database {
  readonly reads: Reads
  /** Runs `work` in one transaction; repeats it whole while another process holds the lock, so it must be repeatable. */
  write<Result>(work: (write: Write) => Promise<Result>): Promise<Result>
  close(): Promise<void>
}

const LOCK_WAIT_MS = 200
const LOCK_PATIENCE_MS = 5_000

/**
 * Two connections to one file. A query issued on a connection while a transaction is open on it
 * runs inside that transaction, so reads and writes must not share one.
 */
export async function openDatabase(file: string): Promise<Database> {
  const reads = connect(file)
  const writes = connect(file)
  for (const client of [reads, writes]) await client.$queryRawUnsafe('PRAGMA journal_mode = WAL')
  await writes.$queryRawUnsafe('PRAGMA synchronous = FULL')
  await writes.$queryRawUnsafe('PRAGMA foreign_keys = ON')
  await reads.$queryRawUnsafe('PRAGMA query_only = ON')
  return {
    reads,
    write: (work) => patiently(() => writes.$transaction(work, { maxWait: LOCK_PATIENCE_MS, timeout: LOCK_PATIENCE_MS })),
    close: async () => {
      await Promise.all([reads.$disconnect(), writes.$disconnect()])
    },
  }
}

function connect(file: string): PrismaClient {
  return new PrismaClient({ adapter: new PrismaBetterSqlite3({ url: `file:${file}`, timeout: LOCK_WAIT_MS }) })
}

// The driver's own wait for a lock is synchronous and stalls every request, so it is kept short and
// the whole write is tried again in between.
async function patiently<Result>(attempt: () => Promise<Result>): Promise<Result> {
  const startedAt = performance.now()
  for (let tries = 1; ; tries += 1) {
    try {
      return await attempt()
    } catch (error) {
      if (!isLocked(error)) throw error
      if (performance.now() - startedAt > LOCK_PATIENCE_MS) throw new StorageBusy()
      await pause(Math.min(25 * tries, 250))
    }
  }
}

function isLocked(error: unknown): boolean {
  if (error instanceof Prisma.PrismaClientKnownRequestError) return ['P1008', 'P2034', 'P2028'].includes(error.code)
  return error instanceof Error && /SQLITE_BUSY|database is locked/.test(error.message)
}

/** True when a row with the same unique values is there already. */
export function isDuplicate(error: unknown): boolean {
  return error instanceof Prisma.PrismaClientKnownRequestError && error.code === 'P2002'
}
