import { CREDIT_NOTES, INVOICE_NOTES, type ShownFigure, type ShownInvoice } from '../../web/accounts/invoiceTable.tsx'
import { makeSheet, type MadeSheet, type PaperSize } from '../shared/pdf/makeSheet.ts'
import type { Cell, Piece } from '../shared/pdf/library.ts'
import { columnHead, heading, note, titledTable, together } from '../shared/pdf/pieces.ts'
import { invoicePaper } from './invoiceData.ts'
import type { StoredInvoice } from './store.ts'

/** An issued invoice or credit note as PDF, from its frozen content alone. */
export function invoicePdf(invoice: StoredInvoice, paper: PaperSize, onMissing: (signs: readonly string[]) => void): Promise<MadeSheet> {
  const { titleBlock, customer, vehicle, shown, note: words, credits } = invoicePaper(invoice)
  const content: Piece[] = [
    together(heading('For'), ...customer, { text: `Vehicle: ${vehicle}`, margin: [0, 4, 0, 0] }),
    ...(credits === '' ? [] : [{ text: credits, margin: [0, 4, 0, 0] as const }]),
    ...(words === '' ? [] : [{ text: words, margin: [0, 4, 0, 0] as const }]),
    ...tablesOf(shown),
    together(heading('Notes'), ...(invoice.kind === 'credit note' ? CREDIT_NOTES : INVOICE_NOTES).map((text, index) => note(`${index + 1}  ${text}`)), note(`Content SHA-256 ${invoice.contentHash}`)),
  ]
  return makeSheet({ paper, titleBlock, content }, onMissing)
}

function tablesOf({ currency, groups, taxes, sums }: ShownInvoice): Piece[] {
  const group = (name: string, width: number): Cell[][] => (name === '' ? [] : [[{ text: name, bold: true, colSpan: width }, ...Array.from({ length: width - 1 }, (): Cell => ({}))]])
  const lines = groups.flatMap(({ name, lines: own }) => [
    ...group(name, 6),
    ...own.map((line): Cell[] => [line.no, line.text, right(line.quantity), right(line.each), line.code, right(line.amount.text)]),
  ])
  const taxRows = taxes.flatMap(({ name, rows }) => [...group(name, 3), ...rows.map(({ code, net, tax }): Cell[] => [code, figure(net), figure(tax)])])
  const heads = (...names: string[]): Cell[] => names.map((name) => (name.includes(currency) ? { text: name, fontSize: 8, bold: true, alignment: 'right' } : columnHead(name)))
  return [
    ...titledTable('Lines', { widths: [18, '*', 96, 62, 50, 84], head: [...heads('No.', 'What'), { text: 'Quantity', fontSize: 8, bold: true, alignment: 'right' }, ...heads(`Price, ${currency}`, 'Tax code', `Amount, ${currency} (note 1)`)], rows: lines }),
    ...titledTable('Tax by code', { widths: ['*', 100, 110], head: heads('Tax code', `Net, ${currency}`, `Tax, ${currency} (note 2)`), rows: taxRows }),
    together(...titledTable('Sums', { widths: ['*', 110], head: heads('', `${currency} (note 3)`), rows: sums.map(({ name, figure: { text }, isTotal }): Cell[] => [{ text: name, bold: isTotal }, { text, bold: isTotal, alignment: 'right', noWrap: true }]) })),
  ]
}

const right = (text: string): Cell => ({ text, alignment: 'right' })
const figure = ({ text }: ShownFigure): Cell => ({ text, alignment: 'right', noWrap: true })
