import { makeSheet, type MadeSheet, type PaperSize } from '../shared/pdf/makeSheet.ts'
import type { ReturnToStockData } from '../../web/restoration/returnToStock.tsx'
import type { Reader } from '../../web/shared/amount.ts'
import type { FrozenPicture } from './content.ts'
import { contentOf } from './pdfContent.ts'

export interface PdfOrder {
  readonly paper: PaperSize
  readonly data: Omit<ReturnToStockData, 'backHref'>
  readonly reader: Reader
  readonly pictures: ReadonlyMap<string, readonly FrozenPicture[]>
  readPicture(hash: string): Promise<Buffer | null>
  onMissing(signs: readonly string[]): void
}

/** The return-to-stock sheet as PDF, with its pictures in it: it stands alone. */
export async function makePaperPdf({ paper, data, reader, pictures, readPicture, onMissing }: PdfOrder): Promise<MadeSheet> {
  const hashes = [...new Set([...pictures.values()].flat().map(({ hash }) => hash))]
  const files = new Map<string, Buffer>()
  for (const hash of hashes) {
    const file = await readPicture(hash)
    if (file) files.set(hash, file)
  }
  const shown = new Map([...pictures].map(([id, own]) => [id, own.filter(({ hash }) => files.has(hash))]))
  return makeSheet({ paper, titleBlock: data.titleBlock, content: contentOf(data, reader, paper, shown), pictures: files }, onMissing)
}
