import type { FastifyReply } from 'fastify'
import { LinkGonePage } from '../../../web/shared/linkGone.tsx'
import { sendPage } from '../pages.ts'

/** What stands behind a link, with its pictures, opened a few times a minute; a household stands behind one address. */
export const OPENED_PER_ADDRESS = { max: 300, timeWindow: 60_000 }

/** The address must not travel: not to other sites, not into a search engine, not into a cache on the way. */
export const guarded = (reply: FastifyReply): FastifyReply =>
  reply.header('referrer-policy', 'no-referrer').header('x-robots-tag', 'noindex, nofollow').header('cache-control', 'no-store')

/** The same answer for links that never were, have run out, or were withdrawn. */
export const answerGone = (reply: FastifyReply): FastifyReply => sendPage(guarded(reply.status(404)), LinkGonePage())
