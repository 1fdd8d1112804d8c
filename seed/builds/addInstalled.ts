import { equipmentLine } from '../../server/equipment/records.ts'
import { materialNeed } from '../../server/materials/records.ts'
import { part, partUse } from '../../server/parts/records.ts'
import { toMeasured } from '../../server/shared/records/measured.ts'
import { get, type World } from '../world.ts'
import type { Desk } from './addBuild.ts'
import { planOperations } from './operations.ts'
import type { LineRow, PartRow } from './tables.ts'

/** The made parts with their operations and materials, then what goes into what. */
export function addParts(desk: Desk): void {
  const { world: { rows }, tables, buildId, zones, things } = desk
  const all = tables.parts.flatMap(({ zone, from, parts }) => parts.map((row) => ({ row, zone, from: row.from ?? from })))
  const pieces = countPieces(all.map(({ row }) => row))
  for (const { row, zone, from } of all) {
    const id = rows.add(part, {
      zoneId: get(zones, zone), name: row.name, family: row.family, quantity: row.fit ?? (row.into ? 0 : 1),
      drawing: row.drawing ?? '', mass: row.mass ?? null, removable: row.removable ?? '', isFitted: row.isFitted ?? false,
      takeOut: row.take ?? 0, putBack: row.back ?? row.take ?? 0, cautions: row.cautions ?? '', note: row.note ?? '',
    }, { buildId, number: row.n })
    things.set(`P${row.n}`, id)
    planOperations(desk, {
      key: `P${row.n}`, owner: { partId: id }, pieces: get(pieces, String(row.n)), recipe: row.recipe, size: row.size ?? 1, progress: { ...row, from },
    })
    addNeeds(desk, { partId: id }, row.needs)
  }
  for (const { row } of all) {
    for (const [parent, quantity] of row.into ?? []) {
      rows.add(partUse, { parentId: get(things, `P${parent}`), partId: get(things, `P${row.n}`), quantity }, { buildId })
    }
  }
}

/** Pieces of every part, those in assemblies counted with their assemblies. */
function countPieces(parts: readonly PartRow[]): ReadonlyMap<string, number> {
  const byNumber = new Map(parts.map((row) => [row.n, row]))
  const count = (row: PartRow): number => (row.into ?? []).reduce((sum, [parent, quantity]) => {
    const above = byNumber.get(parent)
    return sum + (above ? count(above) * quantity : 0)
  }, row.fit ?? (row.into ? 0 : 1))
  return new Map(parts.map((row) => [String(row.n), count(row)]))
}

export function addLines(desk: Desk): void {
  for (const row of desk.tables.lines) {
    const id = addLine(desk, row)
    desk.things.set(`E${row.n}`, id)
    if (row.work) {
      planOperations(desk, {
        key: `E${row.n}`, owner: { lineId: id }, pieces: row.quantity ?? 1, recipe: row.work, size: row.size ?? 1, progress: row,
      })
    }
    addNeeds(desk, { lineId: id }, row.needs)
    if (row.kit) addKitNeeds(desk, id, row.kit, row.adjusted)
  }
}

function addLine({ world, buildId, zones, places }: Desk, row: LineRow): string {
  const { rows, days, catalog, settings } = world
  const item = row.item ? get(catalog, row.item) : null
  const dateOf = (workday: number | undefined): string | null => (workday === undefined ? null : days.workday(workday))
  const isCustomers = row.isCustomers ?? false
  return rows.add(equipmentLine, {
    zoneId: get(zones, row.zone), itemId: item?.id ?? null, name: row.name ?? item?.name ?? '', quantity: row.quantity ?? 1,
    suppliedBy: isCustomers ? 'customer' : 'shop',
    cost: isCustomers ? 0 : (item?.cost ?? 0), price: isCustomers ? 0 : (item?.price ?? 0),
    kitId: row.kit ? get(world.kits, row.kit).id : null, placeId: row.at ? get(places, row.at) : null, spacer: row.spacer ?? null,
    taxCodeId: settings.goodsTaxId, serialNumbers: row.serials ?? '', mounting: row.mounting ?? '',
    expectedOn: dateOf(row.expected ?? row.received), receivedOn: dateOf(row.received), isFitted: row.isFitted ?? false,
    takeOut: row.take ?? 0, putBack: row.back ?? row.take ?? 0, cautions: row.cautions ?? '', note: row.note ?? '',
  }, { buildId, number: row.n })
}

/** What the kit of a line brings, with what somebody adjusted there. */
function addKitNeeds({ world, buildId }: Desk, lineId: string, kit: string, adjusted = ''): void {
  const [changed = '', ...amount] = adjusted.split(' ')
  for (const { id: kitPartId, key, materialId, form, typed } of get(world.kits, kit).parts) {
    const isAdjusted = key === changed
    const quantity = isAdjusted ? amount.join(' ') : typed
    world.rows.add(materialNeed, { lineId, materialId, quantity }, { buildId, form, kitPartId, isAdjusted, quantity: toMeasured('quantity', key, quantity, form) })
  }
}

type NeedOwner = { partId: string } | { lineId: string } | { factoryPartId: string }

/** Reads 'ply18 0.62 m², glue 60 g' of a table. */
export function addNeeds({ world, buildId }: Desk, owner: NeedOwner, needs: string | undefined): void {
  for (const need of (needs ?? '').split(', ').filter((one) => one !== '')) {
    const [key = '', ...amount] = need.split(' ')
    addNeed(world, buildId, owner, key, amount.join(' '))
  }
}

function addNeed({ rows, materials }: World, buildId: string, owner: NeedOwner, key: string, quantity: string): void {
  const { id: materialId, form } = get(materials, key)
  rows.add(materialNeed, { ...owner, materialId, quantity }, { buildId, form, quantity: toMeasured('quantity', key, quantity, form) })
}
