import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { SignInPage, type SignInData } from '../../web/people/signIn.tsx'
import { shopOf } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { closeSessions } from '../shared/session.ts'
import type { App, Shell } from '../shared/shell.ts'
import { beginSession, giveCookie, goTo, localPath, startOf, takeCookie } from './entry.ts'
import { DEMO_PASSWORD, isDemoHash, isDemoOpen, isPassword } from './passwords.ts'
import { findAccount, hasPeople, listAccounts, type Account } from './store.ts'
import { PER_ADDRESS, WINDOW_MINUTES, type Throttle } from './throttle.ts'

const WRONG = 'This sign-in name and password do not go together. Try again, or ask for a one-time code.'
const TOO_MANY = `Too many wrong tries under this sign-in name. Wait ${WINDOW_MINUTES} minutes, or ask for a one-time code.`

const wayOn = z.object({ to: z.string().max(2000).optional() })
const credentials = z.object({ signInName: z.string().max(200).default(''), password: z.string().default('') })

export function registerSignIn(app: App, shell: Shell, throttle: Throttle): void {
  const { database } = shell
  const hidden = { hide: true }

  app.get('/', { config: { roles: 'anyone' }, schema: hidden }, async (request, reply) => {
    if (request.viewer) return goTo(reply, startOf(request.viewer))
    return goTo(reply, (await hasPeople(database.reads)) ? '/sign-in' : '/first-owner')
  })

  app.get('/sign-in', { config: { roles: 'anyone' }, schema: { ...hidden, querystring: wayOn } }, async (request, reply) => {
    const to = localPath(request.query.to)
    if (request.viewer) return goTo(reply, to ?? startOf(request.viewer))
    return sendPage(reply, SignInPage({ data: await signInData(shell, to, '') }))
  })

  app.post('/sign-in', {
    config: { roles: 'anyone', rateLimit: PER_ADDRESS }, schema: { ...hidden, querystring: wayOn, body: credentials },
  }, async (request, reply) => {
    const to = localPath(request.query.to)
    const signInName = request.body.signInName.trim().toLowerCase()
    const refuse = async (status: number, words: string): Promise<FastifyReply> =>
      sendPage(reply.status(status), SignInPage({ data: await signInData(shell, to, signInName, words) }))
    if (!throttle.take(signInName, shell.clock())) {
      request.log.warn({ event: 'sign-in throttled' }, 'refused')
      reply.header('retry-after', String(WINDOW_MINUTES * 60))
      return refuse(429, TOO_MANY)
    }
    const account = await accountWith(request, shell, signInName, request.body.password)
    if (!account) return refuse(401, WRONG)
    throttle.forget(signInName)
    giveCookie(reply, shell, await database.write((write) => beginSession(write, request, shell, account.id)))
    request.log.info({ event: 'signed in', personId: account.id }, 'signed in')
    return goTo(reply, to ?? startOf(account))
  })

  app.post('/sign-out', { config: { roles: 'anyone' }, schema: hidden }, async (request, reply) => {
    const { holder } = request
    if (holder?.by === 'session') {
      await database.write((write) => closeSessions(write, { id: holder.sessionId }))
      request.log.info({ event: 'signed out', personId: holder.personId }, 'signed out')
    }
    takeCookie(reply, shell)
    return goTo(reply, '/sign-in')
  })
}

/** The person whom name and password fit together; null tells no one which of the two was wrong. */
async function accountWith(request: FastifyRequest, shell: Shell, signInName: string, password: string): Promise<Account | null> {
  const account = await findAccount(shell.database.reads, { signInName })
  const isRight = await isPassword(account?.passwordHash ?? '', password, isDemoOpen(shell.config))
  if (account && isRight && account.maySignIn) return account
  // A name that nobody has may be a password typed in the wrong place, so it is not logged.
  request.log.warn({ event: 'sign-in refused', ...(account ? { personId: account.id } : {}) }, 'refused')
  return null
}

async function signInData({ database, config }: Shell, to: string | null, signInName: string, refused?: string): Promise<SignInData> {
  const shop = await shopOf(database.reads)
  const accounts = isDemoOpen(config) ? await listAccounts(database.reads) : []
  const known = accounts.filter((account) => account.maySignIn && isDemoHash(account.passwordHash))
  return {
    shopName: shop.name, signInName, to,
    ...(refused === undefined ? {} : { refused }),
    ...((await hasPeople(database.reads)) ? {} : { firstOwnerHref: '/first-owner' }),
    ...(known.length === 0 ? {} : { demo: { password: DEMO_PASSWORD, people: known } }),
  }
}
