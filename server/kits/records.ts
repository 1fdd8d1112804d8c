import { counted } from '../../web/shared/text.ts'
import type { Write } from '../shared/database/database.ts'
import { longText, measured, reference, text } from '../shared/records/field.ts'
import { defineKind, type Draft, type Values } from '../shared/records/kind.ts'
import { toMeasured } from '../shared/records/measured.ts'
import { EVERYBODY, MANAGERS } from '../shared/roles.ts'
import { followKitPart } from './store.ts'

export const kit = defineKind({
  name: 'kit', plural: 'kits', path: 'kits', model: 'kit', place: 'stock', isOfBuild: false,
  fields: {
    name: text('Name', { isRequired: true }),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: MANAGERS, title: (row) => String(row.name), orderBy: [{ name: 'asc' }], hasOwnPage: true,
  holds: async (reads, row) => {
    const where = { kitId: row.id, removedAt: null }
    const users = (await Promise.all([reads.equipmentItem.count({ where }), reads.standardFitting.count({ where })])).reduce((sum, count) => sum + count, 0)
    return users > 0 ? `${counted(users, 'catalog item or standard fitting brings', 'catalog items and standard fittings bring')} this kit. Change them first.` : null
  },
  firstStep: { why: 'The small parts that always come with a piece of equipment.', example: 'Door speaker kit: 2 terminals, 4 screws, 0.4 m speaker wire, 1 foam ring.' },
})

export const kitPart = defineKind({
  name: 'kit part', plural: 'kit parts', path: 'kit-parts', model: 'kitPart', place: 'stock', isOfBuild: false,
  fields: {
    kitId: reference('Kit', 'kit', { isRequired: true, isListed: true, isFixed: true }),
    materialId: reference('Material', 'material', { isRequired: true, isListed: true }),
    quantity: measured('How much', 'form', { isRequired: true, isListed: true, note: 'For one unit of the equipment, net, with its unit. Open builds follow, except where somebody adjusted it.' }),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: MANAGERS, title: () => 'Kit part', titleBy: (nameIn) => nameIn('materialId'), orderBy: [{ id: 'asc' }],
  check: readQuantity,
  after: (write, row, { actor }) => followKitPart(write, row.id, actor),
  afterRemoval: (write, row, actor) => followKitPart(write, row.id, actor),
  firstStep: { why: 'What one unit of the equipment takes.', example: 'Crimp terminal 6.3 mm, 2.' },
})

async function readQuantity(write: Write, { values }: Draft): Promise<Values> {
  const { form } = await write.material.findUniqueOrThrow({ where: { id: String(values.materialId) }, select: { form: true } })
  return { form, quantity: toMeasured('quantity', 'How much', values.quantity, form) }
}
