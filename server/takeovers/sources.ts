import type { SourceBuild, SourcesData } from '../../web/takeovers/sources.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { kindInWords } from '../../web/shared/buildKinds.ts'
import { counted } from '../../web/shared/text.ts'
import type { Reads } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import { findTemplateBuild, listOrigins } from './store.ts'
import { findVehicle, listSources, type SourceHead } from './sourceStore.ts'

const MOST_SHOWN = 12
const MOST_PARTS = 40

/** Where something can be taken over from, the same make and model first. */
export async function toSources(reads: Reads, viewer: Viewer, buildId: string, find: string): Promise<SourcesData> {
  const build = await findTemplateBuild(reads, buildId)
  const vehicle = (await findVehicle(reads, buildId))?.vehicle
  if (!build || !vehicle) throw notFound('build')
  const origins = build.copiedFromId === null ? await listOrigins(reads, buildId) : [build.copiedFromId]
  const words = find.split(/\s+/).filter((word) => word !== '')
  const [same, others] = await Promise.all([true, false].map((isSameModel) => listSources(reads, { buildId, vehicle, isSameModel, words, most: MOST_SHOWN + 1 })))
  const draw = (found: readonly SourceHead[] = []): SourceBuild[] => found.slice(0, MOST_SHOWN).map((source) => toSource(source, { buildId, words, viewer }))
  return {
    build: { name: `${label('B', build.number)} ${build.title}`, href: `/builds/${buildId}` }, vehicle: `${vehicle.make} ${vehicle.model}`,
    find, action: `/builds/${buildId}/templates`, comparisonHref: origins.length > 0 ? `/builds/${buildId}/comparison` : undefined,
    groups: [{ name: `The same vehicle: ${vehicle.make} ${vehicle.model}`, builds: draw(same) }, { name: 'Other vehicles', builds: draw(others) }],
    isCut: [same, others].some((found) => (found?.length ?? 0) > MOST_SHOWN),
  }
}

function toSource(source: SourceHead, { buildId, words, viewer }: { buildId: string, words: readonly string[], viewer: Viewer }): SourceBuild {
  const { make, model, year, body } = source.vehicle
  const address = (given: Readonly<Record<string, string>>): string => `/builds/${buildId}/templates/preview?${new URLSearchParams({ source: source.id, ...given }).toString()}`
  const isManager = MANAGERS.includes(viewer.role)
  const found = source.parts.filter(({ name, family }) => words.some((word) => `${name} ${family}`.toLowerCase().includes(word.toLowerCase())))
  const parts = found.length > 0 ? found : source.parts.filter(({ goesInto }) => goesInto.length === 0)
  return {
    name: `${label('B', source.number)} ${source.title}`, href: `/builds/${source.id}`, vehicle: [make, model, body, year ?? ''].filter((word) => word !== '').join(' '),
    holds: [kindInWords(source.kind), source.stage, counted(source.parts.length, 'made part', 'made parts'), counted(source._count.operations, 'operation', 'operations'), counted(source._count.lines, 'equipment line', 'equipment lines'), counted(source._count.factoryParts, 'factory part', 'factory parts')].join(', '),
    ...(isManager ? { wholeHref: address({ what: 'whole scope' }) } : {}),
    orders: source.zones.map(({ id, number, name }) => ({ name: `${number} ${name}`, href: address({ what: 'removal order', zone: id }) })),
    parts: isManager ? parts.slice(0, MOST_PARTS).map(({ id, number, name, family }) => ({ name: [`${label('P', number)} ${name}`, family].filter((word) => word !== '').join(', '), href: address({ what: 'made part', part: id }) })) : [],
  }
}
