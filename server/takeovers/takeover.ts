import type { BuildFigures } from '../builds/figures.ts'
import { figuresOf } from '../builds/figures.ts'
import { loadBuild } from '../builds/store.ts'
import { counted } from '../../web/shared/text.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { invalid, notFound, Problem } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { newIds } from '../shared/newIds.ts'
import { planTakeover, type NewRows } from './plan.ts'
import type { Rows } from './scope.ts'
import { findTemplateBuild, loadSourceRows, loadTarget, setOrigin, writePlan, type TemplateBuild } from './store.ts'
import { TABLES, type Table } from './tables.ts'
import { checkWanted, toChoice, type Wanted } from './wanted.ts'

export type Counts = Readonly<Record<Table, number>>

/** Two different builds that are in use. Throws where one is not. */
export async function findBoth(client: Reads | Write, buildId: string, sourceId: string): Promise<{ build: TemplateBuild, source: TemplateBuild }> {
  const build = await findTemplateBuild(client, buildId)
  if (!build) throw notFound('build')
  const source = await findTemplateBuild(client, sourceId)
  if (!source) throw invalid('source', 'There is no such build to copy from. Choose one from the list.')
  if (source.id === build.id) throw invalid('source', 'A build cannot copy from itself. Choose an earlier one.')
  return { build, source }
}

/** The earlier build: its records in use, and their estimates and logged hours. */
export interface Source {
  readonly build: TemplateBuild
  readonly rows: Rows
  readonly figures: BuildFigures
}

// Read before the write begins: a show build takes longer to read than to write.
export async function loadSource(reads: Reads, build: TemplateBuild): Promise<Source> {
  return { build, rows: await loadSourceRows(reads, build.id), figures: figuresOf(await loadBuild(reads, build.id)) }
}

export function piecesIn({ costing }: BuildFigures): (operationId: string) => number {
  const pieces = new Map(costing.estimate.operations.map((estimate) => [estimate.operation.id, estimate.pieces]))
  return (operationId) => pieces.get(operationId) ?? 1
}

/** Writes all that is wanted of an earlier build into this one, in one go. */
export async function takeOver(write: Write, buildId: string, wanted: Wanted, { build: source, rows, figures }: Source, actor: Actor): Promise<Counts> {
  await findBoth(write, buildId, source.id)
  const target = await loadTarget(write, buildId)
  checkWanted(wanted, rows, target)
  const plan = planTakeover(rows, target, toChoice(wanted, rows, figures.costing.operations, piecesIn(figures)), newIds(actor.now))
  const counts = countRows(plan.rows)
  if (TABLES.every((table) => counts[table] === 0)) throw new Problem(422, 'Nothing to copy', `Of ${label('B', source.number)} nothing is chosen that is not here already. Tick what is wanted.`)
  await writePlan(write, plan, source, actor)
  if (wanted.what === 'whole scope') await setOrigin(write, buildId, source.id)
  await audit(write, actor, { action: `${wanted.what} copied from ${label('B', source.number)}: ${inWords(counts)}`, recordKind: 'build', recordId: buildId })
  return counts
}

const countRows = (rows: NewRows): Counts => Object.fromEntries(TABLES.map((table) => [table, rows[table].length])) as unknown as Counts

const WORDS: readonly (readonly [Table, string, string])[] = [
  ['zone', 'zone', 'zones'], ['equipmentLine', 'equipment line', 'equipment lines'], ['fabricatedPart', 'made part', 'made parts'], ['operation', 'operation', 'operations'],
  ['materialNeed', 'material need', 'material needs'], ['finish', 'finish', 'finishes'], ['factoryPart', 'factory part', 'factory parts'],
  ['fastener', 'kind of fastener', 'kinds of fasteners'], ['orderEdge', 'order of removal', 'orders of removal'], ['mountingPlace', 'mounting place', 'mounting places'],
]

/** As "12 made parts, 48 operations". */
export const inWords = (counts: Counts): string =>
  WORDS.filter(([table]) => counts[table] > 0).map(([table, one, many]) => counted(counts[table], one, many)).join(', ')
