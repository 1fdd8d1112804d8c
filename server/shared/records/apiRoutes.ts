import { z } from 'zod'
import type { FastifyReply } from 'fastify'
import { withArticle } from '../../../web/shared/text.ts'
import { viewerOn } from '../access.ts'
import { answerOnce, type Answer } from '../once.ts'
import { invalid, VersionConflict } from '../problems.ts'
import type { App, Shell } from '../shell.ts'
import { actorOf, askedOf, versionOf } from './actor.ts'
import { historyOf } from './history.ts'
import { isId } from './field.ts'
import type { RecordKind } from './kind.ts'
import { inputSchema } from './inputSchema.ts'
import { recordSchema, historySchema, idParams, problemAnswers, toJson } from './schemas.ts'
import { readJson, type Body } from './submission.ts'
import { changeRecord, createRecord, getRecord, pageOfRecords, setRemoved } from './table.ts'

const listQuery = z.object({
  build: z.uuid().optional(),
  removed: z.enum(['yes', 'no']).default('no'),
  cursor: z.uuid().optional(),
  limit: z.coerce.number().int().min(1).max(200).default(50),
})

/** A kind of record under /api: list, one, create, change, remove, take back, history. */
export function registerApi(app: App, shell: Shell, kind: RecordKind): void {
  const tags = [kind.plural]
  const list = `/api/${kind.path}`
  const one = `${list}/:id`
  const seen = { roles: kind.seenBy }
  const changed = { roles: kind.changedBy }
  const record = recordSchema(kind)

  app.get(list, {
    config: seen,
    schema: {
      tags, summary: `List ${kind.plural}`, querystring: listQuery,
      response: { 200: z.object({ items: z.array(record), next: z.string().nullable() }), ...problemAnswers },
    },
  }, async (request) => {
    const { build, removed, cursor, limit } = request.query
    const scope = { isRemoved: removed === 'yes', ...(build ? { buildId: build } : {}) }
    const { rows, next } = await pageOfRecords(shell.database.reads, kind, scope, { limit, cursor })
    return { items: rows.map((row) => toJson(kind, row, viewerOn(request).role)), next }
  })

  app.get(one, {
    config: seen,
    schema: { tags, summary: `One ${kind.name}`, params: idParams, response: { 200: record, ...problemAnswers } },
  }, async (request, reply) => {
    const row = await getRecord(shell.database.reads, kind, request.params.id)
    reply.header('etag', `"${row.version}"`)
    return toJson(kind, row, viewerOn(request).role)
  })

  app.get(`${one}/history`, {
    config: seen,
    schema: { tags, summary: `Who changed what in ${withArticle(kind.name)}`, params: idParams, response: { 200: historySchema, ...problemAnswers } },
  }, async (request) => {
    await getRecord(shell.database.reads, kind, request.params.id)
    const entries = await historyOf(shell.database.reads, kind, request.params.id, viewerOn(request).role)
    return { items: entries.map((entry) => ({ ...entry, at: entry.at.toISOString() })) }
  })

  app.patch(one, {
    config: changed,
    schema: { tags, summary: `Change ${withArticle(kind.name)}`, params: idParams, body: inputSchema(kind, false), response: { 200: record, ...problemAnswers } },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    const version = versionOf(request)
    try {
      const submitted = readJson(kind, viewer.role, false, request.body as Body, viewer)
      const row = await shell.database.write((write) => changeRecord(write, kind, request.params.id, version, submitted, actorOf(request, shell)))
      reply.header('etag', `"${row.version}"`)
      return toJson(kind, row, viewer.role)
    } catch (error) {
      if (error instanceof VersionConflict) return sendConflict(reply, kind, error, viewer.role, request.body)
      throw error
    }
  })

  if (kind.isSingle) return

  app.post(list, {
    config: changed,
    schema: { tags, summary: `Create ${withArticle(kind.name)}`, body: inputSchema(kind, true), response: { 201: record, ...problemAnswers } },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    const body = request.body as Body
    const buildId = buildOfBody(kind, body)
    const submitted = readJson(kind, viewer.role, true, body, viewer)
    const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
      const row = await createRecord(write, kind, buildId, submitted, actorOf(request, shell))
      return { status: 201, location: `${list}/${row.id}`, body: toJson(kind, row, viewer.role) }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(answer.body as z.infer<typeof record>)
  })

  for (const [address, isRemoved, summary] of [['removal', true, `Take a ${kind.name} away`], ['recovery', false, `Take a ${kind.name} back`]] as const) {
    app.post(`${one}/${address}`, {
      config: changed,
      schema: { tags, summary, params: idParams, response: { 200: record, ...problemAnswers } },
    }, async (request) => {
      const role = viewerOn(request).role
      const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
        const row = await setRemoved(write, kind, request.params.id, isRemoved, actorOf(request, shell))
        return { status: 200, body: toJson(kind, row, role) }
      })
      return answer.body as z.infer<typeof record>
    })
  }
}

/** The build that a new record of a build goes into. */
export function buildOfBody(kind: RecordKind, body: Body): string | null {
  if (!kind.isOfBuild) return null
  if (!isId(body.buildId)) throw invalid('buildId', `Which build? Send its id: ${withArticle(kind.name)} belongs to one.`)
  return body.buildId
}

function sendConflict(reply: FastifyReply, kind: RecordKind, conflict: VersionConflict, role: Parameters<typeof toJson>[2], yours: unknown): FastifyReply {
  return reply.status(412).type('application/problem+json').send({
    type: 'about:blank', title: conflict.title, status: 412, detail: conflict.detail,
    theirs: toJson(kind, conflict.current as never, role), yours,
  })
}
