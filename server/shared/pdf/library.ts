import { createRequire } from 'node:module'

// Its own types bring those of browsers into every file of the server; these are the pieces that sheets are made of.

export type Piece = string | TextPiece | StackPiece | ColumnsPiece | ListPiece | TablePiece | ImagePiece | SvgPiece | CanvasPiece

interface Placed {
  readonly margin?: readonly [left: number, top: number, right: number, bottom: number]
  readonly alignment?: 'left' | 'right' | 'center'
  /** Within columns: points, '*' or 'auto'. */
  readonly width?: number | '*' | 'auto'
  readonly unbreakable?: boolean
  readonly pageBreak?: 'before' | 'after'
  readonly headlineLevel?: number
  readonly fontSize?: number
  readonly bold?: boolean
  readonly font?: 'Text' | 'Lettering'
  readonly lineHeight?: number
  readonly colSpan?: number
  readonly rowSpan?: number
  readonly color?: string
  readonly fillColor?: string
  readonly noWrap?: boolean
  readonly link?: string
  /** Told to whoever decides where pages break. */
  readonly style?: string
}

export interface TextPiece extends Placed {
  readonly text: string | readonly Piece[]
  /** Named in the document's outline. */
  readonly outline?: boolean
  readonly outlineText?: string
  readonly outlineExpanded?: boolean
}

export interface StackPiece extends Placed { readonly stack: readonly Piece[] }
export interface ColumnsPiece extends Placed { readonly columns: readonly Piece[], readonly columnGap?: number }
export interface ListPiece extends Placed { readonly ul: readonly Piece[] }
/** By the name given in the sheet's pictures. */
export interface ImagePiece extends Placed { readonly image: string, readonly fit?: readonly [width: number, height: number] }
export interface SvgPiece extends Placed { readonly svg: string, readonly height?: number }
export interface CanvasPiece extends Placed { readonly canvas: readonly Drawn[] }

export type Drawn =
  | { readonly type: 'rect', readonly x: number, readonly y: number, readonly w: number, readonly h: number, readonly lineWidth?: number, readonly dash?: { readonly length: number } }
  | { readonly type: 'line', readonly x1: number, readonly y1: number, readonly x2: number, readonly y2: number, readonly lineWidth?: number }
  | { readonly type: 'polyline', readonly points: readonly { readonly x: number, readonly y: number }[], readonly lineWidth?: number, readonly closePath?: boolean }

export interface TablePiece extends Placed {
  readonly table: {
    readonly body: readonly (readonly Cell[])[]
    readonly widths: readonly (number | string)[]
    readonly headerRows?: number
    readonly keepWithHeaderRows?: number
    readonly dontBreakRows?: boolean
  }
  readonly layout?: Layout
}

/** Empty where another cell spans over it. */
export type Cell = Piece | Readonly<Record<string, never>>

interface LaidTable { readonly table: { readonly body: readonly unknown[], readonly widths?: readonly unknown[], readonly headerRows?: number } }

export interface Layout {
  hLineWidth?(row: number, node: LaidTable): number
  vLineWidth?(column: number, node: LaidTable): number
  paddingTop?(row: number): number
  paddingBottom?(row: number): number
  paddingLeft?(column: number): number
  paddingRight?(column: number): number
}

export interface Definition {
  readonly pageSize: 'A4' | 'LETTER'
  readonly pageMargins: readonly [left: number, top: number, right: number, bottom: number]
  readonly version: string
  readonly language: string
  readonly displayTitle: boolean
  readonly info: Readonly<Record<string, string | Date>>
  readonly defaultStyle: { readonly font: string, readonly fontSize: number, readonly lineHeight: number, readonly fontFeatures?: readonly string[] }
  readonly images: Readonly<Record<string, string>>
  readonly content: readonly unknown[]
  readonly pageBreakBefore?: (node: { readonly headlineLevel?: number }, around: { getFollowingNodesOnPage(): readonly { readonly text?: unknown, readonly style?: string }[] }) => boolean
  footer(page: number, count: number): readonly unknown[]
}

interface Made {
  getBuffer(): Promise<Buffer>
  getStream(): Promise<unknown>
}

interface Maker {
  setFonts(fonts: Readonly<Record<string, Readonly<Record<string, string>>>>): void
  setUrlAccessPolicy(isAllowed: (url: string) => boolean): void
  setLocalAccessPolicy(isAllowed: (path: string) => boolean): void
  createPdf(definition: Partial<Definition>): Made
}

export const maker = createRequire(import.meta.url)('pdfmake') as Maker
