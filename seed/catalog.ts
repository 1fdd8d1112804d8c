import { equipmentItem } from '../server/equipment/records.ts'
import type { SeededKit } from './kits.ts'
import type { Rows } from './rows.ts'
import { get } from './world.ts'

type ItemRow = readonly [
  key: string, kind: string, maker: string, model: string, cost: string, price: string, leadDays: number, mass: string,
  more?: Readonly<Record<string, string | number>>,
]

// Makers and models are invented. Loads in Ω are nominal; for amplifiers the smallest that they take.
const ITEMS: readonly ItemRow[] = [
  ['head', 'source unit', 'Lissandre', 'Aperta 9', '412.00', '585.00', 4, '1.4 kg', { current: '4 A', fuse: '10 A', warrantyMonths: 24 }],
  ['stream', 'source unit', 'Lissandre', 'Rill streaming box', '186.00', '265.00', 4, '350 g', { current: '1 A', fuse: '3 A', warrantyMonths: 24 }],
  ['dsp8', 'processor', 'Harpelle', 'Octet 8', '388.00', '560.00', 6, '900 g', { current: '1.5 A', fuse: '3 A', channels: 8, warrantyMonths: 36 }],
  ['dsp12', 'processor', 'Harpelle', 'Dodeca 12', '640.00', '915.00', 8, '1.2 kg', { current: '2 A', fuse: '5 A', channels: 12, warrantyMonths: 36 }],
  ['knob', 'processor', 'Harpelle', 'Remote knob', '64.00', '95.00', 6, '90 g', { warrantyMonths: 36 }],
  ['amp2', 'amplifier', 'Vantorr', 'Slate 2.150', '268.00', '385.00', 5, '3.1 kg', { current: '38 A', resistance: '2 ohm', channels: 2, fuse: '40 A', warrantyMonths: 24 }],
  ['amp4', 'amplifier', 'Vantorr', 'Slate 4.100', '312.00', '449.00', 5, '3.8 kg', { length: '320 mm', width: '180 mm', height: '54 mm', current: '48 A', resistance: '2 ohm', channels: 4, fuse: '50 A', warrantyMonths: 24 }],
  ['amp6', 'amplifier', 'Vantorr', 'Slate 6.90', '402.00', '578.00', 5, '4.6 kg', { current: '62 A', resistance: '2 ohm', channels: 6, fuse: '80 A', warrantyMonths: 24 }],
  ['amp1', 'amplifier', 'Vantorr', 'Slate 1.900', '366.00', '525.00', 5, '4.4 kg', { current: '88 A', resistance: '1 ohm', channels: 1, fuse: '100 A', warrantyMonths: 24 }],
  ['amppa', 'amplifier', 'Grevane', 'Field 2.250', '448.00', '640.00', 10, '5.2 kg', { current: '45 A', resistance: '4 ohm', channels: 2, fuse: '60 A', warrantyMonths: 24, note: 'Conformal coated, for damp places.' }],
  ['twt25', 'speaker', 'Ostwen', 'Fenn 25 tweeter', '74.00', '109.00', 5, '85 g', { mountingDepth: '21 mm', projection: '6 mm', length: '48 mm', width: '48 mm', resistance: '4 ohm', warrantyMonths: 24 }],
  ['mid80', 'speaker', 'Ostwen', 'Fenn 80 midrange', '88.00', '129.00', 5, '420 g', { mountingDepth: '46 mm', resistance: '4 ohm', warrantyMonths: 24 }],
  ['mid100', 'speaker', 'Ostwen', 'Fenn 100 midrange', '96.00', '139.00', 5, '610 g', { mountingDepth: '52 mm', resistance: '4 ohm', warrantyMonths: 24 }],
  ['wf165', 'speaker', 'Ostwen', 'Fenn 165 midbass', '122.00', '178.00', 5, '1.5 kg', { mountingDepth: '66 mm', projection: '9 mm', length: '144 mm', width: '144 mm', resistance: '4 ohm', warrantyMonths: 24 }],
  ['wf200', 'speaker', 'Ostwen', 'Fenn 200 midbass', '148.00', '215.00', 5, '2.2 kg', { mountingDepth: '79 mm', projection: '11 mm', length: '182 mm', width: '182 mm', resistance: '4 ohm', warrantyMonths: 24 }],
  ['cx100', 'speaker', 'Ostwen', 'Lode 100 coaxial', '52.00', '79.00', 3, '720 g', { mountingDepth: '48 mm', resistance: '4 ohm', warrantyMonths: 12 }],
  ['cx165', 'speaker', 'Ostwen', 'Lode 165 coaxial', '61.00', '92.00', 3, '1.2 kg', { mountingDepth: '58 mm', projection: '14 mm', length: '142 mm', width: '142 mm', resistance: '4 ohm', warrantyMonths: 12 }],
  ['horn', 'speaker', 'Grevane', 'Tor 8 horn, weatherproof', '236.00', '340.00', 12, '4.9 kg', { mountingDepth: '210 mm', resistance: '8 ohm', warrantyMonths: 24 }],
  ['sub250', 'subwoofer', 'Kobrick', 'Deep 250', '214.00', '310.00', 6, '6.8 kg', { mountingDepth: '132 mm', resistance: '4 ohm', warrantyMonths: 24 }],
  ['sub250s', 'subwoofer', 'Kobrick', 'Deep 250 shallow', '232.00', '335.00', 6, '5.4 kg', { mountingDepth: '84 mm', projection: '13 mm', length: '236 mm', width: '236 mm', resistance: '4 ohm', warrantyMonths: 24 }],
  ['sub200', 'subwoofer', 'Kobrick', 'Deep 200', '158.00', '229.00', 6, '4.1 kg', { mountingDepth: '108 mm', resistance: '4 ohm', warrantyMonths: 24 }],
  ['strip', 'lighting', 'Dulcimar', 'Light strip warm white 1 m', '18.00', '29.00', 3, '60 g', { current: '800 mA', fuse: '2 A', warrantyMonths: 12 }],
  ['read', 'lighting', 'Dulcimar', 'Reading light, swivel', '34.00', '52.00', 4, '120 g', { current: '250 mA', warrantyMonths: 12 }],
  ['work', 'lighting', 'Dulcimar', 'Work light flush 20 W', '58.00', '86.00', 4, '540 g', { current: '1.7 A', fuse: '5 A', warrantyMonths: 24 }],
  ['agm', 'battery', 'Tarnhold', 'Second battery 60 A·h', '188.00', '272.00', 5, '18.4 kg', { warrantyMonths: 24, note: 'Absorbed glass mat. Secured against crash loads.' }],
  ['lfp', 'battery', 'Tarnhold', 'Lithium battery 100 A·h', '540.00', '765.00', 10, '11.6 kg', { warrantyMonths: 60, note: 'With its own battery monitor. Charging and venting by the maker.' }],
  ['dcdc', 'battery', 'Tarnhold', 'Charger from vehicle 30 A', '212.00', '308.00', 5, '1.1 kg', { current: '34 A', fuse: '40 A', warrantyMonths: 24 }],
  ['inv', 'battery', 'Tarnhold', 'Inverter 600 W sine', '248.00', '359.00', 8, '2.6 kg', { current: '56 A', fuse: '80 A', warrantyMonths: 24 }],
  ['fuseblk', 'wiring', 'Ampersley', 'Distribution block, 4 bolt-in fuses', '46.00', '69.00', 3, '310 g'],
  ['mainfuse', 'wiring', 'Ampersley', 'Main fuse holder, bolt-in', '24.00', '37.00', 3, '120 g', { fuse: '150 A' }],
  ['bladeblk', 'wiring', 'Ampersley', 'Blade fuse panel, 12 ways', '38.00', '57.00', 3, '240 g'],
  ['harness', 'wiring', 'Ampersley', 'Harness adapter for factory plugs', '29.00', '45.00', 6, '140 g'],
  ['iface', 'wiring', 'Harpelle', 'Factory-system interface', '142.00', '208.00', 8, '180 g', { length: '120 mm', width: '80 mm', current: '300 mA', warrantyMonths: 24 }],
  ['switch6', 'wiring', 'Ampersley', 'Switch panel, 6 ways, lit', '72.00', '108.00', 5, '260 g'],
  ['slide', 'mechanism', 'Boltonby', 'Locking drawer slides 1000 mm, pair', '134.00', '196.00', 6, '5.8 kg', { note: 'Carries 100 kg a pair.' }],
  ['strut', 'mechanism', 'Boltonby', 'Gas strut 250 N', '22.00', '34.00', 4, '240 g'],
  ['latch', 'mechanism', 'Boltonby', 'Compression latch, keyed', '31.00', '47.00', 4, '210 g'],
  ['lift', 'mechanism', 'Boltonby', 'Electric lift 400 mm', '286.00', '412.00', 15, '6.2 kg', { current: '6 A', fuse: '10 A', warrantyMonths: 24 }],
  ['screen10', 'screen', 'Lissandre', 'Pane 10', '204.00', '295.00', 6, '780 g', { current: '1.2 A', fuse: '3 A', warrantyMonths: 24 }],
  ['cam', 'other', 'Lissandre', 'Rear camera, flush', '82.00', '122.00', 4, '90 g', { current: '200 mA', warrantyMonths: 24 }],
  ['dashcam', 'other', 'Lissandre', 'Dash camera, two eyes', '118.00', '172.00', 3, '160 g', { current: '600 mA', fuse: '2 A', warrantyMonths: 24 }],
  ['radio2', 'other', 'Grevane', 'Two-way radio with remote head', '356.00', '498.00', 10, '1.6 kg', { current: '9 A', fuse: '15 A', warrantyMonths: 24, note: 'The license for it is the customer’s.' }],
  ['mic', 'other', 'Grevane', 'Wireless microphone receiver', '298.00', '425.00', 10, '950 g', { current: '500 mA', warrantyMonths: 24 }],
  ['fan', 'other', 'Dulcimar', 'Fan 80 mm, quiet', '14.00', '23.00', 4, '110 g', { current: '150 mA', warrantyMonths: 12 }],
]

/** What a line of a build takes from the catalog. */
export interface CatalogItem {
  readonly id: string
  readonly name: string
  readonly cost: string
  readonly price: string
}

const KIT_OF: Readonly<Record<string, string>> = { cx165: 'speaker', cx100: 'speaker', cam: 'camera', dashcam: 'camera' }

export function addCatalog(rows: Rows, kits: ReadonlyMap<string, SeededKit>): ReadonlyMap<string, CatalogItem> {
  return new Map(ITEMS.map(([key, kind, maker, model, cost, price, leadDays, mass, more = {}], index) => {
    const kit = KIT_OF[key]
    const kitId = kit === undefined ? null : get(kits, kit).id
    const id = rows.add(equipmentItem, { kind, maker, model, cost, price, leadDays, mass, kitId, ...more }, { number: index + 1 })
    return [key, { id, name: `${maker} ${model}`, cost, price }]
  }))
}
