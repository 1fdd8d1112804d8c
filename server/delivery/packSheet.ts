import type { ReturnToStockData } from '../../web/restoration/returnToStock.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { toRestoration } from '../restoration/result.ts'
import { sheetData } from '../restoration/sheetData.ts'
import type { ShopHead, VehicleState } from '../restoration/store.ts'
import type { FrozenPicture } from '../sheets/content.ts'
import type { Pack } from './pack.ts'

/** The whole return-to-stock sheet as it stands in a pack. */
export interface PackedSheet {
  readonly data: Omit<ReturnToStockData, 'backHref' | 'pictures'>
  /** By the id of the part or alteration; called as the pack calls its photos. */
  readonly pictures: ReadonlyMap<string, readonly (FrozenPicture & { readonly file: string })[]>
}

interface Sources {
  readonly pack: Pack
  readonly state: VehicleState
  readonly shop: ShopHead
  readonly viewer: Viewer
  readonly showsMoney: boolean
  /** What each part and alteration looked like. */
  readonly pictures: Readonly<Record<string, readonly FrozenPicture[]>>
  /** The pack's photos by what is stored. */
  readonly fileOf: ReadonlyMap<string, string>
}

const WHOLE = { parts: 'all', basis: undefined } as const

/** Null where no order is possible; the pack says why. */
export function sheetOf({ pack, state, shop, viewer, showsMoney, pictures, fileOf }: Sources): PackedSheet | null {
  if ('sentence' in toRestoration(state, WHOLE)) return null
  const { backHref: _backHref, ...data } = sheetData(state, shop, { ...viewer, role: showsMoney ? viewer.role : 'delivery' }, WHOLE)
  const shown = new Set(data.checklist.steps.flatMap(({ thingId }) => thingId ?? []))
  const inPack = (own: readonly FrozenPicture[]) => own.flatMap((picture) => {
    const file = fileOf.get(picture.hash)
    return file === undefined ? [] : [{ ...picture, file }]
  })
  return {
    data: { ...data, standing: pack.returnToStock.standing },
    pictures: new Map(Object.entries(pictures).filter(([id]) => shown.has(id)).map(([id, own]) => [id, inPack(own)])),
  }
}
