import { create } from 'qrcode'

/** Light modules around the symbol, by ISO/IEC 18004. */
const QUIET_MODULES = 4

export interface QrSymbol {
  /** Modules on a side, without the quiet zone. */
  readonly size: number
  isDark(row: number, column: number): boolean
}

/** A QR code of a text as bytes, at error correction level M: a seventh of it may be scratched. */
export function qrSymbol(text: string): QrSymbol {
  const { modules } = create([{ data: new TextEncoder().encode(text), mode: 'byte' }], { errorCorrectionLevel: 'M' })
  return { size: modules.size, isDark: (row, column) => modules.get(row, column) === 1 }
}

/** The drawn symbol with its quiet zone, one unit a module. Rows are drawn as runs, which keeps it small. */
export function qrDrawing(text: string): { readonly side: number, readonly path: string } {
  const symbol = qrSymbol(text)
  let path = ''
  for (let row = 0; row < symbol.size; row += 1) {
    for (let column = 0; column < symbol.size; column += 1) {
      if (!symbol.isDark(row, column)) continue
      const start = column
      while (column + 1 < symbol.size && symbol.isDark(row, column + 1)) column += 1
      path += `M${start + QUIET_MODULES} ${row + QUIET_MODULES}h${column - start + 1}v1H${start + QUIET_MODULES}z`
    }
  }
  return { side: symbol.size + 2 * QUIET_MODULES, path }
}

export function qrSvg(text: string): string {
  const { side, path } = qrDrawing(text)
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${side} ${side}" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h${side}v${side}H0z"/><path d="${path}"/></svg>`
}
