import { createHash } from 'node:crypto'
import { ZipFile } from 'yazl'
import { ArchivePage } from '../../web/delivery/archive.tsx'
import { ReturnToStockSheet } from '../../web/restoration/returnToStock.tsx'
import type { Reader } from '../../web/shared/amount.ts'
import { toHtml } from '../../web/shared/page.ts'
import type { Units } from '../../web/shared/viewer.ts'
import { archivePages, SHEET_PAGE } from './archivePages.ts'
import { ARCHIVE_STYLE } from './archiveStyle.ts'
import { readmeText, tableCsv } from './archiveText.ts'
import { PACK_TABLES } from './layout.ts'
import type { Packed } from './packing.ts'

const SUMS = 'checksums-sha256.txt'

/** Everything of a pack in one file that needs nothing else; the same pack gives the same bytes. */
export async function makeArchive({ pack, pictures, sheet }: Packed, units: Units): Promise<Buffer> {
  const text = (content: string): Buffer => Buffer.from(content, 'utf8')
  const files = new Map<string, Buffer>([
    ...archivePages(pack, units).map((data): [string, Buffer] => [data.file, text(toHtml(ArchivePage({ data, children: data.file === SHEET_PAGE ? sheetIn(sheet, { units, currency: pack.shop.currency }) : '' })))]),
    ['style.css', text(ARCHIVE_STYLE)], ['README.txt', text(readmeText(pack))], ['data/pack.json', text(`${JSON.stringify(pack, null, 2)}\n`)],
    ...PACK_TABLES.map((table): [string, Buffer] => [`data/${table.name}.csv`, text(tableCsv(table, pack))]),
    ...pictures,
  ])
  const sums = [...files].map(([name, data]) => `${createHash('sha256').update(data).digest('hex')}  ${name}\n`).join('')
  return zip(new Map([...files, [SUMS, text(sums)]]))
}

const SIDE_PX = 240

function sheetIn(sheet: Packed['sheet'], reader: Reader): JSX.Element {
  if (!sheet) return ''
  const pictures = new Map([...sheet.pictures].map(([id, own]) => [id, own.map(({ file, says, width, height }) => {
    const scale = Math.min(1, SIDE_PX / Math.max(width, height, 1))
    return { src: file, says: says || 'Photo of the part', width: Math.round(width * scale), height: Math.round(height * scale) }
  })]))
  return ReturnToStockSheet({ reader, data: { ...sheet.data, pictures } })
}

// A zip keeps local wall-clock time: made of local parts, it reads the same wherever it is made.
const ALWAYS = new Date(2000, 0, 1)

async function zip(files: ReadonlyMap<string, Buffer>): Promise<Buffer> {
  const archive = new ZipFile()
  for (const [name, data] of files) archive.addBuffer(data, name, { mtime: ALWAYS, mode: 0o100644, compress: !name.endsWith('.jpg'), forceDosTimestamp: true })
  archive.end()
  const pieces: Buffer[] = []
  for await (const piece of archive.outputStream) pieces.push(Buffer.from(piece as Uint8Array))
  return Buffer.concat(pieces)
}
