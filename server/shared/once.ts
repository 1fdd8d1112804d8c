import { createHash } from 'node:crypto'
import { isDuplicate, type Database, type Write } from './database/database.ts'
import { Problem } from './problems.ts'

/** What a write answers, kept so that a repeated request gets it again. */
export interface Answer {
  readonly status: number
  readonly location?: string
  readonly body?: unknown
}

/** A request as far as repeating it goes. */
export interface Asked {
  readonly key: string | null
  readonly personId: string
  readonly address: string
  readonly body: unknown
}

const LONGEST_KEY = 100
const KEPT_MS = 30 * 24 * 3600_000

/**
 * Runs a write once per key: the same request again gets the first answer, another request under
 * the same key is refused. The key is stored in the write's own transaction.
 */
export async function answerOnce(database: Database, asked: Asked, work: (write: Write) => Promise<Answer>): Promise<Answer> {
  const { key } = asked
  if (!key) return database.write(work)
  if (key.length > LONGEST_KEY) throw new Problem(400, 'Idempotency-Key too long', `Use at most ${LONGEST_KEY} characters.`)
  const bodyHash = hashOf(asked)
  try {
    return await database.write(async (write) => {
      const earlier = await write.idempotencyKey.findUnique({ where: { personId_key: { personId: asked.personId, key } } })
      if (earlier) return replay(earlier, bodyHash)
      const answer = await work(write)
      await write.idempotencyKey.create({
        data: {
          key, personId: asked.personId, bodyHash, status: answer.status, location: answer.location ?? '',
          body: JSON.stringify(answer.body ?? null), createdAt: new Date(),
        },
      })
      return answer
    })
  } catch (error) {
    if (isDuplicate(error)) return replayStored(database, asked, key, bodyHash, error)
    throw error
  }
}

// Another process took the key between our look and our write.
async function replayStored(database: Database, asked: Asked, key: string, bodyHash: string, error: unknown): Promise<Answer> {
  const earlier = await database.reads.idempotencyKey.findUnique({ where: { personId_key: { personId: asked.personId, key } } })
  if (!earlier) throw error
  return replay(earlier, bodyHash)
}

/** Forgets the answers of more than 30 days ago: nobody repeats a request after that. */
export async function forgetOldAnswers(database: Database, now: Date): Promise<number> {
  const createdAt = { lt: new Date(now.getTime() - KEPT_MS) }
  const { count } = await database.write((write) => write.idempotencyKey.deleteMany({ where: { createdAt } }))
  return count
}

function replay(earlier: { bodyHash: string; status: number; location: string; body: string }, bodyHash: string): Answer {
  if (earlier.bodyHash !== bodyHash) {
    throw new Problem(422, 'Key used before', 'This Idempotency-Key came with another request. Use a new key for a new request.')
  }
  return { status: earlier.status, location: earlier.location, body: JSON.parse(earlier.body) as unknown }
}

function hashOf(asked: Asked): string {
  const body = asked.body && typeof asked.body === 'object' ? withoutGuards(asked.body) : asked.body
  return createHash('sha256').update(writeOut([asked.address, body])).digest('hex')
}

function writeOut(body: unknown): string {
  try {
    return JSON.stringify(body)
  } catch (error) {
    if (error instanceof RangeError) throw new Problem(400, 'Not understood', 'The request is nested too deeply.')
    throw error
  }
}

// The form's guard against forgery differs from page to page and says nothing about the request.
const withoutGuards = (body: object): object => Object.fromEntries(Object.entries(body).filter(([name]) => name !== '_csrf'))
