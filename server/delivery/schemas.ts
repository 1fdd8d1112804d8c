import { z } from 'zod'

const LONGEST_SIGNATURE = 20_000
const receivedBy = z.string().trim().min(1, 'Type the name of whoever receives the vehicle.').max(200, 'The name is at most 200 characters long.')
const signature = z.string().max(LONGEST_SIGNATURE, 'The drawn signature is too long. Begin it again.').regex(/^(?:[ML]\d{1,3} \d{1,3})*$/, 'The drawn signature cannot be read. Begin it again.').default('')

export const receiptForm = z.looseObject({ receivedBy, signature, _version: z.coerce.number().int().min(0) })
export const receiptBody = z.object({ receivedBy, signature })
export const moneyQuery = z.object({ money: z.literal('yes').optional() })

const text = z.string()
const whole = z.int().nullable()
const zoned = { number: text, name: text, zone: text }

/** The open layout of the pack's records: what the archive holds as JSON, and the API answers. */
export const packSchema = z.object({
  layout: z.literal('putback-delivery-pack'), layoutVersion: z.literal(1),
  shop: z.object({ name: text, address: text, phone: text, currency: text }),
  build: z.object({ number: text, title: text, kind: text, stage: text, holding: text, deliveredOn: text.nullable(), customer: text }),
  vehicle: z.object({ make: text, model: text, year: whole, body: text, energy: text, vin: text, plate: text }),
  delivery: z.object({ odometer: whole, placardLoad: whole, addedMass: z.int(), remainingLoad: whole, massUnknown: z.array(text), careAndUse: text, beforeSale: text, explainedBy: text, receivedBy: text, receivedAt: text.nullable(), note: text }),
  equipment: z.array(z.object({
    ...zoned, kind: text, maker: text, model: text, quantity: z.int(), suppliedBy: text, mounting: text, serialNumbers: z.array(text), supplyCurrent: whole, fuse: whole, mass: whole,
    warrantyUntil: text.nullable(), warrantyHow: text, replaced: z.array(text), price: z.int().optional(),
  })),
  madeParts: z.array(z.object({ ...zoned, quantity: z.int(), mass: whole, removable: text })),
  finishes: z.array(z.object({ number: text, part: text, kind: text, material: text, color: text, code: text, batch: text, supplier: text })),
  alterations: z.array(z.object({ number: text, zone: text, kind: text, what: text, consentBy: text, consentOn: text.nullable(), isReversible: z.boolean(), reversal: text, reversedOn: text.nullable(), partToBuy: text })),
  keptParts: z.array(z.object({ ...zoned, partNumber: text, state: text, where: text, condition: text })),
  finalCheck: z.array(z.object({ point: text, group: text, title: text, outcome: text, measured: text, value: whole, limit: text, note: text, by: text, at: text.nullable() })),
  signatures: z.array(z.object({ of: text, name: text, at: text, path: text })),
  openPoints: z.array(z.object({ number: text, zone: text, text: text, stopsWork: z.boolean() })),
  returnToStock: z.object({
    standing: text, verdict: text,
    cautions: z.array(z.object({ number: text, signalWord: text, title: text, text: text })),
    steps: z.array(z.object({ number: z.int(), phase: text, zone: text, item: text, text: text, fasteners: text, place: text, notes: text, cautions: text })),
    partsToBuy: z.array(z.object({ name: text, count: z.int(), for: text, price: z.int().optional() })),
  }),
  photos: z.array(z.object({ file: text, caption: text, of: text, moment: text, takenOn: text, width: z.int(), height: z.int() })),
  notRecorded: z.array(text),
})
