import type { Write } from '../shared/database/database.ts'
import { invalid } from '../shared/problems.ts'
import { check, checks, choice, clock, references, text } from '../shared/records/field.ts'
import { defineKind, type Draft, type Values } from '../shared/records/kind.ts'
import { MANAGERS, ROLES } from '../shared/roles.ts'
import { closeSessions } from '../shared/session.ts'
import { checkHours, WEEKDAY_WORDS, WEEKDAYS } from '../shared/weekdays.ts'

export const person = defineKind({
  name: 'person', plural: 'people', path: 'people', model: 'person', place: 'people', isOfBuild: false,
  hasOwnPage: true, hasOwnList: true, knownBy: ['signInName'],
  fields: {
    name: text('Name', { isRequired: true }),
    signInName: text('Sign-in name', { isRequired: true, isListed: true, note: 'Small letters, digits and dots: r.fennick.' }),
    role: choice('Role', ROLES, { isListed: true, initial: 'technician', note: 'A technician sees no cost, margin, rate or customer contact; delivery sees no rates.' }),
    skills: references('Skills', 'skill', { model: 'personSkill', own: 'personId', other: 'skillId' }),
    units: choice('Units', ['metric', 'inch'], { isRequired: false, initial: '', note: 'Left open: those of the shop.' }),
    workdays: checks('Working days', WEEKDAYS, { words: WEEKDAY_WORDS, note: 'For the schedule. None chosen: those of the shop.' }),
    startsAt: clock('Starts', { note: 'As 9:00, where it is not as the shop opens.' }),
    endsAt: clock('Goes home'),
    isActive: check('May sign in', { isListed: true, initial: true }),
  },
  seenBy: MANAGERS, changedBy: MANAGERS, title: (row) => String(row.name), orderBy: [{ name: 'asc' }],
  check: checkPerson,
  after: async (write, row) => {
    if (!row.isActive) await closeSessions(write, { personId: row.id })
  },
  holds: async (reads, row) => {
    const others = await reads.person.count({ where: { role: 'owner', isActive: true, removedAt: null, id: { not: row.id } } })
    return row.role === 'owner' && others === 0 ? 'This is the only owner who may sign in. Make another owner first.' : null
  },
  firstStep: { why: 'Hours are logged by people.', example: 'A technician with the skills wiring and disassembly.' },
})

export const SIGN_IN_NAME_RULE = 'Sign-in name is 2 to 39 small letters, digits, dots or hyphens, and begins with a letter or digit.'
export const isSignInName = (text: string): boolean => /^[a-z0-9][a-z0-9.-]{1,38}$/.test(text)

async function checkPerson(write: Write, { id, before, values, actor }: Draft): Promise<Values> {
  checkHours(values, { from: 'startsAt', to: 'endsAt' })
  const signInName = String(values.signInName)
  if (!isSignInName(signInName)) throw invalid('signInName', SIGN_IN_NAME_RULE)
  const same = await write.person.findUnique({ where: { signInName }, select: { id: true } })
  if (same && same.id !== id) throw invalid('signInName', 'Somebody has this sign-in name already. Choose another.')
  const maker = await write.person.findUnique({ where: { id: actor.personId ?? '' }, select: { role: true } })
  if (maker && maker.role !== 'owner' && (values.role === 'owner' || before?.role === 'owner')) {
    throw invalid('role', 'Only an owner makes or changes an owner.')
  }
  const losesOwner = before?.role === 'owner' && (values.role !== 'owner' || values.isActive === false)
  if (losesOwner) {
    const others = await write.person.count({ where: { role: 'owner', isActive: true, removedAt: null, id: { not: id ?? '' } } })
    if (others === 0) throw invalid('role', 'This is the only owner who may sign in. Make another owner first.')
  }
  const shop = values.units ? null : await write.shop.findFirst({ select: { units: true } })
  return { units: values.units || (shop?.units ?? 'metric') }
}
