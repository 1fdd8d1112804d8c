import { randomUUID } from 'node:crypto'
import type { LinksData } from '../../web/links/links.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { LinkRow } from '../../web/shared/linkTable.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { listSharedPages } from '../shared/links/sharedPages.ts'
import { nameOf } from '../shared/records/display.ts'
import { getKind } from '../shared/records/kind.ts'
import { getRecord } from '../shared/records/table.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import { listOffered, USUAL_DAYS, valueOf, type Given } from './orders.ts'
import { listLinks, listMakers, mayManage, type LinkFacts } from './store.ts'

/** In use, over or withdrawn. */
export const stateOf = ({ expiresAt, revokedAt }: Pick<LinkFacts, 'expiresAt' | 'revokedAt'>, now: Date): LinkRow['state'] => (revokedAt ? 'withdrawn' : expiresAt <= now ? 'expired' : 'open')

type State = Pick<LinksData, 'made' | 'problems' | 'isWithdrawn'> & { readonly typed?: Given }

/** The links of a build and what can be shared of it. Throws a 404 where there is no such build. */
export async function linksData(reads: Reads, buildId: string, viewer: Viewer, now: Date, { typed, ...state }: State = {}): Promise<LinksData> {
  const build = getKind('build')
  const row = await getRecord(reads, build, buildId)
  const [offered, links, { timeZone }] = await Promise.all([listOffered(reads, buildId, viewer), listLinks(reads, buildId), shopOf(reads)])
  const [makers, names] = await Promise.all([listMakers(reads, links), namesOf(reads, buildId)])
  const dayOf = (at: Date): string => writeDay(calendarDateIn(timeZone, at))
  return {
    ...state, trail: [{ name: nameOf(build, row), href: `/builds/${buildId}` }, { name: 'Links' }], number: nameOf(build, row).split(' ')[0] ?? '',
    action: `/builds/${buildId}/links`, key: randomUUID(), usualDays: USUAL_DAYS,
    offered: offered.map((one) => ({ value: valueOf(one), label: `${one.name} (at most ${one.page.longestDays} days)` })),
    typed: { subject: typed?.subject ?? '', note: typed?.note ?? '', days: String(typed?.days ?? USUAL_DAYS) },
    links: links.map((link) => ({
      id: link.id, to: names.get(`${link.subjectKind}:${link.subjectId}`) ?? `${link.subjectKind}, no longer there`, forWhom: link.note,
      made: `${dayOf(link.createdAt)}, ${makers.get(link.createdById) ?? 'somebody'}`, until: dayOf(link.expiresAt), state: stateOf(link, now),
      key: stateOf(link, now) === 'open' && mayManage(link, viewer.role) ? randomUUID() : null,
    })),
  }
}

async function namesOf(reads: Reads, buildId: string): Promise<ReadonlyMap<string, string>> {
  const lists = await Promise.all(listSharedPages().map(async ({ subjectKind, list }) => (await list(reads, buildId)).map(({ id, name }) => [`${subjectKind}:${id}`, name] as const)))
  return new Map(lists.flat())
}
