import { CSRF } from './csrf.ts'
import { createHash, randomBytes } from 'node:crypto'
import type { Role, Theme, Units } from '../../web/shared/viewer.ts'
import type { Database, Reads, Write } from './database/database.ts'
import { StorageBusy } from './problems.ts'
import { isAtMost } from './roles.ts'

export const SESSION_COOKIE = (isSecure: boolean): string => (isSecure ? '__Host-putback' : 'putback')
const IDLE_MS = 12 * 3600_000
export const LONGEST_SESSION_MS = 7 * 24 * 3600_000
const SEEN_EVERY_MS = 5 * 60_000

/** The person behind a request, by session or by access token. */
export interface Holder {
  readonly by: 'session' | 'token'
  readonly sessionId: string
  readonly personId: string
  readonly name: string
  readonly role: Role
  readonly units: Units
  readonly theme: Theme
  readonly csrfToken: string
  isGenuine(csrfToken: string): boolean
}

export const newSecret = (): string => randomBytes(32).toString('base64url')
export const hashOfSecret = (secret: string): string => createHash('sha256').update(secret).digest('hex')

/** Opens a session and returns the secret for the cookie; only its hash is stored. */
export async function openSession(write: Write, personId: string, now: Date, theme: Theme = 'system'): Promise<string> {
  const secret = newSecret()
  await write.session.deleteMany({ where: { expiresAt: { lte: now } } })
  await write.session.create({
    data: {
      tokenHash: hashOfSecret(secret), csrfSecret: CSRF.secretSync(), personId, theme,
      createdAt: now, seenAt: now, expiresAt: new Date(now.getTime() + LONGEST_SESSION_MS),
    },
  })
  return secret
}

export async function readSession(database: Database, secret: string, now: Date): Promise<Holder | null> {
  const session = await database.reads.session.findUnique({
    where: { tokenHash: hashOfSecret(secret) },
    select: {
      id: true, csrfSecret: true, seenAt: true, expiresAt: true, theme: true,
      person: { select: { id: true, name: true, role: true, units: true, isActive: true, removedAt: true } },
    },
  })
  if (!session || !session.person.isActive || session.person.removedAt) return null
  const idle = now.getTime() - session.seenAt.getTime()
  if (session.expiresAt <= now || idle > IDLE_MS) return null
  if (idle > SEEN_EVERY_MS) await noteSeen(database, session.id, now)
  const { person, csrfSecret } = session
  return {
    by: 'session', sessionId: session.id, personId: person.id, name: person.name, role: person.role as Role,
    units: person.units as Units, theme: session.theme as Theme, csrfToken: CSRF.create(csrfSecret),
    isGenuine: (token) => CSRF.verify(csrfSecret, token),
  }
}

// Who only looks is not refused because the records are busy: the next request notes it.
async function noteSeen(database: Database, id: string, now: Date): Promise<void> {
  try {
    await database.write((write) => write.session.updateMany({ where: { id }, data: { seenAt: now } }))
  } catch (error) {
    if (!(error instanceof StorageBusy)) throw error
  }
}

export async function holderOfToken(reads: Reads, secret: string, now: Date): Promise<Holder | null> {
  const token = await reads.accessToken.findUnique({
    where: { tokenHash: hashOfSecret(secret) },
    select: {
      role: true, expiresAt: true, revokedAt: true,
      person: { select: { id: true, name: true, role: true, units: true, isActive: true, removedAt: true } },
    },
  })
  if (!token || token.revokedAt || token.expiresAt <= now) return null
  const { person } = token
  if (!person.isActive || person.removedAt) return null
  // Made before its maker got a lesser role.
  if (!isAtMost(token.role as Role, person.role as Role)) return null
  return {
    by: 'token', sessionId: '', personId: person.id, name: person.name, role: token.role as Role,
    units: person.units as Units, theme: 'system', csrfToken: '', isGenuine: () => true,
  }
}

export async function closeSessions(write: Write, where: { id: string } | { personId: string }): Promise<void> {
  await write.session.deleteMany({ where })
}
