import type { Trigger } from './triggers.ts'

interface CautionEntry {
  readonly signalWord: 'danger' | 'warning' | 'caution'
  readonly title: string
  readonly text: string
}

/**
 * What to say for each trigger. Common practice, no source; the vehicle maker, local code and
 * licensed practice decide. `{wait}` becomes the vehicle's own waiting time.
 */
export const CAUTION_TABLE: Readonly<Record<Trigger, CautionEntry>> = {
  'high voltage': {
    signalWord: 'danger',
    title: 'High voltage',
    text: 'Do not begin before a person qualified for high voltage has isolated the vehicle by the maker\'s procedure and made sure that it is dead. Never touch, move, cut or pierce orange cables. Disconnecting the 12 V battery does not make the high-voltage battery safe.',
  },
  'lift': {
    signalWord: 'danger',
    title: 'Raised vehicle',
    text: 'Raise the vehicle at the maker\'s lifting points only, on a lift or on stands rated for its weight. Never get under a vehicle that only a jack holds. Watch the balance when heavy parts come off.',
  },
  'engine indoors': {
    signalWord: 'danger',
    title: 'Exhaust gas',
    text: 'Run the engine indoors only with the exhaust extraction connected and working. Carbon monoxide has no smell and kills.',
  },
  'airbag': {
    signalWord: 'warning',
    title: 'Airbags and belt pretensioners',
    text: 'Only trained people, by the maker\'s manual. Disconnect the battery, then keep {wait}. Never put a meter or test lamp on a squib circuit. Unplug no module with the battery connected. Carry a module with its cover away from you and store it face up, alone.',
  },
  'hot work': {
    signalWord: 'warning',
    title: 'Welding and heat',
    text: 'Disconnect battery and control modules by the maker\'s procedure before welding. No fuel, fuel vapor, solvent or foam near by. Extinguisher at hand, and a fire watch while you work and afterward.',
  },
  'power wiring': {
    signalWord: 'warning',
    title: 'Power wiring',
    text: 'Disconnect the supply before you touch its wiring. Fuse at the source, proper crimps, grommets and abrasion protection; no unfused run through metal. A cable left behind is insulated at its end and taken off its source.',
  },
  'second battery': {
    signalWord: 'warning',
    title: 'Lithium or second battery',
    text: 'Charge, vent and store it by the battery maker\'s rules. Its terminals stay live when the main battery is off: cover them. Hold it down against crash loads.',
  },
  'drilling': {
    signalWord: 'warning',
    title: 'Drilling, cutting and screws into the body',
    text: 'Look at the far side first: fuel and brake lines, harness, airbag, high-voltage cable. Use a depth stop. Protect bare metal against rust when you are done. Structural metal by the maker\'s repair manual only.',
  },
  'seat or belt': {
    signalWord: 'warning',
    title: 'Seats and belts',
    text: 'Anchorages, their bolts and torques by the maker\'s manual only. Never shim them, never use another bolt, never estimate a torque. Have latch, lock and travel checked before anybody rides.',
  },
  'driver assistance': {
    signalWord: 'warning',
    title: 'Driver assistance',
    text: 'Cameras, radar and ultrasonic sensors may have to be calibrated by the maker\'s procedure after this work, even when they were only moved. Until then the functions may fail or act wrongly: tell the driver.',
  },
  'chemicals': {
    signalWord: 'warning',
    title: 'Resin, hardener, adhesive, paint and solvent',
    text: 'Read the safety data sheet. Ventilation, the respirator it names, gloves, eye protection, no ignition source. Mixed pots and soaked rags can heat up and burn by themselves: spread them out in the open or keep them under water in metal.',
  },
  'dust': {
    signalWord: 'warning',
    title: 'Dust and chips',
    text: 'Extraction on, respirator, eye and ear protection. Aluminum dust can burn and explode: keep it away from sparks and out of the wood dust. No gloves at turning tools.',
  },
  'heavy item': {
    signalWord: 'warning',
    title: 'Heavy item',
    text: 'Two people or a hoist. Never leave it loose in the vehicle: it is fixed to structure against crash loads or it is out.',
  },
  'moving mechanism': {
    signalWord: 'warning',
    title: 'Moving mechanism',
    text: 'Pinch points. Take its supply off before you reach in. Limit switches and the lock that lets it move only at rest are tested before delivery.',
  },
  'driver view': {
    signalWord: 'warning',
    title: 'The driver\'s view and reach',
    text: 'Nothing may block the view, switches, vents or the path of an airbag. Screens that the driver can see follow local law.',
  },
  'added mass': {
    signalWord: 'warning',
    title: 'Load',
    text: 'Stay inside the load on the tire placard and the axle ratings. Tell the owner what load remains.',
  },
  'spare wheel': {
    signalWord: 'caution',
    title: 'Spare wheel and jack',
    text: 'If the spare wheel or jack is out, tell the owner and give another means of getting on. Mind the load it carried and the tire monitoring.',
  },
  'level test': {
    signalWord: 'caution',
    title: 'Level tests',
    text: 'Hearing protection for all in and around the vehicle; doors closed; local noise law.',
  },
}
