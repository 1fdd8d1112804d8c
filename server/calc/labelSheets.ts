/** A sheet of labels, named by its paper and sizes alone. Lengths in µm. */
export interface LabelSheet {
  readonly key: string
  readonly name: string
  readonly paper: 'A4' | 'Letter'
  readonly columns: number
  readonly rows: number
  readonly width: number
  readonly height: number
  /** From the paper's edge to the first label. */
  readonly left: number
  readonly top: number
  /** Between the columns; rows touch. */
  readonly gap: number
  /** Plain paper is cut along lines. */
  readonly isCut: boolean
}

/** Millimeters to canonical length. */
const mm = (value: number): number => Math.round(value * 1_000)
const inch = (value: number): number => Math.round(value * 25_400)

/** Width and height of the paper in µm: ISO 216 for A4; 8 1/2 × 11 in for Letter. */
export const PAPER_SIZE = { A4: [210_000, 297_000], Letter: [215_900, 279_400] } as const

/** Common sheets; how far their columns stand apart and from the edge is common practice, no source. */
export const LABEL_SHEETS: readonly LabelSheet[] = [
  { key: 'a4-3x8', name: 'A4, 3 × 8 labels of 70 × 37 mm', paper: 'A4', columns: 3, rows: 8, width: mm(70), height: mm(37), left: 0, top: mm(0.5), gap: 0, isCut: false },
  { key: 'a4-2x7', name: 'A4, 2 × 7 labels of 99.1 × 38.1 mm', paper: 'A4', columns: 2, rows: 7, width: mm(99.1), height: mm(38.1), left: mm(4.65), top: mm(15.15), gap: mm(2.5), isCut: false },
  { key: 'letter-3x10', name: 'Letter, 3 × 10 labels of 2 5/8 × 1 in', paper: 'Letter', columns: 3, rows: 10, width: inch(2.625), height: inch(1), left: inch(0.1875), top: inch(0.5), gap: inch(0.125), isCut: false },
  { key: 'a4-plain', name: 'A4, plain paper, 2 × 6 of 90 × 45 mm, to cut', paper: 'A4', columns: 2, rows: 6, width: mm(90), height: mm(45), left: mm(15), top: mm(13.5), gap: 0, isCut: true },
  { key: 'letter-plain', name: 'Letter, plain paper, 2 × 5 of 3 1/2 × 2 in, to cut', paper: 'Letter', columns: 2, rows: 5, width: inch(3.5), height: inch(2), left: inch(0.75), top: inch(0.5), gap: 0, isCut: true },
]

export const placesOn = ({ columns, rows }: Pick<LabelSheet, 'columns' | 'rows'>): number => columns * rows

/**
 * Where the n-th place of a sheet is, counted row by row from 1: its upper left corner in µm from the paper's upper left.
 *
 * @example placeOfLabel(LABEL_SHEETS[0], 5) // { x: 70000, y: 37500 }
 */
export function placeOfLabel({ columns, left, top, width, height, gap }: LabelSheet, place: number): { x: number, y: number } {
  const [row, column] = [Math.floor((place - 1) / columns), (place - 1) % columns]
  return { x: left + column * (width + gap), y: top + row * height }
}

/**
 * Which labels, by index, stand on which sheet of paper when the first goes to place `start`; null for a place left free.
 *
 * @example sheetsOfLabels(3, 4, 4) // [[null, null, null, 0], [1, 2]]
 */
export function sheetsOfLabels(count: number, placesOnSheet: number, start: number): (number | null)[][] {
  const sheets: (number | null)[][] = []
  for (let at = 0; at < start - 1 + count; at += placesOnSheet) {
    const places = Math.min(placesOnSheet, start - 1 + count - at)
    sheets.push(Array.from({ length: places }, (_, index) => (at + index < start - 1 ? null : at + index - start + 1)))
  }
  return sheets
}
