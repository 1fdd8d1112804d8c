import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { notFound } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { getRecord } from '../shared/records/table.ts'
import { getKind } from '../shared/records/kind.ts'
import { invalid } from '../shared/problems.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { exportCsv } from './exporting.ts'
import { exchangedKinds } from './requests.ts'

/** Lists as CSV files for spreadsheets. */
export function registerExports(app: App, { database }: Shell): void {
  app.get('/exports/:path', {
    config: { roles: MANAGERS },
    schema: { hide: true, params: z.object({ path: z.string().max(60) }), querystring: z.object({ build: z.uuid().optional() }) },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    const kind = exchangedKinds().find(({ path }) => path === request.params.path)
    if (!kind) throw notFound('list')
    if (kind.isOfBuild && !request.query.build) throw invalid('build', `Which build? Open the list of ${kind.plural} in it and export it there.`)
    const buildId = kind.isOfBuild ? (request.query.build ?? null) : null
    const build = buildId ? await getRecord(database.reads, getKind('build'), buildId) : null
    const name = [build ? label('B', Number(build.number)) : '', kind.plural.replaceAll(' ', '-'), viewer.today].filter((part) => part !== '').join('-')
    const csv = await exportCsv(database.reads, kind, buildId, viewer)
    return reply.type('text/csv; charset=utf-8; header=present')
      .header('content-disposition', `attachment; filename="${name}.csv"`).header('cache-control', 'no-store').send(csv)
  })
}
