import type { FastifyReply } from 'fastify'
import { randomUUID } from 'node:crypto'
import { IssuedCodePage } from '../../web/people/issuedCode.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { shopOf, viewerOn } from '../shared/access.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { notFound } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { CODE_HOURS, hashOfCode, newCode } from './codes.ts'
import { passwordState } from './pages.ts'
import { findAccount, storeCode, type Account } from './store.ts'

/** What a person is told; the database keeps only the code's hash. */
export interface IssuedCode {
  readonly code: string
  readonly until: Date
}

/** Makes a one-time code that takes the place of an earlier one. The password holds until a new one is set. */
export async function issueCode(write: Write, account: Account, actor: Actor): Promise<IssuedCode> {
  const code = newCode()
  const until = new Date(actor.now.getTime() + CODE_HOURS * 3600_000)
  await storeCode(write, account.id, hashOfCode(code), until)
  await audit(write, actor, { action: 'gave a one-time code', recordKind: 'person', recordId: account.id })
  return { code, until }
}

export function registerIssuedCodes(app: App, shell: Shell): void {
  const { database } = shell
  const options = { config: { roles: MANAGERS }, schema: { hide: true, params: idParams } }

  app.get('/people/:id/codes', options, async (request, reply) =>
    show(reply, viewerOn(request), await getAccount(request.params.id), null))

  app.post('/people/:id/codes', options, async (request, reply) => {
    const account = await getAccount(request.params.id)
    // The kept answer of a repeated request must not hold the code, so only the first one shows it.
    let issued: IssuedCode | null = null
    await answerOnce(database, askedOf(request), async (write) => {
      issued = await issueCode(write, account, actorOf(request, shell))
      return { status: 200 }
    })
    request.log.info({ event: 'one-time code given', personId: account.id }, 'one-time code given')
    return show(reply, viewerOn(request), await getAccount(account.id), issued)
  })

  async function getAccount(id: string): Promise<Account> {
    const account = await findAccount(database.reads, { id })
    if (!account?.maySignIn) throw notFound('person who may sign in')
    return account
  }

  async function show(reply: FastifyReply, viewer: Viewer, account: Account, issued: IssuedCode | null): Promise<FastifyReply> {
    const { timeZone } = await shopOf(database.reads)
    const { id, name, signInName } = account
    const until = issued && `${writeDay(calendarDateIn(timeZone, issued.until))} ${clockTimeIn(timeZone, issued.until)}`
    return sendPage(reply, IssuedCodePage({
      viewer,
      data: {
        personHref: `/people/${id}`, name, signInName, state: passwordState(account, shell.clock()), key: randomUUID(),
        mayGive: viewer.role === 'owner' || account.role !== 'owner',
        issued: issued && until ? { code: issued.code, until } : null,
      },
    }))
  }
}
