import type { ReceiptData } from '../../web/custody/receipt.tsx'
import { BELONGS } from '../../web/custody/receipt.tsx'
import type { Piece } from '../shared/pdf/library.ts'
import type { PaperSize, PdfSheet } from '../shared/pdf/makeSheet.ts'
import { columnHead, heading, signatureLines, titledTable, together } from '../shared/pdf/pieces.ts'

const COLUMNS = [['No.', 36], ['Factory part', '*'], ['Zone', 80], ['Maker’s number', 80], ['Condition', 90], ['Was in', 100]] as const

/** What a customer took home, as PDF: the same words as the page that prints. */
export function receiptSheet({ titleBlock, parts, keptAt, note, signed }: Omit<ReceiptData, 'backHref' | 'pdfHref'>, paper: PaperSize): PdfSheet {
  return {
    paper, titleBlock,
    content: [
      ...titledTable('Factory parts taken home', {
        widths: COLUMNS.map(([, width]) => width), head: COLUMNS.map(([name]) => columnHead(name)),
        rows: parts.map((part) => [part.label, { text: part.name, bold: true }, part.zone, part.makerNumber, part.condition, part.from]),
      }),
      together(heading('What this means'), { text: BELONGS }, ...(keptAt === '' ? [] : [{ text: `Kept: ${keptAt}.` }]), ...(note === '' ? [] : [{ text: note }])),
      together(heading('Received by'), ...signedPieces(signed)),
    ],
  }
}

function signedPieces({ name, when, path }: ReceiptData['signed']): Piece[] {
  const words = { text: [{ text: name, bold: true }, `  ${when}`] }
  if (path === '') return [words, signatureLines([['Received by', 'Date', 'Handed over by', 'Date']])]
  return [{ svg: `<svg viewBox="0 0 600 200" width="210" height="70"><path d="${path}" fill="none" stroke="black" stroke-width="3"/></svg>`, width: 210 }, words]
}
