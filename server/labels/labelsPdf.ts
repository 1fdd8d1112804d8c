import type { Label } from '../../web/labels/labels.tsx'
import { placeOfLabel, placesOn, PAPER_SIZE, sheetsOfLabels, type LabelSheet } from '../calc/labelSheets.ts'
import { qrSvg } from '../shared/qrSymbol.ts'
import { readCoverage, writeInSigns } from '../shared/pdf/signs.ts'
import { maker } from '../shared/pdf/typefaces.ts'
import type { Drawn, Piece } from '../shared/pdf/library.ts'

/** µm to points. */
const points = (um: number): number => um * 72 / 25_400

/** Where a piece lies on its page, whatever stands before it. */
type Laid = Piece & { readonly absolutePosition: { readonly x: number, readonly y: number } }

interface Asked {
  readonly labels: readonly Label[]
  readonly sheet: LabelSheet
  readonly start: number
  readonly origin: string
}

/** The sheets of labels as PDF, each label at its millimeter. Signs the fonts lack are named to `onMissing`. */
export async function labelsPdf({ labels, sheet, start, origin }: Asked, onMissing: (signs: readonly string[]) => void): Promise<Buffer> {
  const pages = sheetsOfLabels(labels.length, placesOn(sheet), start)
  const missing = new Set<string>()
  const content = pages.map((places, page) => ({
    stack: places.flatMap((at, index) => (at === null ? [] : oneLabel(labels[at], sheet, index + 1, origin))),
    ...(page === 0 ? {} : { pageBreak: 'before' as const }),
  }))
  const written = writeInSigns(content, await readCoverage(), missing) as unknown[]
  const [width, height] = PAPER_SIZE[sheet.paper]
  const made = await maker.createPdf({
    pageSize: { width: points(width), height: points(height) } as unknown as 'A4', pageMargins: [0, 0, 0, 0], version: '1.7', language: 'en-US',
    info: { title: 'Labels', creator: 'Putback', producer: 'Putback' }, defaultStyle: { font: 'Text', fontSize: 8, lineHeight: 1.05 },
    content: written.length === 0 ? [''] : written,
  }).getBuffer()
  if (missing.size > 0) onMissing([...missing])
  return made
}

const PAD = 2_000
const LARGEST_CODE = 30_000

function oneLabel(label: Label | undefined, sheet: LabelSheet, place: number, origin: string): Laid[] {
  if (!label) return []
  const { x, y } = placeOfLabel(sheet, place)
  const code = Math.min(sheet.height - PAD, LARGEST_CODE)
  const isLow = sheet.height < 30_000
  const textAt = x + PAD + code + PAD / 2
  const width = points(sheet.width - 2 * PAD - code - PAD / 2)
  const at = (left: number, top: number) => ({ absolutePosition: { x: points(left), y: points(top) } })
  const isTall = sheet.height > 40_000
  const below = [[label.kind, label.zone].filter((word) => word !== '').join(', '), `${label.build} ${label.vehicle}`]
  return [
    ...(sheet.isCut ? [{ canvas: [frame(sheet)], ...at(x, y) }] : []),
    { svg: qrSvg(`${origin}${label.path}`), width: points(code), ...at(x + PAD / 2, y + (sheet.height - code) / 2) },
    {
      ...at(textAt, y + (isTall ? 5_500 : isLow ? 2_500 : 3_500)),
      columns: [{
        width,
        stack: [
          { text: label.number, font: 'Lettering', fontSize: isLow ? 13 : 17 },
          { text: shorten(label.name, width, isTall ? 3 : 2), bold: true, fontSize: isLow ? 8 : 9.5 },
          ...below.map((text) => ({ text: shorten(text, width, 2), fontSize: isLow ? 7 : 8 })),
        ],
      }],
    },
  ]
}

const frame = ({ width, height }: LabelSheet): Drawn =>
  ({ type: 'rect', x: 0, y: 0, w: points(width), h: points(height), lineWidth: 0.4, dash: { length: 2 } })

// A sign of the text face is about half its size wide; what is longer would run into the next label.
const WIDTH_OF_SIGN = 4.4
function shorten(text: string, width: number, lines: number): string {
  const most = Math.floor(width / WIDTH_OF_SIGN) * lines
  return text.length <= most ? text : `${text.slice(0, most - 2).trimEnd()} …`
}
