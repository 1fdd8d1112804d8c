import { groupBy } from '../calc/grouping.ts'
import type { LedgerItem, LedgerPart } from '../../web/builds/ledgerData.ts'
import { writeHours } from '../../web/shared/amount.ts'
import type { BuildFigures } from './figures.ts'
import { stateOfPart } from './ledgerColumns.ts'
import type { StoredBuild } from './store.ts'

/**
 * What is made for a zone: assemblies and single parts, each assembly with all pieces of the same zone
 * that go into it. A piece that stands in another zone than its assemblies is listed in its own.
 */
export function madeHere(stored: StoredBuild, figures: BuildFigures): (zoneId: string) => LedgerPart[] {
  const { parts, partUses } = figures.inputs.bill
  const items = partItems(stored, figures)
  const byId = new Map(parts.map((part) => [part.id, part]))
  const usesIn = groupBy(partUses, (use) => use.parentId)
  const usesOf = groupBy(partUses, (use) => use.partId)
  const zoneOf = (id: string): string | null | undefined => byId.get(id)?.zoneId

  const piecesOf = (parentId: string): LedgerItem[] => {
    const found = new Set<string>()
    const walk = (id: string): void => {
      for (const { partId } of usesIn.get(id) ?? []) {
        if (found.has(partId) || zoneOf(partId) !== zoneOf(parentId)) continue
        found.add(partId)
        walk(partId)
      }
    }
    walk(parentId)
    return parts.filter(({ id }) => found.has(id)).flatMap(({ id }) => items.get(id) ?? [])
  }
  const standsByItself = (id: string, quantity: number): boolean =>
    quantity > 0 || !(usesOf.get(id) ?? []).some(({ parentId }) => zoneOf(parentId) === zoneOf(id))

  return (zoneId) => parts.filter((part) => part.zoneId === zoneId && standsByItself(part.id, part.quantity))
    .flatMap(({ id }) => {
      const item = items.get(id)
      return item ? [{ ...item, pieces: piecesOf(id) }] : []
    })
}

function partItems({ parts }: StoredBuild, { inputs, bill, costing }: BuildFigures): Map<string, LedgerItem> {
  const operationsOf = groupBy(inputs.labor.operations, (operation) => operation.partId)
  const usesIn = groupBy(inputs.bill.partUses, (use) => use.parentId)
  const counts = new Map(bill.parts.map(({ part, count }) => [part.id, { count, number: part.number }]))
  const hours = new Map(costing.byPart.map(({ partId, withPieces }) => [partId, withPieces.figures.forecastS]))
  return new Map(parts.map(({ id, name, isFitted, number: own }): [string, LedgerItem] => {
    const { count = 0, number = '' } = counts.get(id) ?? {}
    const { state, words } = stateOfPart(withPieces(id, (parentId) => (usesIn.get(parentId) ?? []).map(({ partId }) => partId)).flatMap((each) => operationsOf.get(each) ?? []))
    const hoursOfAll = hours.get(id) ?? 0
    return [id, {
      number, name: count > 1 ? `${count} × ${name}` : name, href: `/parts/${id}`, state,
      detail: isFitted ? `${words}, fitted` : words,
      ...(hoursOfAll === 0 ? {} : { hours: { text: `${writeHours(hoursOfAll)} h`, how: `p${own}` } }),
    }]
  }))
}

/** A part and all that goes into it, each once: its hours are those of all of them, and so is its state. */
function withPieces(partId: string, piecesOf: (parentId: string) => readonly string[]): string[] {
  const found = new Set([partId])
  for (const id of found) piecesOf(id).forEach((piece) => found.add(piece))
  return [...found]
}
