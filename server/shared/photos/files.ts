import { createHash, randomUUID } from 'node:crypto'
import * as nodeDisk from 'node:fs/promises'
import { dirname, join } from 'node:path'

/** What of the file system the store uses; tests put a failing one in its place. */
export type Disk = Pick<typeof nodeDisk, 'mkdir' | 'open' | 'rename' | 'rm' | 'readFile' | 'stat'>

export type PhotoSize = 'large' | 'small'

export interface PhotoFiles {
  readonly folder: string
  /** Writes a picture under the hash of its bytes, whole or not at all. The same bytes twice are one file. */
  store(data: Buffer): Promise<string>
  storeSmall(hash: string, data: Buffer): Promise<void>
  /** Null where the file is missing. */
  read(hash: string, size: PhotoSize): Promise<Buffer | null>
}

export const hashOf = (data: Buffer): string => createHash('sha256').update(data).digest('hex')

/** Where a picture lies within a folder of pictures: ab/ab12….jpg */
export const placeOf = (hash: string, size: PhotoSize = 'large'): string =>
  join(hash.slice(0, 2), `${hash}${size === 'small' ? '-small' : ''}.jpg`)

export function openPhotoFiles(folder: string, disk: Disk = nodeDisk): PhotoFiles {
  return {
    folder,
    store: async (data) => {
      const hash = hashOf(data)
      const file = join(folder, placeOf(hash))
      if (await sizeOf(disk, file) !== data.length) await writeWhole(disk, file, data)
      return hash
    },
    storeSmall: (hash, data) => writeWhole(disk, join(folder, placeOf(hash, 'small')), data),
    read: async (hash, size) => {
      try {
        return await disk.readFile(join(folder, placeOf(hash, size)))
      } catch (error) {
        if (isMissing(error)) return null
        throw error
      }
    },
  }
}

/** Written under another name, synced, renamed, and the folder synced: what stands under its name is whole, also after a cut of the power. */
async function writeWhole(disk: Disk, file: string, data: Buffer): Promise<void> {
  const unfinished = `${file}.${randomUUID()}.part`
  await disk.mkdir(dirname(file), { recursive: true, mode: 0o700 })
  try {
    const handle = await disk.open(unfinished, 'wx', 0o600)
    try {
      await handle.writeFile(data)
      await handle.sync()
    } finally {
      await handle.close()
    }
    await disk.rename(unfinished, file)
  } catch (error) {
    await disk.rm(unfinished, { force: true })
    throw error
  }
  await syncFolder(disk, dirname(file))
}

async function syncFolder(disk: Disk, folder: string): Promise<void> {
  const handle = await disk.open(folder, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}

async function sizeOf(disk: Disk, file: string): Promise<number | null> {
  try {
    return (await disk.stat(file)).size
  } catch (error) {
    if (isMissing(error)) return null
    throw error
  }
}

const codeOf = (error: unknown): string => (error instanceof Error && 'code' in error ? String(error.code) : '')
export const isMissing = (error: unknown): boolean => codeOf(error) === 'ENOENT'
export const isFull = (error: unknown): boolean => ['ENOSPC', 'EDQUOT'].includes(codeOf(error))
