/** What was found at the final check of the wagon, by the key of the point; all else was right. */
export const FOUND: Readonly<Record<string, { readonly value?: string, readonly power?: string, readonly load?: string, readonly note?: string, readonly outcome?: 'let pass' | 'does not apply' }>> = {
  'alterations': { outcome: 'let pass', note: 'Told to Gideon Farrow at delivery; his consent in writing is to follow.' },
  'fault-codes': { note: 'All control units read, none stored.' },
  'high-voltage': { note: 'Looked over by the qualified person, orange cables untouched.' },
  'rest-voltage': { value: '12.64 V' }, 'charge-voltage': { value: '14.2 V' }, 'load-voltage': { value: '13.6 V' }, 'key-off-current': { value: '31 mA', note: 'after 22 minutes' },
  'voltage-drop.4': { value: '180 mV' }, 'voltage-drop.6': { value: '240 mV' },
  'gain.4': { value: '19.7 V', power: '100 W', load: '4 Ω' },
  'presets': { note: 'High pass 80 Hz on all four channels, set with the maker’s knobs.' },
  'noise': { note: 'Quiet in hybrid and engine drive.' },
}

export const DELIVERY = {
  odometer: '38,290 km', placardLoad: '510 kg',
  careAndUse: 'Lock the drawer before you drive off; at most 60 kg of instruments in it.\nThe charger begins two minutes after start and stops with the vehicle.\nA blown fuse is replaced by one of the same rating only; if it blows again, come back.\nOrange cables and the service plug under the load floor, left, stay untouched and within reach.',
  beforeSale: 'The vehicle is leased: call two months before it goes back, so that it can be returned to stock in time.\nBring the luggage cover, which is with the surveyors.\nBefore a dealer visit at the rear lamps say that the ignition signal is tapped there.',
  note: 'Second key explained.',
} as const

export const STORY = {
  title: 'A field office in a wagon',
  opening: 'Two surveyors wanted their instruments in a drawer, their plans on a desk and music on the way home, and a wagon that can become a plain wagon again in a day.',
  closing: 'Nothing is glued. Every factory part has its place in the store, and a sheet tells the way back, bolt by bolt.',
  showsPeople: true, parts: [['Drawer unit', 'Bolted into the lashing eyes'], ['Desk flap', 'Lifts off its hinge pins'], ['Amplifier board', 'Behind the side panel']],
} as const

/** Pictures that were taken of the wagon, drawn by a made-up hand. */
export const PICTURES = [
  { moment: 'before', caption: 'Cargo area as it came', scene: 'empty bay', day: -790 },
  { moment: 'before', caption: 'Rear seats folded, liner still in', scene: 'liner', day: -790 },
  { moment: 'during', caption: 'Drawer carcass in clamps', scene: 'clamps', day: -789 },
  { moment: 'during', caption: 'Amplifier board, wiring laid out', scene: 'board', day: -786 },
  { moment: 'after', caption: 'Drawer unit with its desk flap', scene: 'drawer', day: -783 },
  { moment: 'after', caption: 'Instruments in their foam', scene: 'foam', day: -783 },
] as const
