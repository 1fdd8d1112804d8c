import { z } from 'zod'
import { ComparisonPage } from '../../web/takeovers/comparison.tsx'
import { viewerOn } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { HeldProblem, notFound } from '../shared/problems.ts'
import { sendPage } from '../shared/pages.ts'
import { idParams } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how } from '../shared/workings.ts'
import { toComparison } from './comparison.ts'
import { sendHours } from './hoursPage.ts'
import { findTemplateBuild, listOrigins, type TemplateBuild } from './store.ts'
import { findBoth, loadSource } from './takeover.ts'

const query = z.object({ source: z.uuid().optional().catch(undefined), zone: z.uuid().optional().catch(undefined), saved: z.string().optional(), how })

export function registerComparison(app: App, { database: { reads } }: Shell): void {
  app.get('/builds/:id/comparison', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: query } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    const { source: asked, zone, saved, how: key } = request.query
    if (key !== undefined) return sendHours(reply, reads, viewer, key)
    const sources = await sourcesOf(reads, id)
    const wanted = asked ?? sources[0]?.id
    if (wanted === undefined) {
      throw new HeldProblem('Nothing to compare with', 'Nothing in this build was copied from an earlier one.', { href: `/builds/${id}/templates`, name: 'Copy from an earlier build' })
    }
    const { build, source } = await findBoth(reads, id, wanted)
    const [there, here] = [await loadSource(reads, source), await loadSource(reads, build)]
    return sendPage(reply, ComparisonPage({ viewer, data: toComparison({ there, here, sources, zoneId: zone ?? null, isSaved: saved === 'taken' }, viewer) }))
  })
}

/** The builds that something here was taken from, the one of the whole scope first. */
async function sourcesOf(reads: Reads, buildId: string): Promise<TemplateBuild[]> {
  const build = await findTemplateBuild(reads, buildId)
  if (!build) throw notFound('build')
  const ids = [...new Set([...(build.copiedFromId ? [build.copiedFromId] : []), ...(await listOrigins(reads, buildId))])]
  const found = await Promise.all(ids.map((id) => findTemplateBuild(reads, id)))
  return found.flatMap((one) => one ?? [])
}
