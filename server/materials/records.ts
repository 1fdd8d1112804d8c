import { TRIGGERS } from '../calc/removal/triggers.ts'
import type { Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { invalid } from '../shared/problems.ts'
import { checks, choice, date, longText, measured, money, quantity, reference, text, whole } from '../shared/records/field.ts'
import { defineKind, type Draft, type Values } from '../shared/records/kind.ts'
import { toMeasured } from '../shared/records/measured.ts'
import { BENCH, EVERYBODY, MANAGERS } from '../shared/roles.ts'

export const MATERIAL_FORMS = ['each', 'length', 'area', 'volume', 'mass'] as const

export const material = defineKind({
  name: 'material', plural: 'materials', path: 'materials', model: 'material', place: 'stock', isOfBuild: false,
  number: { prefix: 'M', within: 'shop' }, knownBy: ['name', 'packName'],
  fields: {
    name: text('Name', { isRequired: true }),
    form: choice('Used by', MATERIAL_FORMS, { isListed: true, initial: 'each', note: 'Each, or by length, area, volume or mass.' }),
    packName: text('Bought as', { isRequired: true, isListed: true, note: 'Sheet 2440 × 1220, can 1 kg, bag of 50.' }),
    packSize: measured('In one pack', 'form', { isRequired: true, isListed: true, note: 'With its unit: 2.98 m², 750 mL, 50.' }),
    packCost: money('Cost of a pack', { isRequired: true, isListed: true }),
    packPrice: money('Price of a pack', { isRequired: true }),
    waste: quantity('Waste on top', 'share', { initial: 0, largest: 3000, note: 'Until cut plans decide: 15 %.' }),
    supplier: text('Supplier'),
    leadDays: whole('Lead time in working days', 0, 400, { initial: 0 }),
    cautions: checks('Cautions', TRIGGERS),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: MANAGERS, title: (row) => String(row.name), orderBy: [{ name: 'asc' }],
  check: checkMaterial,
  holds: async (reads, row) => {
    const needs = await reads.materialNeed.count({ where: { materialId: row.id, removedAt: null } })
    if (needs > 0) return `${needs} needs in builds use it. Change them first.`
    const parts = await reads.kitPart.count({ where: { materialId: row.id, removedAt: null } })
    return parts > 0 ? `${parts} parts of kits use it. Change them first.` : null
  },
  firstStep: { why: 'The bill of materials counts packs.', example: 'Birch plywood 12 mm, by area, sheet 2440 × 1220, 2.98 m².' },
})

async function checkMaterial(write: Write, { id, before, values }: Draft): Promise<Values> {
  if (before && before.form !== values.form) {
    const where = { materialId: id ?? '' }
    const needs = (await write.materialNeed.count({ where })) + (await write.kitPart.count({ where }))
    if (needs > 0) throw invalid('form', 'Needs in builds and parts of kits are measured in the present form. Make a new material instead.')
  }
  return { packSize: toMeasured('packSize', 'In one pack', values.packSize, values.form) }
}

export const materialNeed = defineKind({
  name: 'material need', plural: 'material needs', path: 'material-needs', model: 'materialNeed', place: 'builds', isOfBuild: true,
  fields: {
    materialId: reference('Material', 'material', { isRequired: true, isListed: true }),
    quantity: measured('How much', 'form', { isRequired: true, isListed: true, note: 'For one piece of the part, one unit of equipment, or the whole factory part; net, without waste. With its unit.' }),
    partId: reference('For the made part', 'made part', { isFixed: true, isListed: true }),
    lineId: reference('For the equipment', 'equipment line', { isFixed: true, isListed: true }),
    factoryPartId: reference('For the factory part', 'factory part', { isFixed: true, isListed: true }),
    expectedOn: date('Expected', { isListed: true }),
    receivedOn: date('Received'),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: BENCH, title: () => 'Material need', titleBy: (nameIn) => needTitle(nameIn), orderBy: [{ id: 'asc' }],
  check: checkNeed, after: markAdjusted,
  firstStep: { why: 'What a part takes, for one piece.', example: 'Front baffle: 0.24 m² birch plywood 18 mm.' },
})

function needTitle(nameIn: (field: string) => string): string {
  const owner = ['partId', 'lineId', 'factoryPartId'].map(nameIn).find((name) => name !== '') ?? ''
  return owner === '' ? nameIn('materialId') : `${nameIn('materialId')} for ${owner}`
}

async function checkNeed(write: Write, { before, values }: Draft): Promise<Values> {
  const owners = ['partId', 'lineId', 'factoryPartId'].filter((name) => typeof values[name] === 'string')
  if (owners.length !== 1) throw invalid('partId', 'Choose one: a made part, an equipment line or a factory part.')
  const used = await write.material.findUniqueOrThrow({ where: { id: String(values.materialId) }, select: { form: true } })
  const isOfKit = typeof before?.kitPartId === 'string'
  // None of a kit's part is a way to leave it out.
  const quantity = toMeasured('quantity', 'How much', values.quantity, used.form, isOfKit ? 0 : 1)
  return { form: used.form, quantity }
}

/** A part of a kit that somebody changes in one line no longer follows the kit. */
async function markAdjusted(write: Write, row: Row, { before }: Draft): Promise<void> {
  const isOfKit = typeof row.kitPartId === 'string' && before !== null
  if (!isOfKit || (row.quantity === before.quantity && row.materialId === before.materialId)) return
  await write.materialNeed.update({ where: { id: row.id }, data: { isAdjusted: true } })
}
