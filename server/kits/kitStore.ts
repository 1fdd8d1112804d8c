import type { Reads } from '../shared/database/database.ts'

const MATERIAL = { select: { id: true, number: true, name: true, packName: true, packSize: true, packCost: true, packPrice: true } } as const
const PART = { id: true, materialId: true, form: true, quantity: true, note: true, removedAt: true, material: MATERIAL } as const
const NEED = {
  id: true, kitPartId: true, materialId: true, form: true, quantity: true, isAdjusted: true, removedAt: true,
  material: { select: { name: true } }, kitPart: { select: PART },
} as const

const MOST_LINES = 100

export type StoredKit = Awaited<ReturnType<typeof loadKit>>
export type StoredLineKit = NonNullable<Awaited<ReturnType<typeof findLineKit>>>
export type KitNeed = StoredLineKit['needs'][number]

/** A kit's parts, what brings it, and the lines that have it, the latest first. */
export async function loadKit(reads: Reads, id: string) {
  const where = { kitId: id, removedAt: null }
  const [parts, items, fittings, lines] = await Promise.all([
    reads.kitPart.findMany({ where, orderBy: { id: 'asc' }, select: PART }),
    reads.equipmentItem.findMany({ where, orderBy: { number: 'asc' }, select: { id: true, number: true, maker: true, model: true } }),
    reads.standardFitting.findMany({ where, orderBy: { name: 'asc' }, select: { id: true, name: true } }),
    reads.equipmentLine.findMany({
      where: { ...where, build: { removedAt: null } }, orderBy: [{ build: { number: 'desc' } }, { number: 'asc' }], take: MOST_LINES,
      select: {
        id: true, number: true, name: true, quantity: true, build: { select: { number: true, title: true, stage: true } },
        needs: { where: { kitPart: { kitId: id } }, orderBy: { id: 'asc' }, select: NEED },
      },
    }),
  ])
  return { parts, items, fittings, lines }
}

/** A line's kit with the needs it brought, those left out too; null where the line has none. */
export async function findLineKit(reads: Reads, lineId: string) {
  const line = await reads.equipmentLine.findUnique({
    where: { id: lineId },
    select: {
      quantity: true, kit: { select: { id: true, name: true, parts: { where: { removedAt: null }, orderBy: { id: 'asc' }, select: PART } } },
      needs: { where: { kitPartId: { not: null } }, orderBy: { id: 'asc' }, select: NEED },
    },
  })
  return line?.kit ? { quantity: line.quantity, kit: line.kit, needs: line.needs } : null
}
