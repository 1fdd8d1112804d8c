import type { FastifyReply, FastifyRequest } from 'fastify'
import { randomUUID } from 'node:crypto'
import { z } from 'zod'
import { MePage, type MeData } from '../../web/people/me.tsx'
import type { TokenRow } from '../../web/people/tokens.tsx'
import { writeDay } from '../../web/shared/day.ts'
import { shopOf, viewerOn } from '../shared/access.ts'
import { audit } from '../shared/audit.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, invalid, Problem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import { changeRecord, getRecord } from '../shared/records/table.ts'
import { EVERYBODY } from '../shared/roles.ts'
import { closeSessions } from '../shared/session.ts'
import type { App, Shell } from '../shared/shell.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import { beginSession, giveCookie, goTo, keepTheme } from './entry.ts'
import { findFault, hashPassword, isDemoOpen, isPassword } from './passwords.ts'
import { person } from './records.ts'
import { findAccount, storePassword } from './store.ts'
import { WINDOW_MINUTES, type Throttle } from './throttle.ts'
import { createToken, listTokens, LONGEST_DAYS, readOrder, revokeToken, rolesFor, type TokenFacts } from './tokens.ts'

const THEMES = ['system', 'light', 'dark'] as const
const SAVED = { preferences: 'how your pages are written', password: 'your new password; your other sessions are ended', revocation: 'the token, revoked' } as const

const savedQuery = z.object({ saved: z.enum(['preferences', 'password', 'revocation']).optional() })
const preferences = z.looseObject({ units: z.enum(['metric', 'inch']), theme: z.enum(THEMES) })
const typedOrder = z.object({ name: z.string().catch(''), role: z.string().catch(''), days: z.string().catch('') })
const passwords = z.looseObject({ present: z.string().default(''), password: z.string().default('') })

/** A person's own page: how figures read, the password, access tokens. */
export function registerMe(app: App, shell: Shell, throttle: Throttle): void {
  const { database } = shell
  const config = { roles: EVERYBODY }

  app.get('/me', { config, schema: { hide: true, querystring: savedQuery } }, async (request, reply) => {
    const { saved } = request.query
    return show(request, reply, saved ? { saved: SAVED[saved] } : {})
  })

  app.post('/me/preferences', { config, schema: { hide: true, body: preferences } }, async (request, reply) => {
    const { units, theme } = request.body
    const { personId } = viewerOn(request)
    await answerOnce(database, askedOf(request), async (write) => {
      const { version } = await getRecord(write, person, personId)
      await changeRecord(write, person, personId, version, { values: { units }, entered: {} }, actorOf(request, shell))
      await write.session.updateMany({ where: { id: request.holder?.sessionId ?? '' }, data: { theme } })
      return { status: 303 }
    })
    keepTheme(reply, shell, theme)
    return goTo(reply, '/me?saved=preferences')
  })

  // Not kept for repeated requests: what is kept of those would be a weaker hash of the password.
  app.post('/me/password', { config, schema: { hide: true, body: passwords } }, async (request, reply) => {
    try {
      giveCookie(reply, shell, await changePassword(request, request.body))
    } catch (error) {
      if (error instanceof FieldProblems) return show(request, reply.status(422), { problems: error.fields })
      throw error
    }
    request.log.info({ event: 'password changed', personId: viewerOn(request).personId }, 'password changed')
    return goTo(reply, '/me?saved=password')
  })

  app.post('/me/tokens', { config, schema: { hide: true } }, async (request, reply) => {
    const viewer = viewerOn(request)
    try {
      const order = readOrder(request.body, viewer)
      let secret: string | null = null
      await answerOnce(database, askedOf(request), async (write) => {
        secret = (await createToken(write, order, viewer.personId, actorOf(request, shell))).secret
        return { status: 200 }
      })
      return await show(request, reply, { made: { name: order.name, secret } })
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return show(request, reply.status(422), { problems: error.fields, typed: typedOrder.parse(request.body ?? {}) })
    }
  })

  app.post('/me/tokens/:id/revocation', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    await answerOnce(database, askedOf(request), async (write) => {
      await revokeToken(write, request.params.id, viewerOn(request).personId, actorOf(request, shell))
      return { status: 303 }
    })
    return goTo(reply, '/me?saved=revocation')
  })

  async function changePassword(request: FastifyRequest, { present, password }: z.infer<typeof passwords>): Promise<string> {
    const account = await findAccount(database.reads, { id: viewerOn(request).personId })
    if (!account) throw new Problem(401, 'Sign in first', 'The session has ended.')
    if (!throttle.take(account.signInName, shell.clock())) throw invalid('present', `Too many wrong tries. Wait ${WINDOW_MINUTES} minutes.`)
    if (!(await isPassword(account.passwordHash, present, isDemoOpen(shell.config)))) throw invalid('present', 'This is not your present password.')
    throttle.forget(account.signInName)
    const fault = findFault(password, account.signInName)
    if (fault !== null) throw invalid('password', fault)
    const passwordHash = await hashPassword(password)
    return database.write(async (write) => {
      await storePassword(write, account.id, passwordHash)
      await closeSessions(write, { personId: account.id })
      await audit(write, actorOf(request, shell), { action: 'changed the password', recordKind: 'person', recordId: account.id })
      return beginSession(write, request, shell, account.id)
    })
  }

  async function show(request: FastifyRequest, reply: FastifyReply, state: Pick<MeData, 'saved' | 'made' | 'typed' | 'problems'>): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    const { timeZone } = await shopOf(database.reads)
    const tokens = await listTokens(database.reads, viewer.personId)
    const data: MeData = {
      ...state, roles: rolesFor(viewer.role), longestDays: LONGEST_DAYS, tokens: tokens.map((token) => toRow(token, timeZone, shell.clock())),
      keys: { preferences: randomUUID(), token: randomUUID() },
    }
    return sendPage(reply, MePage({ viewer, data }))
  }
}

function toRow({ id, name, role, expiresAt, revokedAt }: TokenFacts, timeZone: string, now: Date): TokenRow {
  const state = revokedAt ? 'revoked' : expiresAt <= now ? 'expired' : 'in use'
  return { id, name, role, until: writeDay(calendarDateIn(timeZone, expiresAt)), state, key: randomUUID() }
}
