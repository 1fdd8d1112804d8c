import type { RequiredPart } from '../calc/parts/partTree.ts'
import type { TreePart } from '../../web/parts/partData.ts'
import { label } from '../shared/records/kind.ts'
import type { PartSources } from './partPage.ts'

/**
 * The build, every assembly that this part goes into on the way down to it, the pieces beside it, and all
 * that goes into it.
 */
export function treeAround({ stored: { head }, figures: { bill }, part }: PartSources): TreePart {
  const byId = new Map(bill.parts.map((line) => [line.part.id, line]))
  const above = idsAbove(part.id, byId)
  const parentsOfPart = new Set(byId.get(part.id)?.demands.flatMap(({ parentId }) => parentId ?? []))
  const drawn = new Set<string>()

  const branch = (line: RequiredPart, quantity: number, isBelow: boolean): TreePart => {
    const { id, number, name } = line.part
    const isThis = id === part.id
    const goesOn = isThis || isBelow || above.has(id)
    const pieces = goesOn && !drawn.has(id) ? piecesOf(id, isThis || isBelow) : []
    return { number, name, quantity, href: `/parts/${id}`, isThis, pieces }
  }
  const piecesOf = (parentId: string, isBelow: boolean): TreePart[] => {
    drawn.add(parentId)
    return bill.parts.flatMap((line) => {
      const use = line.demands.find((demand) => demand.parentId === parentId)
      const isWanted = isBelow || line.part.id === part.id || above.has(line.part.id) || parentsOfPart.has(parentId)
      return use && isWanted ? [branch(line, use.perParent, isBelow)] : []
    })
  }
  const outermost = bill.parts.flatMap((line) => {
    const direct = line.demands.find(({ parentId }) => parentId === null)
    const isWanted = line.part.id === part.id || above.has(line.part.id)
    return isWanted && (direct || line.demands.length === 0) ? [branch(line, direct?.count ?? 0, false)] : []
  })
  return { number: label('B', head.number), name: head.title, quantity: 1, href: `/builds/${head.id}`, isThis: false, pieces: outermost }
}

function idsAbove(partId: string, byId: ReadonlyMap<string, RequiredPart>): Set<string> {
  const above = new Set<string>()
  const walk = (id: string): void => {
    for (const { parentId } of byId.get(id)?.demands ?? []) {
      if (parentId === null || above.has(parentId)) continue
      above.add(parentId)
      walk(parentId)
    }
  }
  walk(partId)
  return above
}
