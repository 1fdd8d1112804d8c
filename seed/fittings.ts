import { standardFitting } from '../server/counter/records.ts'
import type { CatalogItem } from './catalog.ts'
import type { SeededKit } from './kits.ts'
import type { Rows } from './rows.ts'
import type { Settings } from './shop.ts'
import { get } from './world.ts'

type FittingRow = readonly [name: string, place: string, skill: string, setUp: string, run: string, item?: string | undefined, kit?: string | undefined, cautions?: string | undefined, note?: string]

// The demo shop's own hours, of the size that is common practice (no source): four speakers in 2 to 4 h, two doors damped in 3 to 5 h.
const FITTINGS: readonly FittingRow[] = [
  ['Speaker in a front door', 'front doors', 'fitting', '30 min', '45 min', 'cx165', 'speaker', 'airbag', 'Door panel off and on in it.'],
  ['Speaker in a rear door', 'rear doors', 'fitting', '30 min', '40 min', 'cx165', 'speaker'],
  ['Speaker in the rear shelf', 'rear shelf', 'fitting', '45 min', '30 min', 'cx165', 'speaker', 'drilling'],
  ['Tweeter on the dash', 'dash', 'fitting', '20 min', '25 min', 'twt25', undefined, 'driver view'],
  ['Door damped', 'front doors', 'fitting', '30 min', '1.75 h', undefined, undefined, 'airbag', 'One door, outer and inner skin.'],
  ['Source unit with dash kit', 'dash', 'fitting', '30 min', '1.5 h', 'head', 'source'],
  ['Amplifier with power feed', 'load floor', 'wiring', '1.5 h', '1.5 h', 'amp4', 'amplifier', 'power wiring,drilling'],
  ['Factory-system interface', 'dash', 'wiring', '30 min', '1.5 h', 'iface'],
  ['Subwoofer in a ready box', 'load floor', 'wiring', '30 min', '1 h', 'sub250', 'speaker', 'heavy item'],
  ['Rear camera', 'outside', 'wiring', '45 min', '1.5 h', 'cam', 'camera', 'driver assistance'],
  ['Dash camera', 'dash', 'wiring', '20 min', '1 h', 'dashcam', 'camera', 'driver view,driver assistance'],
  ['Second battery with charger', 'load floor', 'wiring', '1 h', '2.5 h', 'agm', 'amplifier', 'second battery,power wiring'],
  ['Reading light', 'headliner', 'wiring', '30 min', '30 min', 'read', 'lighting', 'airbag'],
  ['Work light outside', 'outside', 'wiring', '45 min', '40 min', 'work', 'lighting', 'drilling'],
  ['Two-way radio', 'dash', 'wiring', '45 min', '2 h', 'radio2', 'source'],
  ['Looking for a fault, first hour', 'dash', 'wiring', '1 h', '0', undefined, undefined, undefined, 'What follows is asked for first.'],
]

export function addFittings(rows: Rows, { skills }: Settings, catalog: ReadonlyMap<string, CatalogItem>, kits: ReadonlyMap<string, SeededKit>): void {
  for (const [name, place, skill, setUp, run, item, kit, cautions = '', note = ''] of FITTINGS) {
    const itemId = item === undefined ? null : get(catalog, item).id
    const kitId = kit === undefined ? null : get(kits, kit).id
    rows.add(standardFitting, { name, place, ...get(skills, skill), setUp, run, itemId, kitId, cautions, note })
  }
}
