import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { FormPage } from '../../../web/records/form.tsx'
import { ListPage } from '../../../web/records/list.tsx'
import { RecordPage } from '../../../web/records/record.tsx'
import { viewerOn } from '../access.ts'
import type { Reads } from '../database/database.ts'
import type { Row } from '../database/delegate.ts'
import { answerOnce, type Answer } from '../once.ts'
import { sendPage } from '../pages.ts'
import { FieldProblems, VersionConflict } from '../problems.ts'
import type { App, Shell } from '../shell.ts'
import { actorOf, askedOf, versionOf } from './actor.ts'
import { buildOfBody } from './apiRoutes.ts'
import { sendConflictPage } from './conflict.ts'
import { formOf } from './formData.ts'
import { isId } from './field.ts'
import { kindsReferredTo, type RecordKind } from './kind.ts'
import { listData, recordData } from './pageData.ts'
import { idParams } from './schemas.ts'
import { readForm, type Body } from './submission.ts'
import { buildOf, changeRecord, createRecord, findRecord, findReferred, getRecord, setRemoved, type Submitted } from './table.ts'

const listQuery = z.object({ build: z.uuid().optional(), removed: z.enum(['yes', 'no']).default('no') })
const newQuery = z.looseObject({ build: z.uuid().optional() })
const oneQuery = z.object({ saved: z.enum(['created', 'changed', 'removed', 'recovered']).optional() })

/** A kind of record as pages: list, record, forms, and the posts behind them. */
export function registerPages(app: App, shell: Shell, kind: RecordKind): void {
  const { database } = shell
  const seen = { roles: kind.seenBy }
  const changed = { roles: kind.changedBy }
  const one = `/${kind.path}/:id`

  if (!kind.hasOwnList) {
    app.get(`/${kind.path}`, { config: seen, schema: { hide: true, querystring: listQuery } }, async (request, reply) => {
      const viewer = viewerOn(request)
      const scope = { ...request.query, isRemoved: request.query.removed === 'yes' }
      return sendPage(reply, ListPage({ viewer, data: await listData(database.reads, kind, scope, viewer) }))
    })
  }

  if (!kind.hasOwnPage) {
    app.get(one, { config: seen, schema: { hide: true, params: idParams, querystring: oneQuery } }, async (request, reply) => {
      const viewer = viewerOn(request)
      const row = await getRecord(database.reads, kind, request.params.id)
      return sendPage(reply, RecordPage({ viewer, data: await recordData(database.reads, kind, row, viewer, request.query.saved ?? null) }))
    })
  }

  app.get(`${one}/form`, { config: changed, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const row = await getRecord(database.reads, kind, request.params.id)
    return sendPage(reply, FormPage({ viewer, data: await formOf(database.reads, kind, viewer, { row, buildId: buildOf(row) }) }))
  })

  app.post(one, { config: changed, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const { id } = request.params
    const row = await getRecord(database.reads, kind, id)
    return reshown(request, reply, row, async (submitted) => {
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        const after = await changeRecord(write, kind, id, versionOf(request), submitted, actorOf(request, shell))
        return { status: 303, location: afterSaving(kind, after, 'changed') }
      })
      return reply.redirect(answer.location ?? '/', 303)
    })
  })

  if (kind.isSingle) return

  app.get(`/${kind.path}/new`, { config: changed, schema: { hide: true, querystring: newQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { build, ...given } = request.query
    const buildId = build ?? await findBuildOf(database.reads, kind, given)
    const form = await formOf(database.reads, kind, viewer, { row: null, buildId, given })
    return sendPage(reply, FormPage({ viewer, data: form }))
  })

  app.post(`/${kind.path}`, { config: changed, schema: { hide: true } }, async (request, reply) => {
    const body = (request.body ?? {}) as Body
    return reshown(request, reply, null, async (submitted) => {
      const buildId = buildOfBody(kind, body)
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        const row = await createRecord(write, kind, buildId, submitted, actorOf(request, shell))
        return { status: 303, location: body._another ? nextForm(kind, row) : afterSaving(kind, row, 'created') }
      })
      return reply.redirect(answer.location ?? '/', 303)
    })
  })

  for (const [address, isRemoved] of [['removal', true], ['recovery', false]] as const) {
    app.post(`${one}/${address}`, { config: changed, schema: { hide: true, params: idParams } }, async (request, reply) => {
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        const row = await setRemoved(write, kind, request.params.id, isRemoved, actorOf(request, shell))
        return { status: 303, location: `${hrefOf(kind, row)}?saved=${isRemoved ? 'removed' : 'recovered'}` }
      })
      return reply.redirect(answer.location ?? '/', 303)
    })
  }

  /** Saves, or shows the form again with what was typed and what is wrong, or both versions. */
  async function reshown(
    request: FastifyRequest, reply: FastifyReply, row: Row | null, save: (submitted: Submitted) => Promise<FastifyReply>,
  ): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    const body = (request.body ?? {}) as Body
    try {
      return await save(readForm(kind, viewer.role, row === null, body, viewer))
    } catch (error) {
      if (error instanceof VersionConflict) return sendConflictPage(request, reply, shell, kind, error, body)
      if (!(error instanceof FieldProblems)) throw error
      const stands = row ? await findRecord(database.reads, kind, row.id) : null
      const buildId = stands ? buildOf(stands) : typeof body.buildId === 'string' ? body.buildId : null
      const data = await formOf(database.reads, kind, viewer, { row: stands, buildId, typed: body, problems: error.fields })
      return sendPage(reply.status(422), FormPage({ viewer, data }))
    }
  }
}

/** The build of a record that the address of a new form names, as the zone that it goes into. */
async function findBuildOf(reads: Reads, kind: RecordKind, given: Body): Promise<string | null> {
  for (const [name, { entry }] of kind.isOfBuild ? Object.entries(kind.fields) : []) {
    const found = isId(given[name]) ? await findReferred(reads, kindsReferredTo(entry), given[name]) : null
    if (found && buildOf(found.row) !== null) return buildOf(found.row)
  }
  return null
}

const hrefOf = (kind: RecordKind, row: Row): string => `/${kind.path}/${row.id}`

const afterSaving = (kind: RecordKind, row: Row, did: 'created' | 'changed'): string => kind.backTo?.(row) ?? `${hrefOf(kind, row)}?saved=${did}`

// The next of a kind usually belongs to the same zone, part or factory part.
function nextForm(kind: RecordKind, row: Row): string {
  const kept = Object.entries(kind.fields)
    .filter(([name, field]) => field.entry.as === 'reference' && typeof row[name] === 'string')
    .map(([name]) => [name, String(row[name])] as const)
  const build = kind.isOfBuild ? { build: String(row.buildId) } : {}
  return `/${kind.path}/new?${new URLSearchParams({ ...build, ...Object.fromEntries(kept), _another: 'true' }).toString()}`
}
