import type { Json, TestShop } from './shop.ts'

type Stored = Json & { id: string; version: number }

export interface ABuild {
  readonly customer: Stored
  readonly vehicle: Stored
  readonly build: Stored
  readonly zone: Stored
  readonly department: Stored
}

/** A build with its customer, vehicle, one zone and a department to work on it, entered through the API. */
export async function aBuild(shop: TestShop, title = 'Two-way front and a false floor'): Promise<ABuild> {
  const { create } = shop.as('manager').api
  const customer = await create('/api/customers', { name: 'Harrow Lane Bakery', contact: 'Imre', phone: '555-0142' })
  const vehicle = await create('/api/vehicles', { customerId: customer.id, make: 'Corvane', model: 'Tern', year: 2031, body: 'hatchback', energy: 'fuel' })
  const build = await create('/api/builds', { title, kind: 'everyday build', vehicleId: vehicle.id })
  const zone = await create('/api/zones', { buildId: build.id, name: 'Front doors', place: 'front doors' })
  const department = await create('/api/departments', { name: 'Wood room', costRate: '38.00', sellRate: '95.00' })
  return { customer, vehicle, build, zone, department }
}
