import type { FastifyRequest } from 'fastify'
import { z } from 'zod'
import { ListPage } from '../../web/records/list.tsx'
import { RecordPage, type Related } from '../../web/records/record.tsx'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { forbidden } from '../shared/problems.ts'
import { isId } from '../shared/records/field.ts'
import { listData, recordData } from '../shared/records/pageData.ts'
import { idParams } from '../shared/records/schemas.ts'
import { getRecord } from '../shared/records/table.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { person } from './records.ts'
import { findAccount, listAccounts, skillsOfPeople, type Account } from './store.ts'

const listQuery = z.object({ removed: z.enum(['yes', 'no']).default('no') })
const oneQuery = z.object({ saved: z.enum(['created', 'changed', 'removed', 'recovered']).optional() })

/** The list with skills and what stands of signing in, and the person with the way to a one-time code. */
export function registerPeoplePages(app: App, shell: Shell): void {
  const { reads } = shell.database
  const roles = MANAGERS

  app.get('/people', { config: { roles }, schema: { hide: true, querystring: listQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const list = await listData(reads, person, { isRemoved: request.query.removed === 'yes' }, viewer)
    const skills = await skillsOfPeople(reads)
    const accounts = new Map((await listAccounts(reads)).map((account) => [account.id, account]))
    const columns = [...list.columns, { name: 'Password', isFigure: false }, { name: 'Skills', isFigure: false }]
    const rows = list.rows.map((row) => {
      const id = row.href.slice('/people/'.length)
      const account = accounts.get(id)
      return { ...row, cells: [...row.cells, account ? passwordState(account, shell.clock()) : '', skills.get(id)?.join(', ') ?? ''] }
    })
    return sendPage(reply, ListPage({ viewer, data: { ...list, columns, rows } }))
  })

  app.get('/people/:id', { config: { roles }, schema: { hide: true, params: idParams, querystring: oneQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const row = await getRecord(reads, person, request.params.id)
    const data = await recordData(reads, person, row, viewer, request.query.saved ?? null)
    const account = await findAccount(reads, { id: row.id })
    const related = account?.maySignIn ? [signingIn(account, shell.clock()), ...data.related] : data.related
    return sendPage(reply, RecordPage({ viewer, data: { ...data, related } }))
  })
}

export function passwordState({ passwordHash, codeHash, codeUntil }: Account, now: Date): string {
  const isWaiting = codeHash !== '' && codeUntil !== null && codeUntil > now
  return `${passwordHash === '' ? 'none yet' : 'set'}${isWaiting ? ', a code is out' : ''}`
}

function signingIn(account: Account, now: Date): Related {
  const row = { href: `/people/${account.id}/codes`, name: 'Give a one-time code', more: `password: ${passwordState(account, now)}` }
  return { title: 'Signing in', rows: [row], addHref: null, addName: '' }
}

/** Nobody but an owner makes, changes, removes or lets in an owner, whatever their token says. */
export async function guardOwners(request: FastifyRequest, { database }: Shell): Promise<void> {
  const address = request.routeOptions.url ?? ''
  if (['GET', 'HEAD'].includes(request.method) || !/^(\/api)?\/people(\/|$)/.test(address)) return
  if (viewerOn(request).role === 'owner') return
  const { id } = request.params as { id?: string }
  const account = isId(id) ? await findAccount(database.reads, { id }) : null
  const body = request.body as Readonly<Record<string, unknown>> | null | undefined
  const makesOwner = address.startsWith('/api/') && body?.role === 'owner'
  if (account?.role === 'owner' || makesOwner) throw forbidden('Only an owner makes, changes or lets in an owner.')
}
