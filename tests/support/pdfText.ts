import { execFileSync, spawnSync } from 'node:child_process'

const isThere = spawnSync('pdftotext', ['-v']).status === 0

/** For the options of a test: why it is skipped where no reader of PDF is installed; in CI a skip fails. */
export const needsReader: { readonly skip?: string } = isThere ? {} : { skip: 'pdftotext of poppler-utils is not installed: no PDF is read back' }

const read = (command: string, args: readonly string[], data: Buffer): string =>
  execFileSync(command, args, { input: data, encoding: 'utf8', maxBuffer: 1 << 26 })

/** The text of a PDF as another program reads it, in the order it was drawn, with single spaces. */
export const textOfPdf = (data: Buffer): string => read('pdftotext', ['-raw', '-', '-'], data).replaceAll(/\s+/g, ' ')

/** The same page by page. */
export const pagesOfPdf = (data: Buffer): string[] =>
  read('pdftotext', ['-raw', '-', '-'], data).split('\f').slice(0, -1).map((page) => page.replaceAll(/\s+/g, ' '))

/** What a PDF says of itself, by name. */
export function factsOfPdf(data: Buffer): ReadonlyMap<string, string> {
  const lines = read('pdfinfo', ['-'], data).split('\n').map((line) => /^([^:]+):\s*(.*)$/.exec(line))
  return new Map(lines.flatMap((found) => (found ? [[found[1] ?? '', found[2] ?? '']] : [])))
}
