import type { BillInput, MaterialForm, SingleUse } from '../calc/parts/billInput.ts'
import { asPlanned, isAsItCame } from '../calc/restoration/asPlanned.ts'
import { toFastenerName } from '../calc/removal/fastenerText.ts'
import { listFastenersToRenew } from '../calc/restoration/partsToBuy.ts'
import type { FastenerToRenew } from '../calc/restoration/partsToBuy.ts'
import { planRestoration } from '../calc/restoration/restoration.ts'
import type { LaborInput } from '../calc/estimate/operations.ts'
import type { TimeEntry, TimeKind } from '../calc/hours/timeEntries.ts'
import { inOrderWritten } from '../hours/store.ts'
import { ratioFor, toOperation } from '../operations/toOperation.ts'
import { label } from '../shared/records/kind.ts'
import type { StoredBuild } from './store.ts'

/** What the calculations are given of a build: the records in use, and only what hangs together. */
export interface BuildInputs {
  readonly bill: BillInput
  readonly labor: LaborInput
  readonly entries: readonly TimeEntry[]
  /** Single-use parts whose price nobody knows: they count nothing. */
  readonly unpriced: number
}

/**
 * A part that was taken away takes its uses, operations and needs out of the figures with it, until it
 * is taken back. Hours logged on it stay hours of the build.
 */
export function toInputs(stored: StoredBuild): BuildInputs {
  const known = new Set([...stored.parts, ...stored.lines, ...stored.factoryParts].map(({ id }) => id))
  const bill = toBillInput(stored, known)
  const { parts, partUses, equipment, factoryParts, zones } = bill
  const unpricedIds = new Set(stored.recorded.factoryParts.flatMap(({ fasteners }) => fasteners).filter(({ priceMinor }) => priceMinor === null).map(({ id }) => id))
  return {
    bill,
    labor: { parts, partUses, equipment, factoryParts, zones, ...toOperations(stored, known) },
    entries: toEntries(stored, known),
    unpriced: bill.singleUse.filter(({ id, materialId }) => materialId === null && unpricedIds.has(id)).length,
  }
}

type Known = ReadonlySet<string>
type Owned = Pick<StoredBuild['operations'][number], 'partId' | 'lineId' | 'factoryPartId'>

const ownerOf = ({ partId, lineId, factoryPartId }: Owned): string => partId ?? lineId ?? factoryPartId ?? ''

function toBillInput(stored: StoredBuild, known: Known): BillInput {
  return {
    zones: stored.zones.map(({ id, name }) => ({ id, name })),
    parts: stored.parts.map(({ id, number, name, zoneId, quantity }) => ({ id, number: label('P', number), name, zoneId, quantity })),
    partUses: stored.uses.filter(({ parentId, partId }) => known.has(parentId) && known.has(partId)),
    equipment: stored.lines.map(({ id, number, name, zoneId, quantity, suppliedBy, cost, price, expectedOn, receivedOn, item }) => ({
      id, number: label('E', number), name, zoneId, quantity, suppliedBy: suppliedBy === 'customer' ? 'customer' : 'shop',
      costMinor: cost, priceMinor: price, leadDays: item?.leadDays ?? 0, expectedOn, isReceived: receivedOn !== null,
    })),
    factoryParts: stored.factoryParts.map(({ id, number, name, zoneId }) => ({ id, number: label('F', number), name, zoneId })),
    materials: stored.materials.map(({ id, number, name, form, packSize, packName, packCost, packPrice, waste, leadDays }) => ({
      id, number: label('M', number), name, form: form as MaterialForm, packQuantity: packSize, packName,
      packCostMinor: packCost, packPriceMinor: packPrice, wasteThousandths: waste, leadDays,
    })),
    needs: stored.needs.filter((need) => known.has(ownerOf(need))).map((need) => ({
      id: need.id, materialId: need.materialId, quantity: need.quantity, partId: need.partId, equipmentLineId: need.lineId,
      factoryPartId: need.factoryPartId, zoneId: null, ...(need.kitPart ? { by: `kit ${need.kitPart.kit.name}` } : {}), expectedOn: need.receivedOn === null ? need.expectedOn : null, isReceived: need.receivedOn !== null,
    })),
    singleUse: listRenewed(stored).map((renewed) => toSingleUse(renewed, stored)),
  }
}

/** What the way of the whole vehicle back takes of new fasteners; as planned until anything is out. */
function listRenewed({ recorded }: StoredBuild): FastenerToRenew[] {
  const state = isAsItCame(recorded) ? asPlanned(recorded) : recorded
  const plan = planRestoration({ ...state, choice: 'all' })
  // Where the order runs in a ring, the restoration's own page says so.
  return plan.kind === 'refused' ? [] : listFastenersToRenew(state.factoryParts, plan)
}

function toSingleUse({ part, fastener }: FastenerToRenew, { materials, fasteners }: StoredBuild): SingleUse {
  const { id, count, isSingleUse, breakThousandths, priceMinor } = fastener
  const materialId = fasteners.find((one) => one.id === id)?.materialId ?? null
  // A count can only be taken from what is counted.
  const isCounted = materials.some((material) => material.id === materialId && material.form === 'each')
  return {
    id, name: toFastenerName(fastener), materialId: isCounted ? materialId : null, factoryPartId: part.id, count, isUsedOnce: isSingleUse,
    breakThousandths, costMinor: priceMinor ?? 0, priceMinor: priceMinor ?? 0,
  }
}

function toOperations({ operations, departments, corrections }: StoredBuild, known: Known): Pick<LaborInput, 'operations' | 'departments'> {
  return {
    operations: operations.filter((operation) => operation.removedAt === null && known.has(ownerOf(operation)))
      .map((operation) => toOperation(operation, { partId: operation.partId, equipmentLineId: operation.lineId, factoryPartId: operation.factoryPartId }, ratioFor(operation, corrections))),
    departments: departments.map(({ id, name, costRate, sellRate, reworkAllowance }) =>
      ({ id, name, costRateMinor: costRate, sellRateMinor: sellRate, reworkThousandths: reworkAllowance })),
  }
}

function toEntries({ entries, operations }: StoredBuild, known: Known): TimeEntry[] {
  const operationOf = new Map(operations.map((operation) => [operation.id, operation]))
  return inOrderWritten(entries).map(({ id, operationId, personId, kind, seconds, correctsId }) => {
    const operation = operationOf.get(operationId)
    const partId = operation?.partId ?? null
    return {
      id, operationId, personId, kind: kind as TimeKind, seconds, correctsId,
      partId: partId !== null && known.has(partId) ? partId : null, departmentId: operation?.departmentId ?? null,
    }
  })
}
