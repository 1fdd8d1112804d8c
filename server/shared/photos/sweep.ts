import { readdir, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { hashOf, isMissing, openPhotoFiles, placeOf } from './files.ts'

/** What the records say lies in the store. */
export interface PhotoRow {
  readonly hash: string
  readonly bytes: number
}

/** What does not fit together, both ways. */
export interface Sweep {
  readonly counted: number
  /** Pictures of the records whose file is missing. */
  readonly missing: readonly string[]
  /** Files that are not what their name says. */
  readonly damaged: readonly string[]
  /** Files that no record names: left by a write that broke off, or by going back to an older copy. */
  readonly unnamed: readonly string[]
}

/** Compares the records with the files. Without `isThorough` only lengths are looked at, which costs no reading. */
export async function sweepPhotos(folder: string, rows: readonly PhotoRow[], isThorough: boolean): Promise<Sweep> {
  const expected = new Map(rows.map(({ hash, bytes }) => [hash, bytes]))
  const missing: string[] = []
  const damaged: string[] = []
  for (const [hash, bytes] of expected) {
    const found = await (isThorough ? readHash(folder, hash) : readLength(folder, hash))
    if (found === null) missing.push(placeOf(hash))
    else if (found !== hash && found !== bytes) damaged.push(placeOf(hash))
  }
  const unnamed = (await listFiles(folder)).filter((name) => !expected.has(/^[0-9a-f]{2}\/([0-9a-f]{64})(?:-small)?\.jpg$/.exec(name)?.[1] ?? ''))
  return { counted: expected.size, missing, damaged, unnamed }
}

export const isSound = ({ missing, damaged }: Sweep): boolean => missing.length + damaged.length === 0

const MOST_NAMED = 5

/** The findings in sentences; none where all fits. */
export function findingsOf({ missing, damaged, unnamed }: Sweep): string[] {
  const told = (names: readonly string[], one: string, many: string): string[] => names.length === 0 ? [] : [
    `${names.length} ${names.length === 1 ? one : many}: ${names.slice(0, MOST_NAMED).join(', ')}${names.length > MOST_NAMED ? ' …' : ''}`,
  ]
  return [
    ...told(missing, 'picture of the records has no file', 'pictures of the records have no file'),
    ...told(damaged, 'file is not the picture that its name says', 'files are not the pictures that their names say'),
    ...told(unnamed, 'file is named by no record and may be deleted', 'files are named by no record and may be deleted'),
  ]
}

async function readHash(folder: string, hash: string): Promise<string | null> {
  const data = await openPhotoFiles(folder).read(hash, 'large')
  return data === null ? null : hashOf(data)
}

async function readLength(folder: string, hash: string): Promise<number | null> {
  try {
    return (await stat(join(folder, placeOf(hash)))).size
  } catch (error) {
    if (isMissing(error)) return null
    throw error
  }
}

async function listFiles(folder: string): Promise<string[]> {
  try {
    const entries = await readdir(folder, { recursive: true, withFileTypes: true })
    return entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1)).sort()
  } catch (error) {
    if (isMissing(error)) return []
    throw error
  }
}
