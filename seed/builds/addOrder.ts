import { alteration, orderEdge, replacementPart } from '../../server/removal/records.ts'
import { get } from '../world.ts'
import type { Desk } from './addBuild.ts'

/** The order found at teardown stands in the table of factory parts, what was built into it in one of its own. */
export function addEdges(desk: Desk): void {
  for (const { parts } of desk.tables.factory) {
    for (const [key, , , , after] of parts) {
      for (const word of wordsOf(after)) addEdge(desk, { graph: 'as found' }, word, key)
    }
  }
  for (const { before, after, ...row } of desk.tables.edges) {
    for (const first of wordsOf(before)) for (const later of wordsOf(after)) addEdge(desk, row, first, later)
  }
}

interface EdgeKind {
  readonly graph: string
  readonly kind?: string
  readonly way?: string
  readonly note?: string
}

// '~belt': it is enough that the belt is loose.
function addEdge({ world: { rows }, buildId, things }: Desk, row: EdgeKind, before: string, after: string): void {
  const isLoose = before.startsWith('~')
  rows.add(orderEdge, {
    graph: row.graph, kind: isLoose ? 'loosened' : (row.kind ?? 'out'), way: row.way ?? '', note: row.note ?? '',
    beforeId: get(things, isLoose ? before.slice(1) : before), afterId: get(things, after),
  }, { buildId })
}

const wordsOf = (text: string): string[] => text.split(' ').filter((word) => word !== '')

export function addAlterations({ world: { rows, days }, tables, buildId, zones, things }: Desk): void {
  tables.alterations.forEach(({ zone, part, typed, consentDay, further = [] }, index) => {
    const alterationId = rows.add(alteration, {
      ...typed, zoneId: get(zones, zone), factoryPartId: part ? get(things, part) : null,
      consentOn: consentDay === undefined ? null : days.workday(consentDay),
    }, { buildId, number: index + 1 })
    for (const more of further) rows.add(replacementPart, { ...more, alterationId }, { buildId })
  })
}
