import type { Viewer } from '../../web/shared/viewer.ts'
import { checkOf } from '../checks/checked.ts'
import { loadShopHead, loadVehicleState } from '../restoration/store.ts'
import type { Reads } from '../shared/database/database.ts'
import type { PhotoFiles, PhotoSize } from '../shared/photos/files.ts'
import { readPicture } from '../shared/photos/reading.ts'
import { listPictures } from '../sheets/store.ts'
import { toPack, type Pack, type PackSources } from './pack.ts'
import { sheetOf, type PackedSheet } from './packSheet.ts'
import { loadDelivery } from './store.ts'

export interface Packed {
  readonly pack: Pack
  /** By their names in the pack. */
  readonly pictures: ReadonlyMap<string, Buffer>
  /** Null where no order is possible. */
  readonly sheet: PackedSheet | null
}

/** The records of a pack. Throws a 404. */
export async function packRecords(reads: Reads, buildId: string, showsMoney: boolean): Promise<Pack> {
  return toPack(await loadSources(reads, buildId), showsMoney)
}

/** The records with their pictures; a picture that is gone from the disk is named as missing, not left out silently. */
export async function packWhole(reads: Reads, files: PhotoFiles, buildId: string, { showsMoney, size, viewer }: { showsMoney: boolean, size: PhotoSize, viewer: Viewer }): Promise<Packed> {
  const sources = await loadSources(reads, buildId)
  const pack = toPack(sources, showsMoney)
  const pictures = new Map<string, Buffer>()
  const missing: string[] = []
  const fileOf = new Map<string, string>()
  for (const [index, { file }] of pack.photos.entries()) {
    const hash = sources.stored.build.photos[index]?.hash ?? ''
    const data = await readPicture(files, hash, size)
    if (data === null) missing.push(file)
    else pictures.set(file, data)
    if (data !== null && !fileOf.has(hash)) fileOf.set(hash, file)
  }
  const notRecorded = missing.length === 0 ? pack.notRecorded : [...pack.notRecorded, `Missing from the shop’s store of pictures: ${missing.join(', ')}.`]
  const sheet = sheetOf({ pack, state: sources.state, shop: await loadShopHead(reads), viewer, showsMoney, pictures: await listPictures(reads, buildId), fileOf })
  return { pictures, sheet, pack: { ...pack, notRecorded, photos: pack.photos.filter(({ file }) => pictures.has(file)) } }
}

const loadSources = async (reads: Reads, buildId: string): Promise<PackSources> =>
  ({ stored: await loadDelivery(reads, buildId), checked: await checkOf(reads, buildId), state: await loadVehicleState(reads, buildId) })
