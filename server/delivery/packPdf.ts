import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { Piece } from '../shared/pdf/library.ts'
import { innerWidth, type PaperSize, type PdfSheet } from '../shared/pdf/makeSheet.ts'
import { columnHead, heading, note, signatureLines, table, titledTable, together } from '../shared/pdf/pieces.ts'
import { inWords } from './archivePages.ts'
import { PACK_TABLES, type PackColumn, type PackRow } from './layout.ts'
import type { Pack } from './pack.ts'
import type { Packed } from './packing.ts'
import { factPieces, nameOf, sheetPieces } from './packPdfParts.ts'

/** Which columns of each table stand on paper, and how wide. */
const ON_PAPER: Readonly<Record<string, readonly (readonly [key: string, width: number | '*' | 'auto'])[]>> = {
  'equipment': [['number', 30], ['name', '*'], ['zone', 70], ['serialNumbers', 75], ['fuse', 40], ['mounting', 95], ['warrantyUntil', 62]],
  'made-parts': [['number', 36], ['name', '*'], ['zone', 90], ['quantity', 44], ['removable', 170]],
  'finishes': [['number', 36], ['part', '*'], ['kind', 55], ['material', 70], ['color', 60], ['code', 55], ['batch', 55]],
  'alterations': [['number', 36], ['what', '*'], ['zone', 80], ['consentBy', 80], ['reversal', 120]],
  'factory-parts': [['number', 36], ['name', '*'], ['state', 90], ['where', 170]],
  'final-check': [['title', '*'], ['outcome', 75], ['measured', 50], ['note', 150], ['by', 75]],
  'open-points': [['number', 36], ['text', '*'], ['zone', 100]],
}

/** The delivery pack on paper. */
export function packSheet({ pack, pictures, sheet }: Packed, viewer: Viewer, paper: PaperSize): PdfSheet {
  const { build, vehicle, delivery } = pack
  return {
    paper, pictures: new Map([...pictures].map(([file, data]) => [nameOf(file), data])),
    titleBlock: {
      owner: pack.shop.name === '' ? 'shop not named yet' : pack.shop.name, ownerMore: [pack.shop.address, pack.shop.phone].filter((text) => text !== '').join(', '),
      title: 'Delivery pack', subtitle: [build.customer, [vehicle.make, vehicle.model, vehicle.year].filter(Boolean).join(' '), vehicle.vin === '' ? '' : `VIN ${vehicle.vin}`].filter((text) => text !== '').join(', '),
      documentType: 'Delivery pack', number: `V-${build.number.slice('B-'.length)}-1`, revision: delivery.receivedAt === null ? 'not received' : 'as received', dateOfIssue: viewer.today, language: 'en',
      createdBy: viewer.name, approvedBy: delivery.receivedBy, build: build.number, replaces: '',
    },
    content: [
      ...factPieces(pack, viewer.units),
      ...tablesOf(pack, ['factory-parts', 'open-points', 'equipment', 'made-parts', 'finishes', 'alterations'], viewer),
      heading('What this pack cannot tell'), ...pack.notRecorded.map((text) => ({ text, margin: [0, 0, 0, 3] as const })),
      ...tablesOf(pack, ['final-check'], viewer),
      ...photoPieces(pack, innerWidth(paper)),
      ...signaturePieces(pack),
      ...sheetPieces(pack, sheet, paper),
    ],
  }
}

// A short table stays with its heading on one page.
const FEW_ROWS = 8

function tablesOf(pack: Pack, names: readonly string[], viewer: Viewer): Piece[] {
  return names.flatMap((name) => {
    const found = PACK_TABLES.find((one) => one.name === name)
    const rows = found?.rows(pack) ?? []
    if (!found || rows.length === 0) return found ? [heading(found.title), { text: 'None recorded.' }] : []
    const columns = (ON_PAPER[name] ?? []).flatMap(([key, width]) => found.columns.filter((column) => column.key === key).map((column) => ({ column, width })))
    const drawn = { widths: columns.map(({ width }) => width), head: columns.map(({ column }) => columnHead(column.label)), rows: rows.map((row) => columns.map(({ column }) => cellOf(row, column, viewer, pack))) }
    return rows.length <= FEW_ROWS ? [together(heading(found.title), table(drawn))] : titledTable(found.title, drawn)
  })
}

function cellOf(row: PackRow, column: PackColumn, viewer: Viewer, { shop: { currency } }: Pack): Piece {
  const words = inWords(row[column.key] ?? null, column, viewer.units, currency)
  const quantity = Number(row.quantity ?? 1)
  const text = column.key === 'name' && quantity > 1 ? `${quantity} × ${words}` : column.key === 'warrantyUntil' ? (words === '' ? String(row.warrantyHow ?? '') : writeDay(words)) : words
  return { text, fontSize: 8.5 }
}

const PICTURES_A_ROW = 3
const TALLEST = 130

function photoPieces({ photos }: Pack, width: number): Piece[] {
  if (photos.length === 0) return [heading('Photos'), { text: 'None recorded.' }]
  const each = width / PICTURES_A_ROW - 8
  const shown = photos.map(({ file, caption, moment }): Piece => ({ stack: [{ image: nameOf(file), fit: [each, TALLEST] }, note([moment, caption].filter((word) => word !== '').join(': '))], width: each }))
  const rows = Array.from({ length: Math.ceil(shown.length / PICTURES_A_ROW) }, (_, row) => shown.slice(row * PICTURES_A_ROW, (row + 1) * PICTURES_A_ROW))
  const drawn = rows.map((columns): Piece => ({ columns, columnGap: 8, unbreakable: true, margin: [0, 0, 0, 6] }))
  return [together(heading('Photos'), ...drawn.slice(0, 1)), ...drawn.slice(1)]
}

function signaturePieces({ signatures }: Pack): Piece[] {
  if (signatures.length === 0) return [together(heading('Signed'), signatureLines([['Checked by', 'Date'], ['Explained by', 'Date'], ['Received by', 'Date, odometer']]))]
  return signatures.map(({ of, name, at, path }, index): Piece => together(
    ...(index === 0 ? [heading('Signed')] : []), { text: `${of}: ${name}, ${writeDay(at.slice(0, 10))}`, bold: true },
    ...(path === '' ? [] : [{ svg: `<svg viewBox="0 0 600 200" width="150" height="50"><path d="${path}" fill="none" stroke="black" stroke-width="3"/></svg>`, width: 150 as const }]),
  ))
}
