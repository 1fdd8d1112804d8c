import type { FastifyReply } from 'fastify'
import { z } from 'zod'
import { FirstOwnerPage } from '../../web/people/firstOwner.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { audit } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { sendPage } from '../shared/pages.ts'
import { Problem } from '../shared/problems.ts'
import type { App, Shell } from '../shared/shell.ts'
import { hashOfCode, isCode, newCode } from './codes.ts'
import { actorBefore, beginSession, giveCookie, goTo } from './entry.ts'
import { findFault, hashPassword } from './passwords.ts'
import { isSignInName, SIGN_IN_NAME_RULE } from './records.ts'
import { hasPeople } from './store.ts'
import { PER_ADDRESS, WINDOW_MINUTES, type Throttle } from './throttle.ts'

const LONGEST_LINE = 200
const line = z.string().trim().max(LONGEST_LINE).default('')
const entries = z.object({ code: line, shopName: line, name: line, signInName: line, password: z.string().default('') })
type Entries = z.infer<typeof entries>

/**
 * An empty shop is opened by whoever reads the server's log: a one-time code stands in it, and this
 * process keeps only its hash, in memory.
 */
export function registerFirstOwner(app: App, shell: Shell, throttle: Throttle): void {
  const { database, config } = shell
  let codeHash = ''

  app.addHook('onReady', async () => {
    if (await hasPeople(database.reads)) return
    const code = newCode()
    codeHash = hashOfCode(code)
    app.log.warn(`This shop is empty. Open ${config.publicUrl.origin}/first-owner and enter the one-time code ${code}`)
  })

  app.get('/first-owner', { config: { roles: 'anyone' }, schema: { hide: true } }, async (_request, reply) => {
    if (await hasPeople(database.reads)) return goTo(reply, '/')
    return show(reply, { code: '', shopName: '', name: '', signInName: '', password: '' })
  })

  app.post('/first-owner', {
    config: { roles: 'anyone', rateLimit: PER_ADDRESS }, schema: { hide: true, body: entries },
  }, async (request, reply) => {
    const typed = { ...request.body, signInName: request.body.signInName.toLowerCase() }
    if (await hasPeople(database.reads)) throw alreadyOpen()
    const problems = faultsIn(typed)
    if (problems.length > 0) return show(reply.status(422), typed, problems)
    if (!throttle.take('/first-owner', shell.clock())) {
      throw new Problem(429, 'Too many wrong codes', `Wait ${WINDOW_MINUTES} minutes, or start the server again for a new code.`, WINDOW_MINUTES * 60)
    }
    if (!isCode(typed.code, codeHash)) {
      request.log.warn({ event: 'first owner refused' }, 'refused')
      return show(reply.status(422), typed, [{ field: 'code', message: 'This is not the code of the last start. Copy it from the server’s log.' }])
    }
    const passwordHash = await hashPassword(typed.password)
    const secret = await database.write(async (write) => {
      if (await hasPeople(write)) throw alreadyOpen()
      const owner = await storeShop(write, typed, passwordHash)
      await audit(write, actorBefore(request, shell, owner), { action: 'opened the shop', recordKind: 'person', recordId: owner.id })
      return beginSession(write, request, shell, owner.id)
    })
    codeHash = ''
    giveCookie(reply, shell, secret)
    request.log.info({ event: 'first owner' }, 'the shop has its first owner')
    return goTo(reply, '/settings')
  })
}

function show(reply: FastifyReply, { code, shopName, name, signInName }: Entries, problems: readonly FieldProblem[] = []): FastifyReply {
  const values = { code, shopName, name, signInName }
  return sendPage(reply, FirstOwnerPage({ data: { values, problems } }))
}

function faultsIn({ shopName, name, signInName, password }: Entries): FieldProblem[] {
  const fault = findFault(password, signInName)
  return [
    ...(shopName === '' ? [{ field: 'shopName', message: 'Name of the shop is needed: it stands on every sheet.' }] : []),
    ...(name === '' ? [{ field: 'name', message: 'Your name is needed: the history names who did what.' }] : []),
    ...(isSignInName(signInName) ? [] : [{ field: 'signInName', message: SIGN_IN_NAME_RULE }]),
    ...(fault === null ? [] : [{ field: 'password', message: fault }]),
  ]
}

async function storeShop(write: Write, { shopName, name, signInName }: Entries, passwordHash: string): Promise<{ id: string; name: string }> {
  await write.shop.upsert({ where: { id: 'shop' }, create: { name: shopName }, update: { name: shopName } })
  return write.person.create({ data: { name, signInName, role: 'owner', passwordHash }, select: { id: true, name: true } })
}

const alreadyOpen = (): Problem => new Problem(409, 'The shop is open already', 'It has its people. Sign in, or ask an owner for a one-time code.')
