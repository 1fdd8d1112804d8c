import type { Viewer } from '../../web/shared/viewer.ts'
import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { FieldProblems, invalid, notFound, VersionConflict } from '../shared/problems.ts'
import { getKind, type RecordKind } from '../shared/records/kind.ts'
import { readForm, readJson, type Body } from '../shared/records/submission.ts'
import { buildOf, changeRecord, createRecord, findRecord, type Submitted } from '../shared/records/table.ts'
import { CHANGED_MEANWHILE } from './moreForms.ts'
import { getPartNumbered } from './store.ts'

interface Given {
  readonly buildId: string
  readonly typed: Body
  readonly viewer: Viewer
  readonly actor: Actor
}

type Save = (write: Write, given: Given) => Promise<string>

/** What can follow or was not listed yet; each returns the part that the page shows next. */
export const MORE_POSTS: Readonly<Record<'fastener' | 'notes' | 'part' | 'edge', { readonly address: string, readonly save: Save }>> = {
  fastener: { address: 'fasteners', save: addFastener },
  notes: { address: 'notes', save: changeNotes },
  part: { address: 'parts', save: addPart },
  edge: { address: 'edges', save: addEdge },
}

/** A short form sends few of the fields: the others are as in a new record. */
function readShort(kind: RecordKind, { typed, viewer }: Given, own: Body = {}): Submitted {
  const initial = Object.fromEntries(Object.entries(kind.fields).map(([name, field]) => [name, field.initial ?? '']))
  return readForm(kind, viewer.role, true, { ...initial, ...typed, ...own }, viewer)
}

async function addFastener(write: Write, given: Given): Promise<string> {
  const kind = getKind('fastener')
  const row = await createRecord(write, kind, given.buildId, readShort(kind, given), given.actor)
  return String(row.factoryPartId)
}

async function changeNotes(write: Write, { buildId, typed, viewer, actor }: Given): Promise<string> {
  const kind = getKind('factory part')
  const { factoryPartId, connectors, condition, note, _version } = typed
  const before = await findRecord(write, kind, String(factoryPartId))
  if (!before || buildOf(before) !== buildId) throw notFound('factory part')
  const submitted = readJson(kind, viewer.role, false, { connectors, condition, note }, viewer)
  try {
    await changeRecord(write, kind, before.id, Number(_version ?? before.version), submitted, actor)
  } catch (error) {
    if (!(error instanceof VersionConflict)) throw error
    throw invalid('connectors', `${CHANGED_MEANWHILE} There it says now: connectors “${String(before.connectors)}”, condition “${String(before.condition)}”, note “${String(before.note)}”. Write both down and save again.`)
  }
  return before.id
}

async function addPart(write: Write, given: Given): Promise<string> {
  const kind = getKind('factory part')
  const row = await createRecord(write, kind, given.buildId, readShort(kind, given), given.actor)
  const behind = String(given.typed.behind ?? '')
  if (behind !== '') {
    const afterId = await getPartNumbered(write, given.buildId, behind, 'behind')
    await createEdge(write, given, { beforeId: row.id, afterId, kind: 'out' }).catch(renamed({ afterId: 'behind' }))
  }
  return row.id
}

async function addEdge(write: Write, given: Given): Promise<string> {
  const { before, after, edgeKind } = given.typed
  const beforeId = await getPartNumbered(write, given.buildId, String(before ?? ''), 'before')
  const afterId = await getPartNumbered(write, given.buildId, String(after ?? ''), 'after')
  await createEdge(write, given, { beforeId, afterId, kind: edgeKind }).catch(renamed({ kind: 'edgeKind', beforeId: 'before', afterId: 'after' }))
  return String(given.typed.factoryPartId ?? afterId)
}

function createEdge(write: Write, given: Given, edge: Body): Promise<unknown> {
  const kind = getKind('order of removal')
  const submitted = readShort(kind, { ...given, typed: {} }, { ...edge, graph: 'as found' })
  return createRecord(write, kind, given.buildId, submitted, given.actor)
}

/** A refusal of another record's field stands beside the entry that it came from. */
const renamed = (names: Readonly<Record<string, string>>) => (error: unknown): never => {
  if (!(error instanceof FieldProblems)) throw error
  throw new FieldProblems(error.fields.map((one) => ({ ...one, field: names[one.field] ?? one.field })))
}
