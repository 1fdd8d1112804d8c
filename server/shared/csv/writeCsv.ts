import { stringify } from 'csv-stringify/sync'

/**
 * Rows as a CSV file by RFC 4180: commas, CRLF, quotes where needed. A byte order mark leads, because
 * spreadsheets otherwise take UTF-8 for something else.
 */
export function writeCsv(rows: readonly (readonly string[])[]): string {
  return stringify(rows.map((row) => [...row]), { bom: true, record_delimiter: 'windows', quoted_match: /[;\t\r\n]/ })
}
