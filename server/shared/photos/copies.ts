import { hashOf, openPhotoFiles, placeOf } from './files.ts'

/**
 * Copies pictures from one folder to another, those that are whole there already excepted; returns the
 * places of those that are missing or damaged. Copies, no hard links: a fault of the disk in one must not be the other's.
 */
export async function copyPhotos(from: string, to: string, hashes: readonly string[]): Promise<string[]> {
  const source = openPhotoFiles(from)
  const target = openPhotoFiles(to)
  const lost: string[] = []
  for (const hash of new Set(hashes)) {
    const there = await target.read(hash, 'large')
    if (there !== null && hashOf(there) === hash) continue
    const data = await source.read(hash, 'large')
    if (data === null || hashOf(data) !== hash) lost.push(placeOf(hash))
    else await target.store(data)
  }
  return lost
}
