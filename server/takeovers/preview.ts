import { randomUUID } from 'node:crypto'
import type { PreviewData, PreviewOperation, PreviewRow } from '../../web/takeovers/preview.tsx'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { operationKeys } from '../builds/operationWorkings.ts'
import { groupBy, sumOf } from '../calc/grouping.ts'
import type { Row } from '../shared/database/delegate.ts'
import { label } from '../shared/records/kind.ts'
import { EDITED, shownText, type FormState } from './formState.ts'
import { keysOf, type Keys } from './keys.ts'
import type { Target } from './plan.ts'
import { chosenRows, type Rows } from './scope.ts'
import type { TemplateBuild } from './store.ts'
import type { Source } from './takeover.ts'

/** Above this only one part at a time shows its operations. */
const MOST_OPEN = 60

interface Sources {
  readonly build: TemplateBuild
  readonly source: Source
  readonly target: Target
  readonly state: FormState
  readonly key: string
  readonly problems: readonly FieldProblem[]
}

/** What a takeover would write, row by row, with what was estimated and logged there. */
export function toPreview({ build, source, target, state, key, problems }: Sources, viewer: Viewer): PreviewData {
  const chosen = chosenRows(source.rows, { ...state, leftOut: new Set() })
  const keys = keysOf(source.rows)
  const isSmall = chosen.operation.length <= MOST_OPEN
  const rows = rowsOf(chosen, { keys, hows: operationKeys(source.figures.costing), source, state, viewer, isOpen: (name) => isSmall || name === state.open })
  const shown = new Set(rows.flatMap((group) => group.rows.flatMap((row) => [row.key, ...row.operations.map((operation) => operation.key)])))
  return {
    build: { name: `${label('B', build.number)} ${build.title}`, href: `/builds/${build.id}` },
    source: { name: `${label('B', source.build.number)} ${source.build.title}`, href: `/builds/${source.build.id}` },
    title: titleOf(state, source.rows), action: `/builds/${build.id}/takeovers`, previewAction: `/builds/${build.id}/templates/preview`, listHref: `/builds/${build.id}/templates`,
    idempotencyKey: key === '' ? randomUUID() : key,
    hidden: [
      ['source', state.sourceId], ['what', state.what], ...(state.partId ? [['part', state.partId] as const] : []), ...(state.zoneId ? [['zone', state.zoneId] as const] : []),
      ['offered', [...shown].join(' ')], ['left', [...state.left].filter((name) => !shown.has(name)).join(' ')], ['logged', [...state.logged].filter((name) => !shown.has(name)).join(' ')],
      ...[...state.typed].filter(([name]) => !shown.has(name.slice(name.indexOf(' ') + 1))),
    ],
    into: state.what === 'whole scope' ? undefined : { value: state.into, options: target.zones.map(({ id, name }) => ({ value: id, label: name })) },
    zones: state.what === 'whole scope' ? zoneWords(chosen.zone, target) : [],
    groups: rows, besides: besides(chosen), isLoggedForAll: state.isLoggedForAll, problems,
  }
}

function titleOf({ what, partId, zoneId }: FormState, rows: Rows): string {
  const part = rows.fabricatedPart.find(({ id }) => id === partId)
  if (what === 'made part') return `${label('P', Number(part?.number))} ${String(part?.name)} with all that goes into it`
  const zone = rows.zone.find(({ id }) => id === zoneId)
  return what === 'removal order' ? `Order of removal: ${String(zone?.name)}` : 'The whole scope'
}

interface Drawing {
  readonly keys: Keys
  /** What the hours of each operation open by. */
  readonly hows: ReadonlyMap<string, string>
  readonly source: Source
  readonly state: FormState
  readonly viewer: Viewer
  isOpen(key: string): boolean
}

function rowsOf(chosen: Rows, drawing: Drawing): PreviewData['groups'] {
  const zones = new Map(chosen.zone.map(({ id, number, name }) => [id, `${String(number)} ${String(name)}`]))
  const operations = groupBy(chosen.operation, (row) => String(row.partId ?? row.lineId ?? row.factoryPartId))
  const tables = [['Made parts', chosen.fabricatedPart], ['Equipment', chosen.equipmentLine], ['Factory parts', chosen.factoryPart]] as const
  return tables.filter(([, rows]) => rows.length > 0).map(([name, rows]) => ({
    name, hasQuantity: name !== 'Factory parts',
    rows: [...groupBy(rows, ({ zoneId }) => String(zoneId))].flatMap(([zoneId, own]) =>
      own.map((row, index) => toRow(row, operations.get(row.id) ?? [], name !== 'Factory parts', index === 0 ? (zones.get(zoneId) ?? '') : '', drawing))),
  }))
}

function toRow(row: Row, operations: readonly Row[], hasQuantity: boolean, zone: string, drawing: Drawing): PreviewRow {
  const { keys, state, viewer } = drawing
  const key = keys.keyOf.get(row.id) ?? ''
  const all = operations.map((operation) => toOperation(operation, drawing))
  const isOpen = drawing.isOpen(key)
  return {
    key, name: String(row.name), zone, isTaken: !state.left.has(key),
    ...(hasQuantity ? { quantity: state.typed.get(`quantity ${key}`) ?? shownText('quantity', row, viewer) } : {}),
    how: `${drawing.source.build.number}.${key}`, estimate: sumOf(all, ({ estimate }) => estimate), work: sumOf(all, ({ work }) => work), rework: sumOf(all, ({ rework }) => rework),
    count: all.length, edited: isOpen ? 0 : all.filter((operation) => operation.isEdited).length, operations: isOpen ? all : [],
  }
}

function toOperation(row: Row, drawing: Drawing): PreviewOperation {
  const { keys, source, state, viewer } = drawing
  const key = keys.keyOf.get(row.id) ?? ''
  const figures = source.figures.costing.operations.find(({ operation }) => operation.id === row.id)?.figures
  const isTaken = !state.left.has(key)
  const isLogged = state.logged.has(key)
  return {
    key, name: `${String(row.number)} ${String(row.kind)}`, workName: String(row.work), isTaken, isLogged,
    setUp: state.typed.get(`setUp ${key}`) ?? shownText('setUp', row, viewer), run: state.typed.get(`run ${key}`) ?? shownText('run', row, viewer),
    how: `${source.build.number}.${drawing.hows.get(row.id) ?? ''}`, estimate: figures?.estimatedS ?? 0, work: figures?.workS ?? 0, rework: figures?.reworkS ?? 0,
    isEdited: !isTaken || isLogged || EDITED.some((field) => field !== 'quantity' && (state.typed.get(`${field} ${key}`) ?? shownText(field, row, viewer)) !== shownText(field, row, viewer)),
  }
}

function zoneWords(zones: readonly Row[], { zones: here }: Target): string[] {
  return zones.map((zone) => {
    const same = here.find(({ name, place }) => place === zone.place && name.toLowerCase() === String(zone.name).toLowerCase())
    return same ? `${String(zone.name)}: into the zone of that name that is here already` : `${String(zone.name)}: a new zone`
  })
}

function besides(chosen: Rows): string {
  const named = [
    [chosen.partUse.length, 'uses in assemblies'], [chosen.materialNeed.length, 'material needs'], [chosen.finish.length, 'finishes, none of them approved'], [chosen.operationPredecessor.length, 'predecessors'],
    [chosen.fastener.length, 'kinds of fasteners'], [chosen.orderEdge.length, 'orders of removal'], [chosen.mountingPlace.length, 'mounting places'],
  ] as const
  return named.filter(([count]) => count > 0).map(([count, word]) => `${count} ${word}`).join(', ')
}
