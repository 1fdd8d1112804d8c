import type { FastifyRequest } from 'fastify'
import { z } from 'zod'
import { SHARED_AT } from '../shared/links/address.ts'
import { answerGone, guarded, OPENED_PER_ADDRESS } from '../shared/links/guarded.ts'
import { findSharedPage, type Opened, type SharedPage } from '../shared/links/sharedPages.ts'
import { sendPage } from '../shared/pages.ts'
import { readPicture } from '../shared/photos/reading.ts'
import { photoFilesOf } from '../shared/photos/taking.ts'
import type { App, Shell } from '../shared/shell.ts'
import { findOpenLink } from './store.ts'

/** What is sent, which people do a few times. */
const SENT_PER_ADDRESS = { max: 30, timeWindow: 60_000 }

const secret = z.object({ token: z.string() })
const photo = z.object({ token: z.string(), hash: z.string() })
const file = z.object({ token: z.string(), name: z.string() })
const deed = z.object({ token: z.string(), deed: z.string() })
const deedBody = z.looseObject({})
const sizeQuery = z.object({ size: z.enum(['small']).optional().catch(undefined) })

/** What stands behind links without sign-in. A GET changes nothing: mail scanners open links too. */
export function registerOpenLinks(app: App, shell: Shell): void {
  const config = { roles: 'anyone', rateLimit: OPENED_PER_ADDRESS } as const

  app.get('/l/:token', { config, schema: { hide: true, params: secret } }, async (request, reply) => {
    const found = await open(request, request.params.token)
    const page = found && await found.page.draw(found.opened)
    return page ? sendPage(guarded(reply), page) : answerGone(reply)
  })

  app.get('/l/:token/photos/:hash', { config, schema: { hide: true, params: photo, querystring: sizeQuery } }, async (request, reply) => {
    const found = await open(request, request.params.token)
    const isShown = found && (await found.page.photoHashes(found.opened)).includes(request.params.hash)
    const data = isShown ? await readPicture(photoFilesOf(shell), request.params.hash, request.query.size ?? 'large') : null
    return data ? guarded(reply).type('image/jpeg').header('content-disposition', 'inline').send(data) : answerGone(reply)
  })

  app.get('/l/:token/files/:name', { config, schema: { hide: true, params: file } }, async (request, reply) => {
    const found = await open(request, request.params.token)
    const made = found && await found.page.file?.(found.opened, request.params.name)
    if (!made) return answerGone(reply)
    return guarded(reply).type(made.type).header('content-disposition', `inline; filename="${made.name.replaceAll(/[^\w. -]/g, '')}"`).send(made.data)
  })

  // Whoever holds the link is known by it alone: no cookie counts here, so no other site can borrow one.
  app.post('/l/:token/:deed', { config: { roles: 'anyone', rateLimit: SENT_PER_ADDRESS }, schema: { hide: true, params: deed, body: deedBody } }, async (request, reply) => {
    const found = await open(request, request.params.token)
    const told = found && await found.page.deeds?.get(request.params.deed)?.(found.opened, request.body)
    if (!told) return answerGone(reply)
    return told === 'done' ? guarded(reply).redirect(`${SHARED_AT}${request.params.token}`, 303) : sendPage(guarded(reply.status(told.status)), told.page)
  })

  // Whatever else begins so: too long, too short, cut in the middle.
  app.get('/l/*', { config, schema: { hide: true } }, async (_, reply) => answerGone(reply))

  async function open(request: FastifyRequest, token: string): Promise<{ page: SharedPage, opened: Opened } | null> {
    const link = await findOpenLink(shell.database.reads, token, shell.clock())
    const page = link && findSharedPage(link.subjectKind)
    if (!link || !page) return null
    const { id: linkId, buildId, subjectId } = link
    return { page, opened: { shell, request, reads: shell.database.reads, linkId, buildId, subjectId, base: `${SHARED_AT}${token}` } }
  }
}
