import { guarded } from '../shared/csv/guard.ts'
import { writeCsv } from '../shared/csv/writeCsv.ts'
import { PACK_TABLES, shownColumns, unitOfColumn, type Cell, type PackTable } from './layout.ts'
import type { Pack } from './pack.ts'

/** One table as CSV: a row of keys, then the values as the JSON has them. */
export function tableCsv(table: PackTable, pack: Pack): string {
  const rows = table.rows(pack)
  const columns = shownColumns(table, rows)
  return writeCsv([columns.map(({ key }) => key), ...rows.map((row) => columns.map(({ key }) => inCell(row[key] ?? null)))])
}

function inCell(cell: Cell): string {
  if (cell === null) return ''
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no'
  return typeof cell === 'number' ? String(cell) : guarded(typeof cell === 'string' ? cell : cell.join(' | '))
}

/** What the archive holds and how to read it, for somebody who has nothing but the archive. */
export function readmeText(pack: Pack): string {
  const { build, vehicle } = pack
  const tables = PACK_TABLES.flatMap((table) => [
    '', `data/${table.name}.csv`, `  ${table.title}. ${table.what}. In pack.json: ${table.path}`,
    ...shownColumns(table, table.rows(pack)).map((column) => {
      const unit = unitOfColumn(column, pack.shop.currency)
      return `  ${column.key}${unit === '' ? '' : ` [${unit}]`}: ${column.what}.`
    }),
  ])
  return [
    `${build.number} ${build.title}`, [vehicle.make, vehicle.model, vehicle.year].filter(Boolean).join(' '), '',
    'This archive tells what was built into the vehicle, what was kept and how it goes back.',
    'Open index.html in any browser; it needs no network and no script.', '',
    'Layout: putback-delivery-pack, version 1. It is open: read it with whatever you like.',
    'checksums-sha256.txt holds the SHA-256 of every other file: sha256sum -c checksums-sha256.txt', '',
    'data/pack.json holds all records, UTF-8, RFC 8259. Each table also stands alone as CSV: UTF-8 with a byte',
    'order mark, commas, CRLF, RFC 4180; the first row names the columns as the JSON does. Whole numbers that',
    'measure something are in the unit named in brackets. Empty: not recorded. Several values are joined by " | ".',
    'A leading apostrophe marks a text that a spreadsheet would take for a formula; it is no part of the text.',
    'Instants are ISO 8601 in UTC, days YYYY-MM-DD.', '',
    'In pack.json alone: shop, build, vehicle; delivery with odometer [m], placardLoad, addedMass and',
    'remainingLoad [g]; signatures with path, the drawn line as SVG path data on 600 × 200;',
    'returnToStock.cautions, verdict and standing; notRecorded, what this pack cannot tell.', ...tables, '',
  ].join('\r\n')
}
