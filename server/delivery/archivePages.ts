import type { ArchivePageData, ArchiveTable } from '../../web/delivery/archive.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Units } from '../../web/shared/viewer.ts'
import { formatQuantity } from '../calc/figures.ts'
import { formatMoney } from '../calc/money.ts'
import { PACK_TABLES, shownColumns, unitOfColumn, type Cell, type PackColumn, type PackTable } from './layout.ts'
import type { Pack } from './pack.ts'

/** Drawn as a whole: the sheet takes the place of what is told about it. */
export const SHEET_PAGE = 'return-to-stock.html'

const PAGES = [
  { file: 'index.html', name: 'Delivery', tables: ['factory-parts', 'open-points'] },
  { file: 'equipment.html', name: 'What was built in', tables: ['equipment', 'made-parts', 'finishes', 'alterations'] },
  { file: 'check.html', name: 'Final check', tables: ['final-check'] },
  { file: SHEET_PAGE, name: 'Return to stock', tables: [] },
  { file: 'photos.html', name: 'Photos', tables: [] },
  { file: 'layout.html', name: 'Layout of the records', tables: [] },
] as const

/** The pages of the archive, in order. */
export function archivePages(pack: Pack, units: Units): ArchivePageData[] {
  return PAGES.map(({ file, name, tables }) => ({
    file, title: name, head: headOf(pack), pages: PAGES.map((page) => ({ file: page.file, name: page.name })),
    facts: file === 'index.html' ? factsOf(pack, units) : [],
    words: wordsOf(file, pack),
    tables: file === 'layout.html' ? PACK_TABLES.map((table) => layoutOf(table, pack)) : PACK_TABLES.filter((table) => tables.some((one) => one === table.name)).map((table) => tableOf(table, pack, units)),
    lists: file === SHEET_PAGE ? PACK_TABLES.filter(({ name: one }) => one === 'return-to-stock' || one === 'parts-to-buy').map((table) => ({ name: table.title, file: `data/${table.name}.csv` })) : [],
    signatures: file === 'index.html' ? pack.signatures.map((signature) => ({ ...signature, at: `${signature.at.slice(0, 16).replace('T', ' ')} UTC` })) : [],
    pictures: file === 'photos.html' ? pack.photos.map((photo) => ({ file: photo.file, width: photo.width, height: photo.height, caption: [photo.moment, photo.caption].filter((word) => word !== '').join(': ') })) : [],
  }))
}

function headOf({ shop, build, vehicle }: Pack): ArchivePageData['head'] {
  return {
    number: build.number, build: build.title, vehicle: [vehicle.make, vehicle.model, vehicle.year].filter(Boolean).join(' '), shop: [shop.name, shop.address.replaceAll('\n', ', '), shop.phone].filter((text) => text !== '').join(', '),
    delivered: build.deliveredOn === null ? 'not delivered yet' : `delivered ${writeDay(build.deliveredOn)}`,
  }
}

function factsOf({ build, vehicle, delivery }: Pack, units: Units): ArchivePageData['facts'] {
  const mass = (value: number | null): string => (value === null ? '' : formatQuantity(value, 'mass', units))
  const unknown = delivery.massUnknown.length === 0 ? '' : `; no mass is recorded of ${delivery.massUnknown.join(', ')}, so the true figure is another`
  return [
    { label: 'Customer', text: build.customer }, { label: 'VIN', text: vehicle.vin }, { label: 'Plate', text: vehicle.plate }, { label: 'The vehicle is', text: build.holding },
    { label: 'Odometer', text: delivery.odometer === null ? '' : formatQuantity(delivery.odometer, 'distance', units) },
    { label: 'Occupants and cargo by the tire placard', text: mass(delivery.placardLoad) }, { label: 'Added mass', text: `${mass(delivery.addedMass)}${unknown}` },
    { label: 'Remains for occupants and cargo', text: delivery.remainingLoad === null ? 'the placard is not recorded' : `${mass(delivery.remainingLoad)}: placard less added mass${unknown}` },
    { label: 'Explained by', text: delivery.explainedBy }, { label: 'Received by', text: delivery.receivedBy }, { label: 'Note', text: delivery.note },
  ]
}

function wordsOf(file: string, { delivery, returnToStock, notRecorded }: Pack): ArchivePageData['words'] {
  if (file === 'index.html') {
    return [{ title: 'Care and use', text: delivery.careAndUse }, { title: 'Before a sale, a lease return or a dealer visit', text: delivery.beforeSale }, { title: 'What this pack cannot tell', text: notRecorded.join('\n') }]
  }
  if (file === SHEET_PAGE && returnToStock.steps.length === 0) return [{ title: 'Verdict', text: [returnToStock.verdict, returnToStock.standing].filter((text) => text !== '').join('\n') }]
  return file === 'layout.html' ? [{ title: 'How to read the records', text: 'All records stand in data/pack.json, and each table below as CSV. README.txt says the same in plain text.' }] : []
}

function tableOf(table: PackTable, pack: Pack, units: Units): ArchiveTable {
  const rows = table.rows(pack)
  const columns = shownColumns(table, rows).filter(({ isForPrograms }) => isForPrograms !== true)
  return {
    title: table.title, note: table.what, heads: columns.map(({ label }) => label), csv: `data/${table.name}.csv`,
    rows: rows.map((row) => columns.map((column) => inWords(row[column.key] ?? null, column, units, pack.shop.currency))),
  }
}

/** A value as people read it. */
export function inWords(cell: Cell, { measures }: PackColumn, units: Units, currency: string): string {
  if (cell === null) return ''
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no'
  if (typeof cell !== 'number') return typeof cell === 'string' ? cell : cell.join(', ')
  if (measures === undefined || measures === 'count') return String(cell)
  return measures === 'money' ? formatMoney(cell, currency) : formatQuantity(cell, measures, units)
}

function layoutOf(table: PackTable, pack: Pack): ArchiveTable {
  return {
    title: `data/${table.name}.csv`, note: `${table.title}: ${table.what}. In data/pack.json at ${table.path}`, heads: ['Column', 'Unit', 'What it is'], csv: `data/${table.name}.csv`,
    rows: shownColumns(table, table.rows(pack)).map((column) => [column.key, unitOfColumn(column, pack.shop.currency), column.what]),
  }
}
