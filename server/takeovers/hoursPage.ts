import type { FastifyReply } from 'fastify'
import { operationWorkings } from '../builds/operationWorkings.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { Reads } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { sendWorking } from '../shared/workings.ts'
import { findNumbered } from './store.ts'
import { loadSource } from './takeover.ts'

/** The page of one figure of hours by its key, as 231.P-510.20e: of build 231, made part 510, operation 20, the estimate. Throws a 404 for any other. */
export async function sendHours(reply: FastifyReply, reads: Reads, viewer: Viewer, key: string): Promise<FastifyReply> {
  const [, number, how] = /^(\d{1,9})\.(.+)$/.exec(key) ?? []
  const build = number === undefined ? null : await findNumbered(reads, Number(number))
  if (!build || how === undefined) throw notFound('figure')
  const { figures: { costing } } = await loadSource(reads, build)
  const trail = [{ name: `${label('B', build.number)} ${build.title}`, href: `/builds/${build.id}` }]
  return sendWorking(reply, viewer, { workings: new Map(operationWorkings(costing)), how, place: 'builds', trail, places: 2 })
}
