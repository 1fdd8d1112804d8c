import type { FastifyReply, FastifyRequest } from 'fastify'
import { createHash } from 'node:crypto'
import { z } from 'zod'
import { loadShopFacts } from '../schedule/facts.ts'
import { printOf } from '../schedule/prints.ts'
import { loadPlanInForce } from '../schedule/planStore.ts'
import { shopOf } from '../shared/access.ts'
import { CALENDARS_AT } from '../shared/links/address.ts'
import { answerGone, guarded, OPENED_PER_ADDRESS } from '../shared/links/guarded.ts'
import type { App, Shell } from '../shared/shell.ts'
import { listEvents } from './events.ts'
import { writeCalendar } from './calendarText.ts'
import { findCalendarName, findOpenCalendar } from './store.ts'

const params = z.object({ file: z.string() })

/** Calendars that programs fetch again and again, known by their secret alone. Fetching one changes nothing. */
export function registerFeeds(app: App, { database: { reads }, clock }: Shell): void {
  const config = { roles: 'anyone', rateLimit: OPENED_PER_ADDRESS } as const

  app.get(`${CALENDARS_AT}:file`, { config, schema: { hide: true, params } }, async (request, reply) => {
    const secret = /^(.+)\.ics$/.exec(request.params.file)?.[1]
    const text = secret === undefined ? null : await draw(secret)
    return text === null ? answerGone(reply) : sendCalendar(request, reply, text)
  })

  // Whatever else begins so: too long, cut in the middle.
  app.get(`${CALENDARS_AT}*`, { config, schema: { hide: true } }, async (_, reply) => answerGone(reply))

  async function draw(secret: string): Promise<string | null> {
    const now = clock()
    const link = await findOpenCalendar(reads, secret, now)
    const name = link && await findCalendarName(reads, link)
    if (link === null || name === null) return null
    const [plan, shop] = [await loadPlanInForce(reads), await shopOf(reads)]
    const calendar = { name: shop.name === '' ? name : `${name}, ${shop.name}` }
    // Before any plan was taken the calendar is empty; its link was made then at the latest.
    if (plan === null) return writeCalendar({ ...calendar, takenAt: link.createdAt, isStale: false, events: [] })
    const isStale = printOf(await loadShopFacts(reads, now)) !== plan.print
    return writeCalendar({ ...calendar, takenAt: plan.takenAt, isStale, events: listEvents(plan.content, { kind: link.subjectKind, id: link.subjectId }, shop.timeZone) })
  }
}

// Weak, because what goes over the wire may be compressed (RFC 9110, 8.8.3).
function sendCalendar(request: FastifyRequest, reply: FastifyReply, text: string): FastifyReply {
  const tag = createHash('sha256').update(text).digest('base64url')
  guarded(reply).header('etag', `W/"${tag}"`).header('cache-control', 'private, no-cache')
  const known = (request.headers['if-none-match'] ?? '').split(',').map((one) => one.trim().replace(/^W\//, ''))
  if (known.includes(`"${tag}"`) || known.includes('*')) return reply.status(304).send()
  return reply.type('text/calendar; charset=utf-8').header('content-disposition', 'inline; filename="calendar.ics"').send(text)
}
