import { writeDay } from '../../web/shared/day.ts'
import type { Units } from '../../web/shared/viewer.ts'
import { formatQuantity } from '../calc/figures.ts'
import type { Piece } from '../shared/pdf/library.ts'
import { columnHead, heading, note, table } from '../shared/pdf/pieces.ts'
import type { Pack } from './pack.ts'

/** What was said and handed over, and the load with how it comes about. */
export function factPieces({ build, delivery }: Pack, units: Units): Piece[] {
  const mass = (value: number): string => formatQuantity(value, 'mass', units)
  const unknown = delivery.massUnknown.length === 0 ? '' : ` No mass is recorded of ${delivery.massUnknown.join(', ')}: the true figure is lower.`
  const load = delivery.remainingLoad === null || delivery.placardLoad === null ? `Added mass ${mass(delivery.addedMass)}. The load on the tire placard is not recorded, so what remains is not known.${unknown}`
    : `Remains for occupants and cargo: ${mass(delivery.placardLoad)} on the tire placard less ${mass(delivery.addedMass)} added = ${mass(delivery.remainingLoad)}.${unknown}`
  return [
    heading('As delivered'),
    { text: [build.deliveredOn === null ? 'Not delivered yet' : `Delivered ${writeDay(build.deliveredOn)}`, delivery.odometer === null ? 'odometer not recorded' : `at ${formatQuantity(delivery.odometer, 'distance', units)}`, delivery.explainedBy === '' ? '' : `explained by ${delivery.explainedBy}`, delivery.receivedBy === '' ? 'not signed for' : `received by ${delivery.receivedBy}`].filter((text) => text !== '').join(', ') },
    heading('Load'), { text: load }, note('Parts that came out are not taken off, they may go back in. Axle ratings are a limit of their own. Steps for the load limit, 49 CFR 575.6.'),
    heading('Care and use'), { text: orNone(delivery.careAndUse) },
    heading('Before a sale, a lease return or a dealer visit'), { text: orNone(delivery.beforeSale) },
    ...(delivery.note === '' ? [] : [heading('Note'), { text: delivery.note }]),
  ]
}

const orNone = (text: string): string => (text === '' ? 'Not recorded.' : text)

/** The steps of the return to stock. */
export function backPieces({ returnToStock: { steps } }: Pack): Piece[] {
  if (steps.length === 0) return []
  return [
    heading('Return to stock, step by step'),
    table({
      widths: [24, 62, '*', 130, 80], head: ['No.', 'Phase', 'What to do', 'Fasteners and torque', 'Where it is'].map(columnHead),
      rows: steps.map(({ number, phase, zone, text, notes, cautions, fasteners, place }) => [
        { text: String(number), fontSize: 8.5 }, { text: [phase, zone].filter((word) => word !== '').join(', '), fontSize: 8.5 },
        { text: [text, notes, cautions === '' ? '' : `[${cautions}]`].filter((word) => word !== '').join(' '), fontSize: 8.5 }, { text: fasteners, fontSize: 8.5 }, { text: place, fontSize: 8.5 },
      ]),
    }),
    note('“Maker’s manual” means that nobody noted the torque: look it up, never guess. Where the maker’s manual differs, the manual holds.'),
  ]
}
