import { writeDay } from '../../web/shared/day.ts'
import type { Units } from '../../web/shared/viewer.ts'
import { formatQuantity } from '../calc/figures.ts'
import type { Piece } from '../shared/pdf/library.ts'
import type { PaperSize } from '../shared/pdf/makeSheet.ts'
import { heading, note } from '../shared/pdf/pieces.ts'
import { contentOf } from '../sheets/pdfContent.ts'
import type { Pack } from './pack.ts'
import type { PackedSheet } from './packSheet.ts'

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

/** The whole return-to-stock sheet on pages of its own, or why there is none. */
export function sheetPieces({ returnToStock: { standing }, shop: { currency } }: Pack, sheet: PackedSheet | null, paper: PaperSize): Piece[] {
  const name = { text: 'Return-to-stock sheet', fontSize: 16, bold: true, outline: true, pageBreak: 'before' } as const
  if (!sheet) return [name, { text: standing }]
  const pictures = new Map([...sheet.pictures].map(([id, own]) => [id, own.map((picture) => ({ ...picture, hash: nameOf(picture.file) }))]))
  return [name, ...contentOf(sheet.data, { units: 'metric', currency }, paper, pictures)]
}

/** What a photo of the pack is called among the pictures of its paper. */
export const nameOf = (file: string): string => file.replace('photos/', '')
