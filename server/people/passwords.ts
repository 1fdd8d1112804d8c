import { hash, verify } from '@node-rs/argon2'
import type { Config } from '../config.ts'
import { COMMON_PASSWORDS } from './commonPasswords.ts'

// OWASP Password Storage Cheat Sheet: Argon2id with 19 MiB of memory, two passes, one lane.
// Argon2id is the package's own default.
const COST = { memoryCost: 19_456, timeCost: 2, parallelism: 1 }

const SHORTEST = 8
const LONGEST = 64

/** What all of the demo shop's people sign in with. */
export const DEMO_PASSWORD = 'put-it-back'
const DEMO_MARK = 'demo:'
const LOOPBACK = ['127.0.0.1', 'localhost', '::1']

// The same letter typed on two keyboards may come as one sign or as two.
const plain = (password: string): string => password.normalize('NFKC')

export const hashPassword = (password: string): Promise<string> => hash(plain(password), COST)

/** A hash that signs in nobody but on the demo's own machine. */
export const hashDemoPassword = async (password = DEMO_PASSWORD): Promise<string> => DEMO_MARK + (await hashPassword(password))

export const isDemoHash = (stored: string): boolean => stored.startsWith(DEMO_MARK)

/** True where the demo's known sign-ins may be used: the demo itself, out of reach of the network. */
export const isDemoOpen = ({ isDemo, host }: Pick<Config, 'isDemo' | 'host'>): boolean => isDemo && LOOPBACK.includes(host)

let standIn: Promise<string> | undefined

/**
 * Compares a password with a stored hash. Without a hash it compares with a stand-in, so that the
 * answer takes as long for a name that nobody has.
 */
export async function isPassword(stored: string, typed: string, withDemo: boolean): Promise<boolean> {
  const own = isDemoHash(stored) ? stored.slice(DEMO_MARK.length) : stored
  standIn ??= hashPassword('nobody has this one')
  const isRight = await verify(own === '' ? await standIn : own, plain(typed))
  return isRight && own !== '' && (withDemo || !isDemoHash(stored))
}

/** Why a password cannot be taken, in words, or null. */
export function findFault(password: string, signInName: string): string | null {
  const length = [...plain(password)].length
  if (length < SHORTEST) return `A password has ${SHORTEST} characters or more. Take a few words that you remember.`
  if (length > LONGEST) return `A password has ${LONGEST} characters at most; this has ${length.toLocaleString('en-US')}. Shorten it.`
  const known = plain(password).trim().toLowerCase()
  if (known === '') return 'A password of spaces alone is too easily guessed.'
  if (known === signInName.toLowerCase()) return 'A password differs from the sign-in name.'
  if (COMMON_PASSWORDS.has(known)) return 'This password is among the first that a guesser tries. Take another.'
  return null
}
