import type { FastifyReply } from 'fastify'
import { z } from 'zod'
import { NewPasswordPage } from '../../web/people/newPassword.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { audit } from '../shared/audit.ts'
import { sendPage } from '../shared/pages.ts'
import { closeSessions } from '../shared/session.ts'
import type { App, Shell } from '../shared/shell.ts'
import { isCode } from './codes.ts'
import { actorBefore, beginSession, giveCookie, goTo, startOf } from './entry.ts'
import { findFault, hashPassword } from './passwords.ts'
import { findAccount, redeemCode, type Account } from './store.ts'
import { PER_ADDRESS, WINDOW_MINUTES, type Throttle } from './throttle.ts'

const WRONG = 'This sign-in name and code do not go together, or the code was used or is too old. Ask for a new one.'
const TOO_MANY = `Too many wrong tries under this sign-in name. Wait ${WINDOW_MINUTES} minutes.`

const line = z.string().trim().max(200).default('')
const entries = z.object({ signInName: line, code: line, password: z.string().default('') })

/** The way in with a one-time code: a new password, once. */
export function registerNewPassword(app: App, shell: Shell, throttle: Throttle): void {
  const { database } = shell

  app.get('/new-password', { config: { roles: 'anyone' }, schema: { hide: true } }, async (_request, reply) => show(reply, ''))

  app.post('/new-password', {
    config: { roles: 'anyone', rateLimit: PER_ADDRESS }, schema: { hide: true, body: entries },
  }, async (request, reply) => {
    const { code, password } = request.body
    const signInName = request.body.signInName.toLowerCase()
    const fault = findFault(password, signInName)
    if (fault !== null) return show(reply.status(422), signInName, { field: 'password', message: fault }, code)
    if (!throttle.take(signInName, shell.clock())) {
      reply.header('retry-after', String(WINDOW_MINUTES * 60))
      return show(reply.status(429), signInName, { field: 'signInName', message: TOO_MANY })
    }
    const account = await findAccount(database.reads, { signInName })
    // Made before the code is judged, so that a right code takes no longer than a wrong one.
    const passwordHash = await hashPassword(password)
    const secret = account && isGood(account, code, shell.clock()) ? await redeem(account, passwordHash) : null
    if (!account || secret === null) {
      request.log.warn({ event: 'one-time code refused', ...(account ? { personId: account.id } : {}) }, 'refused')
      return show(reply.status(401), signInName, { field: 'code', message: WRONG })
    }
    throttle.forget(signInName)
    giveCookie(reply, shell, secret)
    request.log.info({ event: 'password set by code', personId: account.id }, 'password set')
    return goTo(reply, startOf(account))

    async function redeem(person: Account, hash: string): Promise<string | null> {
      return database.write(async (write) => {
        if (!(await redeemCode(write, person, hash))) return null
        await closeSessions(write, { personId: person.id })
        await audit(write, actorBefore(request, shell, person), { action: 'set a password', recordKind: 'person', recordId: person.id })
        return beginSession(write, request, shell, person.id)
      })
    }
  })
}

function isGood(account: Account, code: string, now: Date): boolean {
  const isOut = account.codeUntil !== null && account.codeUntil > now
  return isCode(code, account.codeHash) && isOut && account.maySignIn
}

function show(reply: FastifyReply, signInName: string, problem?: FieldProblem, code = ''): FastifyReply {
  return sendPage(reply, NewPasswordPage({ data: { signInName, code, problems: problem ? [problem] : [] } }))
}
