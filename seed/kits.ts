import { kit, kitPart } from '../server/kits/records.ts'
import { toMeasured } from '../server/shared/records/measured.ts'
import type { MaterialIds } from './materials.ts'
import type { Rows } from './rows.ts'
import { get } from './world.ts'

type KitRow = readonly [key: string, name: string, parts: string, note?: string]

const KITS: readonly KitRow[] = [
  ['speaker', 'Speaker kit', 'wire25 1.5 m, terminal 2, m5x20 4, ringSeal 1', 'For one speaker.'],
  ['amplifier', 'Amplifier kit, 35 mm²', 'wire35 5.5 m, wire35b 0.8 m, lug 4, grommet 2, sleeve 4 m, m6x20 4', 'For one amplifier with its own feed.'],
  ['source', 'Dash kit', 'adapter 1, tape 3 m', 'Adapter and tape; the frame comes with the source unit.'],
  ['camera', 'Camera kit', 'tape 4 m, grommet 1, tap 2'],
  ['lighting', 'Light kit', 'wire4 3 m, tap 2, tape 1 m'],
]

/** The kits' ids by the short keys that other tables use. */
export function addKits(rows: Rows, materials: MaterialIds): ReadonlyMap<string, string> {
  return new Map(KITS.map(([key, name, parts, note = '']) => {
    const kitId = rows.add(kit, { name, note })
    for (const part of parts.split(', ')) addPart(rows, kitId, part, materials)
    return [key, kitId]
  }))
}

function addPart(rows: Rows, kitId: string, part: string, materials: MaterialIds): void {
  const [key = '', ...amount] = part.split(' ')
  const { id: materialId, form } = get(materials, key)
  const typed = amount.join(' ')
  const quantity = toMeasured('quantity', key, typed, form)
  rows.add(kitPart, { kitId, materialId, quantity: typed }, { form, quantity })
}
