import { z } from 'zod'
import { SearchPage, type SearchData } from '../../web/search/search.tsx'
import { capital } from '../../web/shared/text.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { findEverywhere, SHOWN_AT_ONCE, type FoundGroup, type Results } from './results.ts'

const MOST_PAGES = 1_000

const query = z.object({
  find: z.string().trim().catch('').describe('Words, numbers as F-021, part of a serial number or the end of a VIN'),
  kind: z.string().max(40).optional().catch(undefined).describe('The address of one kind of record, as factory-parts; all of them without it'),
  page: z.coerce.number().int().min(1).max(MOST_PAGES).catch(1).describe(`${SHOWN_AT_ONCE} of a kind stand on one page`),
})

const foundSchema = z.object({
  id: z.string(), number: z.string(), name: z.string(), build: z.object({ id: z.string(), name: z.string() }).nullable(),
  foundIn: z.array(z.object({ field: z.string(), text: z.string() })),
})
const answerSchema = z.object({
  note: z.string().describe('Why nothing was looked for or found, in words; else empty'),
  groups: z.array(z.object({
    kind: z.string(), path: z.string(), total: z.int(), isCapped: z.boolean().describe('There may be more than were counted'),
    next: z.int().nullable().describe('The page after this one'), items: z.array(foundSchema),
  })),
})

/** Looking for anything, by number, name or serial number. */
export function registerSearch(app: App, shell: Shell): void {
  const { reads } = shell.database

  app.get('/search', { config: { roles: EVERYBODY }, schema: { hide: true, querystring: query } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { find, kind, page } = request.query
    const results = await findEverywhere(reads, viewer.role, { find, kindPath: kind, page })
    return sendPage(reply, SearchPage({ viewer, data: toPage(results, { find, kind, page }) }))
  })

  app.get('/api/search', {
    config: { roles: EVERYBODY },
    schema: { tags: ['search'], summary: 'Find records by number, name, serial number or VIN', querystring: query, response: { 200: answerSchema, ...problemAnswers } },
  }, async (request) => {
    const { find, kind, page } = request.query
    const { note, groups } = await findEverywhere(reads, viewerOn(request).role, { find, kindPath: kind, page })
    return {
      note,
      groups: groups.map(({ kind: { name, path }, total, isCapped, next, found }) => ({
        kind: name, path, total, isCapped, next,
        items: found.map(({ id, number, name: called, build, foundIn }) => ({ id, number, name: called, build, foundIn: [...foundIn] })),
      })),
    }
  })
}

type Query = z.infer<typeof query>

function toPage({ note, groups }: Results, { find, kind, page }: Query): SearchData {
  return {
    find, note,
    allHref: kind === undefined ? null : `/search?${new URLSearchParams({ find }).toString()}`,
    groups: groups.map((group) => ({
      title: capital(group.kind.plural), count: countOf(group), rows: group.found,
      first: (page - 1) * SHOWN_AT_ONCE + 1,
      moreHref: group.next === null ? null : hrefOf(find, group, group.next),
      backHref: page > 1 ? hrefOf(find, group, page - 1) : null,
    })),
  }
}

const countOf = ({ total, isCapped }: FoundGroup): string => (isCapped ? `${total} or more` : String(total))

const hrefOf = (find: string, { kind }: FoundGroup, page: number): string =>
  `/search?${new URLSearchParams({ find, kind: kind.path, page: String(page) }).toString()}`
