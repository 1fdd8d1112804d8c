/** Widths of the narrow lettering in hundredths of its size, measured on the font; what is not listed counts as wide as the widest. */
const WIDTHS: readonly (readonly [hundredths: number, signs: string])[] = [
  [24, '\'!.:ijl|,; []'], [32, 'I()tf"`-r'], [41, '{}$svxyz*^ckJ'], [46, 'eo/\\_nuabdghpq'], [52, 'XZ+<=>?LY~#0123456789FGKS'], [57, 'CPABDETVwRHNUOQ'], [69, '&M%mW@'],
]
const WIDEST = 82
const widthOf = new Map(WIDTHS.flatMap(([hundredths, signs]) => [...signs].map((sign) => [sign, hundredths] as const)))

/** How wide a text stands in the narrow lettering of a size, never less than it does. */
export const narrowWidth = (text: string, size: number): number => [...text].reduce((sum, sign) => sum + (widthOf.get(sign) ?? WIDEST), 0) * size / 100

/** The text as far as it fits, with three dots where some of it is left out. */
export function fitNarrow(text: string, width: number, size: number): string {
  if (narrowWidth(text, size) <= width) return text
  const signs = [...text]
  while (signs.length > 1 && narrowWidth(`${signs.join('').trimEnd()}…`, size) > width) signs.pop()
  return `${signs.join('').trimEnd()}…`
}
