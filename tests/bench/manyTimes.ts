import type { BillInput } from '../../server/calc/parts/billInput.ts'

/** A build as many times over as asked, each copy with ids of its own and the same materials. */
export function manyTimes(input: BillInput, times: number): BillInput {
  const copies = Array.from({ length: times }, (_, copy) => oneCopy(input, copy))
  return {
    zones: input.zones,
    materials: input.materials,
    parts: copies.flatMap((one) => one.parts),
    partUses: copies.flatMap((one) => one.partUses),
    equipment: copies.flatMap((one) => one.equipment),
    factoryParts: copies.flatMap((one) => one.factoryParts),
    needs: copies.flatMap((one) => one.needs),
    singleUse: copies.flatMap((one) => one.singleUse),
  }
}

function oneCopy(input: BillInput, copy: number): BillInput {
  const own = (id: string): string => `${id}#${copy}`
  const maybe = (id: string | null): string | null => (id === null ? null : own(id))
  return {
    ...input,
    parts: input.parts.map((part) => ({ ...part, id: own(part.id) })),
    partUses: input.partUses.map((use) => ({ ...use, parentId: own(use.parentId), partId: own(use.partId) })),
    equipment: input.equipment.map((line) => ({ ...line, id: own(line.id) })),
    factoryParts: input.factoryParts.map((part) => ({ ...part, id: own(part.id) })),
    needs: input.needs.map((need) => ({
      ...need, id: own(need.id), partId: maybe(need.partId), equipmentLineId: maybe(need.equipmentLineId), factoryPartId: maybe(need.factoryPartId),
    })),
    singleUse: input.singleUse.map((one) => ({ ...one, id: own(one.id), factoryPartId: own(one.factoryPartId) })),
  }
}
