import { z } from 'zod'

/** What the API answers for a new counter job. */
export const jobSchema = z.object({ buildId: z.string(), number: z.int(), customerId: z.string(), vehicleId: z.string() })

const text = (description: string) => z.unknown().optional().meta({ type: ['string', 'null'], description })
const number = (description: string) => z.unknown().optional().meta({ type: ['integer', 'string', 'null'], description })

// What is wrong is told by the fields themselves, with the same words as in the form.
const line = z.looseObject({
  fittingId: text('The standard fitting'),
  quantity: number('How many; 1 where it is left out'),
  equipment: text('Number of a catalog item (K-011), maker and model, or own words; left out: what is usually fitted'),
  price: number('Price each of what the shop supplies; left out: that of the catalog'),
  suppliedBy: text('shop or customer'),
}).meta({ required: ['fittingId'] })

export const jobBodySchema = z.looseObject({
  vehicleId: text('A vehicle on record; its owner comes with it'),
  customerId: text('A customer on record, for a new vehicle'),
  customerName: text('Name of a new customer'),
  phone: text('Phone of a new customer'),
  make: text('Make of a new vehicle'),
  model: text('Model of a new vehicle'),
  body: text('Body of a new vehicle: hatchback, wagon, sedan, coupe, pickup, van, SUV'),
  energy: text('What a new vehicle runs on: fuel, hybrid, electric'),
  lines: z.array(line, 'Send the lines as a list of one to three.').min(1, 'What is to be fitted? Send at least one line.'),
  bayId: text('Bay'),
  promisedOn: text('Promised, a calendar date'),
  note: text('Note'),
  isMeant: z.unknown().optional().meta({ type: ['boolean', 'string', 'null'], description: 'true enters what was asked about: a name that is on record already, many pieces, a day that is past' }),
})
