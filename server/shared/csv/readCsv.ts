import { CsvError, parse } from 'csv-parse/sync'

export const SEPARATORS = { comma: ',', semicolon: ';', tab: '\t' } as const
export type Separator = keyof typeof SEPARATORS

export interface CsvRow {
  /** Where the row begins in the file, counted from 1, quoted line breaks included. */
  readonly line: number
  readonly cells: readonly string[]
}

export interface CsvText {
  /** Rows with something in them. */
  readonly rows: readonly CsvRow[]
  /** The line whose quotes never close: what follows cannot be read. */
  readonly openQuoteLine: number | null
}

/** One way to end a line, so that a text keeps its lines on the way through a form. */
export const plainLines = (text: string): string => text.replace(/^\ufeff/, '').replace(/\r\n?/g, '\n')

/** The rows of a CSV text by RFC 4180, and lenient where spreadsheets and people are: quotes within a cell, uneven rows, empty lines. */
export function readCsv(text: string, separator: Separator): CsvText {
  const rows: CsvRow[] = []
  let ended = 0
  const keep = (record: string[], { lines }: { lines: number }): null => {
    if (record.some((cell) => cell.trim() !== '')) rows.push({ line: ended + 1, cells: record })
    ended = lines
    return null
  }
  try {
    parse(plainLines(text), {
      delimiter: SEPARATORS[separator], record_delimiter: '\n', relax_column_count: true, relax_quotes: true, on_record: keep,
    })
    return { rows, openQuoteLine: null }
  } catch (error) {
    if (!(error instanceof CsvError) || error.code !== 'CSV_QUOTE_NOT_CLOSED') throw error
    return { rows, openQuoteLine: ended + 1 }
  }
}

/** The separator that a heading line uses most outside of quotes; a comma where it has none. */
export function detectSeparator(text: string): Separator {
  const heading = plainLines(text).split('\n').find((line) => line.trim() !== '') ?? ''
  const bare = heading.replace(/"[^"]*"/g, '')
  const counts = Object.entries(SEPARATORS).map(([name, sign]) => ({ name: name as Separator, count: bare.split(sign).length - 1 }))
  return counts.reduce((best, one) => (one.count > best.count ? one : best)).name
}
