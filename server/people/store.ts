import type { Reads, Write } from '../shared/database/database.ts'
import type { Role } from '../../web/shared/viewer.ts'

/** A person as far as signing in goes. */
export interface Account {
  readonly id: string
  readonly name: string
  readonly signInName: string
  readonly role: Role
  readonly passwordHash: string
  readonly codeHash: string
  readonly codeUntil: Date | null
  /** Neither disabled nor removed. */
  readonly maySignIn: boolean
}

const ACCOUNT = {
  id: true, name: true, signInName: true, role: true, passwordHash: true, codeHash: true, codeUntil: true, isActive: true, removedAt: true,
} as const

type Stored = Omit<Account, 'role' | 'maySignIn'> & { role: string; isActive: boolean; removedAt: Date | null }

function toAccount({ isActive, removedAt, role, ...rest }: Stored): Account {
  return { ...rest, role: role as Role, maySignIn: isActive && !removedAt }
}

export async function findAccount(client: Reads | Write, by: { signInName: string } | { id: string }): Promise<Account | null> {
  const stored = await client.person.findUnique({ where: by, select: ACCOUNT })
  return stored ? toAccount(stored) : null
}

export async function hasPeople(client: Reads | Write): Promise<boolean> {
  return (await client.person.findFirst({ select: { id: true } })) !== null
}

/** All who may sign in, by sign-in name. */
export async function listAccounts(reads: Reads): Promise<Account[]> {
  const stored = await reads.person.findMany({ where: { removedAt: null }, orderBy: { signInName: 'asc' }, select: ACCOUNT })
  return stored.map(toAccount)
}

/** The names of each person's skills, by the person's id. */
export async function skillsOfPeople(reads: Reads): Promise<ReadonlyMap<string, readonly string[]>> {
  const people = await reads.person.findMany({
    select: { id: true, skills: { select: { skill: { select: { name: true } } }, orderBy: { skill: { name: 'asc' } } } },
  })
  return new Map(people.map((person) => [person.id, person.skills.map(({ skill }) => skill.name)]))
}

export async function storeCode(write: Write, personId: string, codeHash: string, codeUntil: Date): Promise<void> {
  await write.person.update({ where: { id: personId }, data: { codeHash, codeUntil } })
}

/** Puts a password in the place of a code; false when the code was used or replaced meanwhile. */
export async function redeemCode(write: Write, account: Account, passwordHash: string): Promise<boolean> {
  const { count } = await write.person.updateMany({
    where: { id: account.id, codeHash: account.codeHash, NOT: { codeHash: '' } },
    data: { passwordHash, codeHash: '', codeUntil: null },
  })
  return count === 1
}

export async function storePassword(write: Write, personId: string, passwordHash: string): Promise<void> {
  await write.person.update({ where: { id: personId }, data: { passwordHash, codeHash: '', codeUntil: null } })
}
