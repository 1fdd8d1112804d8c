import type { Cell, Layout, Piece, TextPiece } from './library.ts'

const THICK = 1.6
const THIN = 0.6

/** Thick around, thin between. */
export const FRAMED: Layout = {
  hLineWidth: (row, { table }) => (row === 0 || row === table.body.length ? THICK : THIN),
  vLineWidth: (column, { table }) => (column === 0 || column === (table.widths?.length ?? 0) ? THICK : THIN),
  paddingTop: () => 2, paddingBottom: () => 3, paddingLeft: () => 4, paddingRight: () => 4,
}

/** Thick above and below the head, thin between rows. */
export const RULED: Layout = {
  hLineWidth: (row, { table }) => {
    const heads = table.headerRows ?? 0
    if (row === 0 && heads > 1) return 0
    return row <= heads || row === table.body.length ? THICK / 1.6 : THIN / 1.5
  },
  vLineWidth: () => 0,
  paddingTop: () => 3, paddingBottom: () => 3, paddingLeft: (column) => (column === 0 ? 0 : 5), paddingRight: () => 3,
}

/** What is written above an entry. */
export const label = (text: string): { text: string, font: 'Lettering', fontSize: number } => ({ text: text.toUpperCase(), font: 'Lettering', fontSize: 6.5 })

/** A heading that the outline of the document names too. It stays with what follows. */
export function heading(text: string): TextPiece {
  return { text, fontSize: 13, bold: true, margin: [0, 10, 0, 4], outline: true, headlineLevel: 1 }
}

/** Words below what they belong to. */
export const note = (text: string): Piece => ({ text, fontSize: 8.5, margin: [0, 3, 0, 3] })

/** A heading and what stands under it, on one page. */
export const together = (...stack: Piece[]): Piece => ({ stack, unbreakable: true })

/** A box to tick with a pen; crossed where it was ticked. */
export function tickBox(isTicked = false, side = 10): Piece {
  const tick = { type: 'polyline', lineWidth: 1.4, points: [{ x: 2, y: side * 0.55 }, { x: side * 0.42, y: side - 2 }, { x: side - 1, y: 1.5 }] } as const
  return { canvas: [{ type: 'rect', x: 0, y: 0, w: side, h: side, lineWidth: 0.9 }, ...(isTicked ? [tick] : [])] }
}

export interface TableOf {
  /** Points, '*' or 'auto' for each column. */
  readonly widths: readonly (number | string)[]
  readonly head: readonly Cell[]
  readonly rows: readonly (readonly Cell[])[]
  /** A heading that comes again with the head: it never stands alone at the foot of a page. */
  readonly title?: string
  /** A line before the last column, to write initials behind. */
  readonly isWritten?: boolean
}

/** A table whose head comes again on each page, whose rows are never split, and whose head never stands alone. */
export function table({ widths, head, rows, isWritten = false, title }: TableOf): Piece {
  const titled: Cell[][] = title === undefined ? [] : [[{ text: title, fontSize: 13, bold: true, colSpan: widths.length }, ...widths.slice(1).map((): Cell => ({}))]]
  return {
    table: { widths: [...widths], headerRows: 1 + titled.length, keepWithHeaderRows: 1, dontBreakRows: true, body: [...titled, [...head], ...rows.map((row) => [...row])] },
    layout: isWritten ? { ...RULED, vLineWidth: (column) => (column === widths.length - 1 ? THIN / 1.5 : 0) } : RULED, margin: [0, 0, 0, 10],
  }
}

/** A table under its heading, which the outline names once. */
export const titledTable = (title: string, of: TableOf): Piece[] => [{ text: '\u00A0', fontSize: 1, outline: true, outlineText: title }, table({ ...of, title })]

export const columnHead = (text: string): Cell => ({ text, fontSize: 8, bold: true })

export interface PaperCaution {
  /** As C1; '' where nothing refers to it. */
  readonly number: string
  readonly signal: string
  readonly title: string
  readonly text: string
}

const HATCH_WIDTH = 12

/** Signal word, what it is about and what to do, behind a hatched edge; never split. */
export function caution({ number, signal, title, text }: PaperCaution, width: number): Piece {
  return {
    unbreakable: true, margin: [0, 0, 0, 5],
    table: {
      widths: [HATCH_WIDTH, width - HATCH_WIDTH - 20],
      body: [[
        { svg: HATCHING, width: HATCH_WIDTH },
        { stack: [{ text: [number === '' ? '' : `${number}  `, `${signal.toUpperCase()}: ${title}`], bold: true, fontSize: 10.5 }, { text }] },
      ]],
    },
    layout: { ...FRAMED, paddingLeft: (column) => (column === 0 ? 3 : 5) },
  }
}

const HATCHING = `<svg viewBox="0 0 12 24" width="12" height="24">${[-12, -6, 0, 6, 12, 18].map((y) => `<path d="M0 ${y + 12}L12 ${y}" stroke="black" stroke-width="2"/>`).join('')}</svg>`

/** Lines to sign on, in rows of as many as there are widths. */
export function signatureLines(rows: readonly (readonly string[])[]): Piece {
  const columns = Math.max(...rows.map((row) => row.length))
  const body = rows.map((row) => Array.from({ length: columns }, (_, index): Cell => {
    const name = row[index]
    return name === undefined ? { text: '' } : { stack: [label(name), { text: ' ', fontSize: 18 }] }
  }))
  return { unbreakable: true, table: { widths: Array.from({ length: columns }, () => '*'), body }, layout: FRAMED, margin: [0, 2, 0, 6] }
}
