import { checkVin } from '../calc/vin.ts'
import { choice, longText, quantity, reference, text, time, whole } from '../shared/records/field.ts'
import { defineKind, type Draft, type Values } from '../shared/records/kind.ts'
import { COUNTER, EVERYBODY, MANAGERS } from '../shared/roles.ts'

export const BODIES = ['hatchback', 'wagon', 'sedan', 'coupe', 'pickup', 'van', 'SUV'] as const
export const ENERGIES = ['fuel', 'hybrid', 'electric'] as const

export const vehicle = defineKind({
  name: 'vehicle', plural: 'vehicles', path: 'vehicles', model: 'vehicle', place: 'customers', isOfBuild: false,
  number: { prefix: 'V', within: 'shop' },
  fields: {
    customerId: reference('Customer', 'customer', { isRequired: true, isListed: true }),
    make: text('Make', { isRequired: true }),
    model: text('Model', { isRequired: true }),
    year: whole('Year', 1900, 2100, { isListed: true }),
    body: choice('Body', BODIES, { isListed: true, note: 'Decides the plan drawing.' }),
    energy: choice('Runs on', ENERGIES, { initial: 'fuel' }),
    vin: text('VIN', { note: '17 characters from the plate on the vehicle. The check digit is tested.', refuse: refuseVin }),
    plate: text('License plate', { seenBy: COUNTER }),
    odometer: quantity('Odometer', 'distance'),
    airbagWait: time('Wait after the battery is off', { initial: null, largest: 7200, note: 'Before any airbag work, by the vehicle maker’s manual; it differs by vehicle: 3 min. Left empty, sheets say to look it up.' }),
    airbagWaitSource: text('Where that waiting time stands'),
    highVoltageWait: time('Wait after high voltage is isolated', { initial: null, largest: 86_400 }),
    factoryOptions: longText('Factory options that matter', { note: 'Factory amplifier, noise cancelling, sensors behind trim, airbags in pillars and seats.' }),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: MANAGERS,
  title: (row) => [row.make, row.model, row.year].filter(Boolean).join(' '),
  orderBy: [{ number: 'asc' }],
  check: async (_write, draft) => inCapitals(draft),
  holds: async (reads, row) => {
    const builds = await reads.build.count({ where: { vehicleId: row.id, removedAt: null } })
    return builds > 0 ? `${builds} builds are recorded for this vehicle. Remove them first.` : null
  },
  begin: (row) => ({ href: row ? `/counter-jobs/new?vehicle=${row.id}` : '/counter-jobs/new', name: 'Counter job', roles: MANAGERS }),
  firstStep: { why: 'A build is made into a vehicle.', example: 'Van, electric, VIN from the plate.' },
})

function refuseVin(typed: string): string | null {
  const { verdict, messages } = checkVin(typed)
  return verdict === 'wrong' ? messages.join(' ') : null
}

// Stored in capitals, without the spaces and hyphens of the plate.
const inCapitals = ({ values }: Draft): Values => (typeof values.vin === 'string' && values.vin !== '' ? { vin: checkVin(values.vin).vin } : {})
