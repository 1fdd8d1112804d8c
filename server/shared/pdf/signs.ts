import { maker, type Typeface } from './typefaces.ts'

type Covers = (sign: string) => boolean

interface LaidOut {
  readonly fontCache: Readonly<Record<Typeface, Readonly<Record<string, { readonly font: { hasGlyphForCodePoint(codePoint: number): boolean } }>>>>
}

/** Whether a typeface has a sign in each of its weights, by the fonts' own tables. */
export type Coverage = Readonly<Record<Typeface, Covers>>

let known: Promise<Coverage> | null = null

export function readCoverage(): Promise<Coverage> {
  known ??= readFonts()
  return known
}

async function readFonts(): Promise<Coverage> {
  const specimen = (['Text', 'Lettering'] as const).flatMap((font) => [{ text: '.', font }, { text: '.', font, bold: true }])
  const laidOut = await maker.createPdf({ content: specimen }).getStream() as unknown as LaidOut
  const coverOf = (face: Typeface): Covers => {
    const fonts = Object.values(laidOut.fontCache[face]).map(({ font }) => font)
    return (sign) => fonts.every((font) => font.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0))
  }
  return { Text: coverOf('Text'), Lettering: coverOf('Lettering') }
}

// Drawn alike, and in the fonts.
const ALIKE: Readonly<Record<string, string>> = { '\u2011': '-', '\u2010': '-', '\u202F': '\u00A0', '\u2007': '\u00A0', '\t': ' ', '\u200B': '' }
const isLayout = (sign: string): boolean => sign === '\n'

/** The text in signs that the typeface has; what it has not stands as its code, as [U+2610], and is added to `missing`. */
export function inSigns(text: string, covers: Covers, missing: Set<string>): string {
  return [...text.normalize('NFC')].map((sign) => {
    const alike = ALIKE[sign] ?? sign
    if (alike === '' || isLayout(alike) || covers(alike)) return alike
    missing.add(sign)
    return `[U+${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}]`
  }).join('')
}

const HOLDS_TEXT = ['text', 'stack', 'columns', 'ul', 'ol', 'outlineText'] as const

/** A piece of a sheet with every text in it written so. The library writes into what it is given: this is a copy. */
export function writeInSigns(node: unknown, coverage: Coverage, missing: Set<string>, face: Typeface = 'Text'): unknown {
  if (typeof node === 'string') return inSigns(node, coverage[face], missing)
  if (Array.isArray(node)) return node.map((one) => writeInSigns(one, coverage, missing, face))
  if (node === null || typeof node !== 'object') return node
  const piece = node as Readonly<Record<string, unknown>>
  const own = piece.font === 'Lettering' ? 'Lettering' : face
  const written = HOLDS_TEXT.filter((name) => name in piece).map((name) => [name, writeInSigns(piece[name], coverage, missing, own)] as const)
  const table = piece.table as { readonly body: unknown } | undefined
  return { ...copyOf(piece), ...Object.fromEntries(written), ...(table === undefined ? {} : { table: { ...copyOf(table), body: writeInSigns(table.body, coverage, missing, own) } }) }
}

// The library moves what is drawn while it lays out. Layouts hold functions and stay as they are.
const isDrawing = (name: string, value: unknown): boolean => Array.isArray(value) && name !== 'body' && !HOLDS_TEXT.some((own) => own === name)
const copyOf = (piece: object): Record<string, unknown> =>
  Object.fromEntries(Object.entries(piece).map(([name, value]) => [name, isDrawing(name, value) ? structuredClone(value) : value]))
