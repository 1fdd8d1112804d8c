import type { z } from 'zod'
import type { Checked } from '../checks/checked.ts'
import { warrantyOf } from '../calc/warranty.ts'
import type { VehicleState } from '../restoration/store.ts'
import { listSerials } from '../service/serials.ts'
import { label } from '../shared/records/kind.ts'
import { keptParts } from './kept.ts'
import { loadOf } from './load.ts'
import { backOf } from './packBack.ts'
import type { packSchema } from './schemas.ts'
import type { StoredDelivery } from './store.ts'

export type Pack = z.infer<typeof packSchema>

/** What a delivery pack is drawn from. */
export interface PackSources {
  readonly stored: StoredDelivery
  readonly checked: Checked
  readonly state: VehicleState
}

const NOT_RECORDED = [
  'Channel map: none is recorded for this build; which amplifier channel drives which speaker is noted in the final check at most.',
  'Circuits: none are recorded for this build; fuses stand with the equipment as its makers ask for them, routes and gauges do not.',
]

/** Everything the pack holds, as plain records. Codes, places of keys, hours and people’s own entries are none of it; prices only where asked. */
export function toPack({ stored, checked, state }: PackSources, showsMoney: boolean): Pack {
  const { build, shop, explainedBy } = stored
  const { delivery, vehicle } = build
  const { added, remaining } = loadOf(build)
  return {
    layout: 'putback-delivery-pack', layoutVersion: 1,
    shop: { name: shop.name, address: shop.address, phone: shop.phone, currency: shop.currency },
    build: { number: label('B', build.number), title: build.title, kind: build.kind, stage: build.stage, holding: build.holding, deliveredOn: build.deliveredOn, customer: vehicle.customer.name },
    vehicle: { make: vehicle.make, model: vehicle.model, year: vehicle.year, body: vehicle.body, energy: vehicle.energy, vin: vehicle.vin, plate: vehicle.plate },
    delivery: {
      odometer: delivery?.odometer ?? null, placardLoad: delivery?.placardLoad ?? null, addedMass: added.working.result.value, remainingLoad: remaining?.result.value ?? null, massUnknown: [...added.unknown],
      careAndUse: delivery?.careAndUse ?? '', beforeSale: delivery?.beforeSale ?? '', explainedBy, receivedBy: delivery?.receivedBy ?? '', receivedAt: delivery?.receivedAt?.toISOString() ?? null, note: delivery?.note ?? '',
    },
    equipment: build.lines.map((line) => toEquipment(line, build.deliveredOn, showsMoney)),
    madeParts: build.parts.filter(({ isFitted, quantity }) => isFitted && quantity > 0).map(({ number, name, zone, quantity, mass, removable }) => ({ number: label('P', number), name, zone: zoneOf(zone), quantity, mass, removable })),
    finishes: build.finishes.map(({ number, part, kind, material, color, code, batch, supplier }) => ({ number: label('S', number), part: `${label('P', part.number)} ${part.name}`, kind, material, color, code, batch, supplier })),
    alterations: build.alterations.map(({ number, zone, partToBuy, furtherParts, ...rest }) => ({
      number: label('X', number), zone: zoneOf(zone), ...rest,
      partToBuy: [partToBuy, ...furtherParts.map(({ name, count }) => (count > 1 ? `${count} × ${name}` : name))].filter((part) => part !== '').join('; '),
    })),
    keptParts: keptParts(stored),
    finalCheck: checked.points.map(({ key, group, title, words, answer }) => ({
      point: key, group, title, outcome: words, measured: answer?.entered.value ?? '', value: answer?.value ?? null, limit: answer?.entered.limit ?? '', note: answer?.note ?? '',
      by: answer?.personName ?? '', at: answer?.at.toISOString() ?? null,
    })),
    signatures: signaturesOf({ stored, checked }),
    openPoints: build.points.map(({ number, zone, text, stopsWork }) => ({ number: `${zone.number}.${number}`, zone: zoneOf(zone), text, stopsWork })),
    returnToStock: backOf(state, showsMoney),
    photos: photosOf(build),
    notRecorded: NOT_RECORDED,
  }
}

const zoneOf = ({ number, name }: { number: number, name: string }): string => `${number} ${name}`

type Line = StoredDelivery['build']['lines'][number]

function toEquipment(line: Line, deliveredOn: string | null, showsMoney: boolean): Pack['equipment'][number] {
  const { item, swaps } = line
  const warranty = warrantyOf({ deliveredOn, months: item?.warrantyMonths ?? null, replacementUntil: swaps.at(-1)?.warrantyUntil ?? null })
  return {
    number: label('E', line.number), name: line.name, zone: zoneOf(line.zone), kind: item?.kind ?? '', maker: item?.maker ?? '', model: item?.model ?? '', quantity: line.quantity, suppliedBy: line.suppliedBy,
    mounting: line.mounting, serialNumbers: listSerials(line.serialNumbers), supplyCurrent: item?.current ?? null, fuse: item?.fuse ?? null, mass: item?.mass ?? null,
    warrantyUntil: warranty.until, warrantyHow: warranty.how, replaced: swaps.map(({ oldSerial, newSerial, swappedOn }) => `${oldSerial} by ${newSerial} on ${swappedOn}`),
    ...(showsMoney ? { price: line.price } : {}),
  }
}

function signaturesOf({ stored: { build: { delivery } }, checked: { stored: { build: { finalCheck } } } }: Pick<PackSources, 'stored' | 'checked'>): Pack['signatures'] {
  return [
    ...(finalCheck?.signedAt ? [{ of: 'final check', name: finalCheck.signedName, at: finalCheck.signedAt.toISOString(), path: finalCheck.signature }] : []),
    ...(delivery?.receivedAt ? [{ of: 'delivery', name: delivery.receivedBy, at: delivery.receivedAt.toISOString(), path: delivery.signature }] : []),
  ]
}

/** Named by what they show and their order: the same photos get the same names. */
function photosOf({ photos }: StoredDelivery['build']): Pack['photos'] {
  return photos.map(({ caption, subjectKind, moment, createdAt, width, height }, index) => ({
    file: `photos/${String(index + 1).padStart(3, '0')}.jpg`, caption, of: subjectKind, moment, takenOn: createdAt.toISOString().slice(0, 10), width, height,
  }))
}
