import { randomUUID } from 'node:crypto'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { ConflictPage, type ConflictData, type DifferingField } from '../../../web/shared/conflict.tsx'
import { shopOf, viewerOn } from '../access.ts'
import type { Row } from '../database/delegate.ts'
import { sendPage } from '../pages.ts'
import type { VersionConflict } from '../problems.ts'
import type { Shell } from '../shell.ts'
import { clockTimeIn } from '../shopTime.ts'
import { choicesFor, entryText, nameOf } from './display.ts'
import { historyOf } from './history.ts'
import type { RecordKind } from './kind.ts'
import { writtenFields, type Body } from './submission.ts'
import { buildOf } from './table.ts'

/** Somebody saved between the reading and the saving of a form: both versions, to choose from field by field. */
export async function sendConflictPage(
  request: FastifyRequest, reply: FastifyReply, shell: Shell, kind: RecordKind, conflict: VersionConflict, typed: Body,
): Promise<FastifyReply> {
  const viewer = viewerOn(request)
  const { reads } = shell.database
  const row = conflict.current as Row
  const choices = await choicesFor(reads, kind, buildOf(row))
  const [latest] = await historyOf(reads, kind, row.id, viewer.role)
  const { timeZone } = await shopOf(reads)
  const fields: DifferingField[] = []
  const hidden: (readonly [string, string])[] = []
  for (const [name, field] of writtenFields(kind, viewer.role, false)) {
    const yours = joined(typed[name])
    const theirs = joined(entryText(name, field, row, viewer))
    const named = (id: string): string => choices.get(name)?.find((one) => one.value === id)?.text ?? id
    if (yours === theirs) hidden.push([name, yours])
    else fields.push({ name, label: field.label, yours, theirs, yoursShown: named(yours), theirsShown: named(theirs) })
  }
  const data: ConflictData = {
    place: kind.place as ConflictData['place'],
    record: nameOf(kind, row),
    theirName: latest?.personName ?? 'Somebody',
    theirTime: latest ? clockTimeIn(timeZone, latest.at) : '',
    fields,
    hidden,
    action: `/${kind.path}/${row.id}`,
    idempotencyKey: randomUUID(),
    version: row.version,
    recordHref: `/${kind.path}/${row.id}`,
  }
  return sendPage(reply.status(412), ConflictPage({ viewer, data }))
}

// Ticks arrive as one text or many; fields of the record layer read comma-separated text alike.
function joined(raw: unknown): string {
  const text = Array.isArray(raw) ? raw.join(',') : String(raw ?? '')
  return text === 'true' || text === 'on' ? 'yes' : text
}
