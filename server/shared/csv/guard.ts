// OWASP's list for CSV injection: = + - @, tab, carriage return, line feed and the full-width forms;
// ASVS 5.0, 1.2.10, adds the null sign. An apostrophe is in it so that taking one off is always right.
const GUARDED = /^['=+\-@\t\r\n\0＝＋－＠]/

/** A text as a cell that no spreadsheet takes for a formula: a leading apostrophe marks it as text. */
export const guarded = (text: string): string => (GUARDED.test(text) ? `'${text}` : text)

/** The text of a cell without the apostrophe that marks it as text. */
export const unguarded = (cell: string): string => (cell.startsWith("'") ? cell.slice(1) : cell)
