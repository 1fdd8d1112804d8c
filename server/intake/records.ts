import { ZONE_PLACES } from '../../web/shared/zonePlaces.ts'
import { checks, choice, date, longText, quantity, text, whole } from '../shared/records/field.ts'
import { defineKind } from '../shared/records/kind.ts'
import { EVERYBODY } from '../shared/roles.ts'
import { checkFaultCode, checkIntake, checkMark, refuseSigned } from './rules.ts'

/** None is said, never assumed. */
export const WARNING_LIGHTS = ['none', 'engine', 'airbag', 'brakes', 'stability control', 'oil pressure', 'charging', 'coolant', 'tires', 'other'] as const
export const MARK_KINDS = ['scratch', 'dent', 'chip', 'crack', 'tear', 'stain', 'wear', 'missing', 'other'] as const

// Whoever takes the vehicle in writes down how it came, also who delivers.
const OF_INTAKE = { place: 'builds', isOfBuild: true, seenBy: EVERYBODY, changedBy: EVERYBODY } as const

export const intake = defineKind({
  ...OF_INTAKE, name: 'intake', plural: 'intakes', path: 'intakes', model: 'intake', isSingle: true,
  fields: {
    odometer: quantity('Odometer', 'distance', { isListed: true }),
    energyLevel: text('Fuel or charge', { note: 'As the instrument shows it: 3/4, or 60 %.' }),
    warningLights: checks('Warning lights lit', WARNING_LIGHTS, { isListed: true, note: 'With the engine running or the vehicle ready. Tick “none” when all go out; nothing ticked means that nobody has looked.' }),
    keys: whole('Keys handed over', 0, 20, { note: 'How many. Where they hang is kept apart.' }),
    leftInside: longText('Belongings left inside'),
    walkedZones: checks('Looked at', ZONE_PLACES),
    note: longText('Note'),
  },
  title: () => 'Intake', check: checkIntake,
  firstStep: { why: 'How the vehicle came.', example: '41,000 km, half a tank, no warning light, two keys.' },
})

export const conditionMark = defineKind({
  ...OF_INTAKE, name: 'condition mark', plural: 'condition marks', path: 'condition-marks', model: 'conditionMark',
  number: { prefix: 'D', within: 'build' }, hasPhotos: true, photoMoment: 'before',
  fields: {
    place: choice('Where', ZONE_PLACES, { isListed: true }),
    x: whole('On the plan, from the front', 0, 1000, { isRequired: true, note: 'Thousandths of the drawing’s width.' }),
    y: whole('On the plan, from the right side', 0, 1000, { isRequired: true, note: 'Thousandths of the drawing’s height.' }),
    kind: choice('What', MARK_KINDS, { isListed: true }),
    size: text('Size', { isListed: true, note: '4 cm long; a coin.' }),
    note: longText('Note'),
  },
  title: (row) => `${String(row.kind)}, ${String(row.place)}`, orderBy: [{ number: 'asc' }],
  check: checkMark, checkPhotos: (write, row) => refuseSigned(write, row),
  holds: async (client, row) => {
    await refuseSigned(client, row)
    return null
  },
  firstStep: { why: 'What was damaged before the shop touched the vehicle.', example: 'Scratch 4 cm on the rear bumper, with a photo.' },
})

export const faultCode = defineKind({
  ...OF_INTAKE, name: 'fault code', plural: 'fault codes', path: 'fault-codes', model: 'faultCode',
  fields: {
    code: text('Code', { isRequired: true, note: 'P0420: a letter P, C, B or U and four signs. A code of the maker’s own form needs its control unit.' }),
    unit: text('Control unit', { isListed: true }),
    words: text('In words', { isListed: true, note: 'As the reader says it.' }),
    readAt: choice('Read at', ['intake', 'final check', 'service visit'], { isListed: true, initial: 'intake' }),
    readOn: date('Read on', { isRequired: true, isListed: true }),
    clearedOn: date('Cleared on', { isListed: true }),
    note: longText('Note'),
  },
  title: (row) => String(row.code), orderBy: [{ readOn: 'asc' }, { id: 'asc' }],
  check: checkFaultCode,
  holds: async (client, row) => {
    if (row.readAt === 'intake') await refuseSigned(client, row)
    return null
  },
  firstStep: { why: 'What the control units had stored.', example: 'P0420, engine control unit, read at intake.' },
})
