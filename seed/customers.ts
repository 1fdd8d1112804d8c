import { customer } from '../server/customers/records.ts'
import { vehicle } from '../server/vehicles/records.ts'
import { vinCheckDigit } from '../server/calc/vin.ts'
import type { Columns, Rows } from './rows.ts'

// Numbers beginning with 0 belong to no real vehicle.
export const vinOf = (first: string, last: string): string => `${first}${vinCheckDigit(`${first}0${last}`)}${last}`

export type CustomerRow = readonly [key: string, customer: Columns, vehicle: Columns]

const CUSTOMERS: readonly CustomerRow[] = [
  ['falconry', {
    name: 'Larkmoor Falconry', contact: 'Isolde Wick', phone: '555-0117', email: 'isolde@larkmoor.example',
    address: 'Mews Cottage\nLarkmoor', note: 'Flying displays every weekend from May to September.',
  }, {
    make: 'Brannoch', model: 'Hewer double cab', year: 2023, body: 'pickup', energy: 'fuel', plate: 'DEMO 231', odometer: '31,460 km',
    vin: vinOf('0BHDC4W2', 'PA009163'), airbagWait: '3 min', airbagWaitSource: 'Brannoch service manual, chapter R, page 2',
    factoryOptions: 'Factory amplifier under the rear seat; curtain airbags over both doors; camera behind the windshield.',
  }],
  ['kellaway', {
    name: 'Marit Kellaway', phone: '555-0123', email: 'marit@kellaway.example', address: '9 Orchard Stairs\nSallow Creek',
    note: 'Calls between four and six.',
  }, {
    make: 'Solvane', model: 'Minnet', year: 2021, body: 'hatchback', energy: 'fuel', plate: 'DEMO 240', odometer: '48,920 km',
    vin: vinOf('0SVMN5H1', 'MC018822'), airbagWait: '2 min', airbagWaitSource: 'Solvane service book, chapter 9',
    factoryOptions: 'Blind-spot sensors behind the rear bumper.',
  }],
  ['surveyors', {
    name: 'Penbrook Land Surveyors', contact: 'Gideon Farrow', phone: '555-0131', email: 'fleet@penbrook.example',
    address: '220 Chain Street\nPenbrook', note: 'Three more wagons of the same lease end next year.',
  }, {
    make: 'Ketteridge', model: 'Longmere wagon', year: 2020, body: 'wagon', energy: 'hybrid', plate: 'DEMO 058', odometer: '121,300 km',
    vin: vinOf('0KTLW6E3', 'LB007205'), airbagWait: '5 min', airbagWaitSource: 'Ketteridge repair manual, section R',
    highVoltageWait: '10 min', factoryOptions: 'High-voltage service plug under the load floor, left. Noise cancelling by the factory amplifier.',
  }],
  ['library', {
    name: 'Copperbeech Mobile Library', contact: 'Anselm Roake', phone: '555-0138', email: 'van@copperbeech.example',
    address: 'The Old Toll House\nCopperbeech', note: 'Pays by the county: allow a month.',
  }, {
    make: 'Emmeridge', model: 'Carrel electric van', year: 2025, body: 'van', energy: 'electric', plate: 'DEMO 243', odometer: '2,150 km',
    vin: vinOf('0EMCV9X4', 'SD000319'), airbagWait: '3 min', airbagWaitSource: 'Emmeridge rescue and service sheet 3',
    highVoltageWait: '15 min', factoryOptions: 'Traction battery under the whole load floor: no drilling from above without the maker’s drawing.',
  }],
  ['trubridge', {
    name: 'Ansel Trubridge', phone: '555-0109', address: '3 Weir Cottages\nSallow Creek',
  }, {
    make: 'Solvane', model: 'Tesk', year: 2019, body: 'sedan', energy: 'fuel', plate: 'DEMO 244', odometer: '87,640 km',
    vin: vinOf('0SVTK2S8', 'KA031150'),
  }],
]

/** The vehicles' ids by the short keys of their customers. */
export function addCustomers(rows: Rows, others: readonly CustomerRow[]): ReadonlyMap<string, string> {
  return new Map([...CUSTOMERS, ...others].map(([key, ofCustomer, ofVehicle], index) => {
    const customerId = rows.add(customer, ofCustomer, { number: index + 1 })
    return [key, rows.add(vehicle, { ...ofVehicle, customerId }, { number: index + 1 })]
  }))
}
