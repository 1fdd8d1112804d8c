import { z } from 'zod'
import type { Role, Viewer } from '../../web/shared/viewer.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { FieldProblems, forbidden, notFound } from '../shared/problems.ts'
import { isAtMost, ROLES } from '../shared/roles.ts'
import { hashOfSecret, newSecret, type Holder } from '../shared/session.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'

export const LONGEST_DAYS = 365
const LONGEST_NAME = 100
const DAY_MS = 24 * 3600_000

/** An access token without its secret, which nobody can read again. */
export interface TokenFacts {
  readonly id: string
  readonly name: string
  readonly role: Role
  readonly createdAt: Date
  readonly expiresAt: Date
  readonly revokedAt: Date | null
}

export interface TokenOrder {
  readonly name: string
  readonly role: Role
  readonly days: number
}

/** The roles that a person may give a token. */
export const rolesFor = (maker: Role): Role[] => ROLES.filter((role) => isAtMost(role, maker))

const given = z.object({ name: z.string(), role: z.string(), days: z.union([z.string(), z.number()]) }).partial()

/** What was typed or sent, checked. Throws FieldProblems. */
export function readOrder(body: unknown, viewer: Viewer): TokenOrder {
  const { name = '', role = '', days = '' } = given.catch({}).parse(body ?? {})
  const tidy = name.trim()
  const roles = rolesFor(viewer.role)
  const chosen = roles.find((each) => each === role)
  const count = typeof days === 'number' || /^\s*\d{1,4}\s*$/.test(days) ? Number(days) : NaN
  const problems: FieldProblem[] = []
  if (tidy === '' || tidy.length > LONGEST_NAME) problems.push({ field: 'name', message: `Name says what the token is for, in 1 to ${LONGEST_NAME} characters.` })
  if (!chosen) problems.push({ field: 'role', message: `Role is at most your own: ${roles.join(', ')}.` })
  if (!Number.isInteger(count) || count < 1 || count > LONGEST_DAYS) problems.push({ field: 'days', message: `Valid for 1 to ${LONGEST_DAYS} days.` })
  if (!chosen || problems.length > 0) throw new FieldProblems(problems)
  return { name: tidy, role: chosen, days: count }
}

/** A stolen token must not make itself a successor. */
export function refuseToken(holder: Holder | null): void {
  if (holder?.by === 'token') throw forbidden('Access tokens are made by a signed-in person, not by another token.')
}

/** Stores a token's hash and returns it with its secret, which is shown this once. */
export async function createToken(write: Write, order: TokenOrder, personId: string, actor: Actor): Promise<{ secret: string; token: TokenFacts }> {
  const secret = newSecret()
  const { name, role, days } = order
  const stored = await write.accessToken.create({
    data: {
      tokenHash: hashOfSecret(secret), name, role, personId, createdAt: actor.now, expiresAt: new Date(actor.now.getTime() + days * DAY_MS),
    },
    select: FACTS,
  })
  await audit(write, actor, { action: `made the access token “${name}” for a ${role}`, recordKind: 'person', recordId: personId })
  return { secret, token: toFacts(stored) }
}

/** Ends a token of one's own. Throws a 404 for anybody else's. */
export async function revokeToken(write: Write, id: string, personId: string, actor: Actor): Promise<TokenFacts> {
  const stored = await write.accessToken.findFirst({ where: { id, personId }, select: FACTS })
  if (!stored) throw notFound('access token')
  if (stored.revokedAt) return toFacts(stored)
  await write.accessToken.update({ where: { id }, data: { revokedAt: actor.now } })
  await audit(write, actor, { action: `revoked the access token “${stored.name}”`, recordKind: 'person', recordId: personId })
  return toFacts({ ...stored, revokedAt: actor.now })
}

export async function listTokens(reads: Reads, personId: string): Promise<TokenFacts[]> {
  const stored = await reads.accessToken.findMany({ where: { personId }, orderBy: { createdAt: 'desc' }, select: FACTS })
  return stored.map(toFacts)
}

const FACTS = { id: true, name: true, role: true, createdAt: true, expiresAt: true, revokedAt: true } as const

const toFacts = (stored: Omit<TokenFacts, 'role'> & { role: string }): TokenFacts => ({ ...stored, role: stored.role as Role })
