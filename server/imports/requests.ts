import { z } from 'zod'
import { decodeText, isWorkbook, type Encoding } from '../shared/csv/decode.ts'
import { plainLines, SEPARATORS, type Separator } from '../shared/csv/readCsv.ts'
import { FieldProblems, invalid } from '../shared/problems.ts'
import { isId } from '../shared/records/field.ts'
import { listKinds, type RecordKind } from '../shared/records/kind.ts'
import type { Chosen } from './columns.ts'
import { LARGEST_FILE_BYTES, type Asked } from './importing.ts'

/** The kinds that can be exported and imported. */
export const exchangedKinds = (): readonly RecordKind[] =>
  listKinds().filter((kind) => kind.knownBy !== undefined).sort((one, other) => Number(one.isOfBuild) - Number(other.isOfBuild))

const line = z.string().max(200).default('')

/** The form of a reading or an import: the text travels with it, so the server keeps nothing in between. */
export const importBody = z.looseObject({
  kind: line, build: line, text: z.string().default(''), file: z.unknown().optional(), separator: line, readSeparator: line, fingerprint: line,
})
export type ImportBody = z.infer<typeof importBody>

export interface Upload {
  readonly asked: Asked
  /** Null where the text was pasted or sent back by our own page. */
  readonly encoding: Encoding | null
}

/** What a form asks to be read. Throws FieldProblems that say which entry and what to do. */
export function toUpload(body: ImportBody): Upload {
  const kind = exchangedKinds().find(({ path }) => path === body.kind)
  if (!kind) throw invalid('kind', 'Choose what the file lists.')
  if (kind.isOfBuild && !isId(body.build)) throw invalid('build', `Choose the build that the ${kind.plural} belong to.`)
  const { text, encoding } = textOf(body)
  // Columns chosen for another separator mean nothing.
  const isReadAgain = body.readSeparator === '' || body.readSeparator === body.separator
  return {
    encoding,
    asked: { kind, buildId: kind.isOfBuild ? body.build : null, text, separator: separatorOf(body.separator), chosen: isReadAgain ? chosenIn(body) : {} },
  }
}

function textOf({ text, file }: ImportBody): { text: string; encoding: Encoding | null } {
  if (!(file instanceof Uint8Array) || file.length === 0) {
    const plain = plainLines(text)
    if (plain.trim() === '') throw new FieldProblems([{ field: 'file', message: 'Choose a file, or paste its rows below.' }])
    refuseLarge('text', Buffer.byteLength(plain))
    return { text: plain, encoding: null }
  }
  refuseLarge('file', file.length)
  if (isWorkbook(file)) throw invalid('file', 'This is a workbook, not a CSV file. Open it and save the sheet as CSV, UTF-8.')
  const decoded = decodeText(file)
  if (decoded.text.includes('\0')) throw invalid('file', 'This is no text file. Save the sheet as CSV, UTF-8.')
  return { text: plainLines(decoded.text), encoding: decoded.encoding }
}

function refuseLarge(field: string, bytes: number): void {
  if (bytes <= LARGEST_FILE_BYTES) return
  throw invalid(field, `This has ${bytes.toLocaleString('en-US')} bytes; ${LARGEST_FILE_BYTES.toLocaleString('en-US')} at most can be read at once. Divide it.`)
}

const separatorOf = (given: string): Separator | null => (given in SEPARATORS ? (given as Separator) : null)

function chosenIn(body: ImportBody): Chosen {
  const entries = Object.entries(body).flatMap(([name, value]): [number, string][] => {
    const index = /^column-(\d{1,3})$/.exec(name)?.[1]
    return index !== undefined && typeof value === 'string' ? [[Number(index), value]] : []
  })
  return Object.fromEntries(entries)
}
