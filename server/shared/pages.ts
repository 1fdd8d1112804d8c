import type { FastifyReply } from 'fastify'
import { toHtml } from '../../web/shared/page.ts'

/** Answers with a drawn page; pages show people's records and are never kept by caches on the way. */
export function sendPage(reply: FastifyReply, page: JSX.Element): FastifyReply {
  return reply.type('text/html; charset=utf-8').header('cache-control', 'no-store').send(toHtml(page))
}
