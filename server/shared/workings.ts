import type { FastifyReply } from 'fastify'
import { z } from 'zod'
import { WorkingPage, type WorkingPageData } from '../../web/shared/working.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { Working } from '../calc/amounts.ts'
import { sendPage } from './pages.ts'
import { notFound } from './problems.ts'

/** What the figures of a page lead to, by the key in their address: ?how=z4e. Only what the viewer may see. */
export type Workings = ReadonlyMap<string, Working>

/** In the query of every page whose figures open. */
export const how = z.string().max(80).optional()

interface Asked extends Omit<WorkingPageData, 'working' | 'places'> {
  readonly workings: Workings
  readonly how: string
  /** Decimals of hours in the rows of the page; 1 where nothing is said. */
  readonly places?: 1 | 2
}

/** The page of one working. Throws a 404 where there is no such figure, or not for this viewer. */
export function sendWorking(reply: FastifyReply, viewer: Viewer, { workings, how: key, place, trail, places = 1 }: Asked): FastifyReply {
  const working = workings.get(key)
  if (!working) throw notFound('figure')
  return sendPage(reply, WorkingPage({ viewer, data: { working, place, trail, places } }))
}
