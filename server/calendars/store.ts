import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { forbidden, notFound } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import { hashOfSecret, newSecret } from '../shared/session.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { SUBJECT_KINDS, type SubjectKind } from './events.ts'

const DAY_MS = 24 * 3600_000

/** A link to a calendar without its secret, which nobody can read again. */
export interface CalendarLinkFacts {
  readonly id: string
  readonly subjectKind: SubjectKind
  readonly subjectId: string
  readonly note: string
  readonly createdAt: Date
  readonly createdById: string
  readonly expiresAt: Date
  readonly revokedAt: Date | null
}

export interface CalendarOrder {
  readonly subject: CalendarSubject
  readonly note: string
  readonly days: number
}

/** Whose days, which bay or which build. */
export interface CalendarSubject {
  readonly kind: SubjectKind
  readonly id: string
  readonly name: string
}

const FACTS = { id: true, subjectKind: true, subjectId: true, note: true, createdAt: true, createdById: true, expiresAt: true, revokedAt: true } as const
type Row = Omit<CalendarLinkFacts, 'subjectKind'> & { readonly subjectKind: string }

const toFacts = (row: Row): CalendarLinkFacts => ({ ...row, subjectKind: SUBJECT_KINDS.find((kind) => kind === row.subjectKind) ?? 'person' })

/** Everybody may have the own days; managers may have and end every calendar. */
export const mayHave = ({ role, personId }: Pick<Viewer, 'role' | 'personId'>, { kind, id }: Pick<CalendarSubject, 'kind' | 'id'>): boolean =>
  MANAGERS.includes(role) || (kind === 'person' && id === personId)

/** What this person may make a calendar of: the own days first, then people, bays and builds that are not delivered. */
export async function listSubjects(reads: Reads, viewer: Pick<Viewer, 'role' | 'personId'>): Promise<CalendarSubject[]> {
  const isManager = MANAGERS.includes(viewer.role)
  const people = await reads.person.findMany({ where: { removedAt: null, isActive: true, ...(isManager ? {} : { id: viewer.personId }) }, orderBy: [{ name: 'asc' }, { id: 'asc' }], select: { id: true, name: true } })
  const own = people.filter(({ id }) => id === viewer.personId)
  const persons = [...own, ...people.filter(({ id }) => id !== viewer.personId)].map(({ id, name }): CalendarSubject => ({ kind: 'person', id, name }))
  if (!isManager) return persons
  const [bays, builds] = await Promise.all([
    reads.bay.findMany({ where: { removedAt: null }, orderBy: [{ name: 'asc' }, { id: 'asc' }], select: { id: true, name: true } }),
    reads.build.findMany({ where: { removedAt: null, stage: { not: 'delivered' } }, orderBy: { number: 'desc' }, select: { id: true, number: true, title: true } }),
  ])
  return [
    ...persons, ...bays.map(({ id, name }): CalendarSubject => ({ kind: 'bay', id, name })),
    ...builds.map(({ id, number, title }): CalendarSubject => ({ kind: 'build', id, name: `${label('B', number)} ${title}` })),
  ]
}

/** What a calendar is called for whoever holds its link; null where there is no such person, bay or build any more. */
export async function findCalendarName(reads: Reads, { subjectKind, subjectId: id }: Pick<CalendarLinkFacts, 'subjectKind' | 'subjectId'>): Promise<string | null> {
  if (subjectKind === 'person') return (await reads.person.findFirst({ where: { id, removedAt: null, isActive: true }, select: { name: true } }))?.name ?? null
  if (subjectKind === 'bay') return (await reads.bay.findFirst({ where: { id, removedAt: null }, select: { name: true } }))?.name ?? null
  const build = await reads.build.findFirst({ where: { id, removedAt: null }, select: { number: true } })
  return build && label('B', build.number)
}

/** Stores a link’s hash and returns it with its secret, which is shown this once. */
export async function createCalendarLink(write: Write, { subject, note, days }: CalendarOrder, actor: Actor): Promise<{ secret: string, link: CalendarLinkFacts }> {
  const secret = newSecret()
  const expiresAt = new Date(actor.now.getTime() + days * DAY_MS)
  const link = await write.calendarLink.create({
    data: { subjectKind: subject.kind, subjectId: subject.id, note, tokenHash: hashOfSecret(secret), createdAt: actor.now, createdById: actor.personId ?? '', expiresAt }, select: FACTS,
  })
  await audit(write, actor, { action: `made a calendar link for ${note}, until ${expiresAt.toISOString().slice(0, 10)}`, recordKind: subject.kind, recordId: subject.id })
  return { secret, link: toFacts(link) }
}

/** Ends a link for good. Throws a 404 where there is none, 403 for those who may not have that calendar. */
export async function revokeCalendarLink(write: Write, id: string, viewer: Viewer, actor: Actor): Promise<CalendarLinkFacts> {
  const found = await write.calendarLink.findUnique({ where: { id }, select: FACTS })
  if (!found) throw notFound('link')
  const link = toFacts(found)
  if (!mayHave(viewer, { kind: link.subjectKind, id: link.subjectId })) throw forbidden('A calendar is withdrawn by a manager, or by the person whose days are in it.')
  if (link.revokedAt) return link
  await write.calendarLink.update({ where: { id }, data: { revokedAt: actor.now } })
  await audit(write, actor, { action: `withdrew the calendar link for ${link.note}`, recordKind: link.subjectKind, recordId: link.subjectId })
  return { ...link, revokedAt: actor.now }
}

const MOST_SHOWN = 200

/** The links this person may see, newest first, those that are over with them. */
export async function listCalendarLinks(reads: Reads, { role, personId }: Pick<Viewer, 'role' | 'personId'>): Promise<CalendarLinkFacts[]> {
  const where = MANAGERS.includes(role) ? {} : { subjectKind: 'person', subjectId: personId }
  return (await reads.calendarLink.findMany({ where, orderBy: [{ createdAt: 'desc' }, { id: 'desc' }], take: MOST_SHOWN, select: FACTS })).map(toFacts)
}

/** What the subjects of links are called, those with them that are gone. */
export async function listSubjectNames(reads: Reads, links: readonly CalendarLinkFacts[]): Promise<ReadonlyMap<string, string>> {
  const ids = (kind: SubjectKind) => ({ where: { id: { in: links.filter(({ subjectKind }) => subjectKind === kind).map(({ subjectId }) => subjectId) } } })
  const [people, bays, builds] = await Promise.all([
    reads.person.findMany({ ...ids('person'), select: { id: true, name: true } }), reads.bay.findMany({ ...ids('bay'), select: { id: true, name: true } }),
    reads.build.findMany({ ...ids('build'), select: { id: true, number: true, title: true } }),
  ])
  return new Map([...[...people, ...bays].map(({ id, name }) => [id, name] as const), ...builds.map(({ id, number, title }) => [id, `${label('B', number)} ${title}`] as const)])
}

/** The link that a secret opens now, or null; whatever the reason, nothing tells them apart. */
export async function findOpenCalendar(reads: Reads, secret: string, now: Date): Promise<CalendarLinkFacts | null> {
  const link = await reads.calendarLink.findUnique({ where: { tokenHash: hashOfSecret(secret) }, select: FACTS })
  return link === null || link.revokedAt !== null || link.expiresAt <= now ? null : toFacts(link)
}
