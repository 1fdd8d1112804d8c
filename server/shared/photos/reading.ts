import type { PhotoFiles, PhotoSize } from './files.ts'
import { toSmall } from './picture.ts'

/** A picture of the store, or null. The small size can be made anew at any time, so a copy of the store need not hold it. */
export async function readPicture(files: PhotoFiles, hash: string, size: PhotoSize): Promise<Buffer | null> {
  const there = await files.read(hash, size)
  if (there !== null || size === 'large') return there
  const large = await files.read(hash, 'large')
  if (large === null) return null
  const small = await toSmall(large)
  await files.storeSmall(hash, small)
  return small
}
