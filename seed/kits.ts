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

/** A kit with its parts as they were typed. */
export interface SeededKit {
  readonly id: string
  readonly parts: readonly { readonly id: string; readonly key: string; readonly materialId: string; readonly form: string; readonly typed: string }[]
}

/** The kits by the short keys that other tables use. */
export function addKits(rows: Rows, materials: MaterialIds): ReadonlyMap<string, SeededKit> {
  return new Map(KITS.map(([key, name, parts, note = '']) => {
    const id = rows.add(kit, { name, note })
    return [key, { id, parts: parts.split(', ').map((part) => addPart(rows, id, part, materials)) }]
  }))
}

function addPart(rows: Rows, kitId: string, part: string, materials: MaterialIds): SeededKit['parts'][number] {
  const [key = '', ...amount] = part.split(' ')
  const { id: materialId, form } = get(materials, key)
  const typed = amount.join(' ')
  const quantity = toMeasured('quantity', key, typed, form)
  return { id: rows.add(kitPart, { kitId, materialId, quantity: typed }, { form, quantity }), key, materialId, form, typed }
}
