import type { RestorationInput } from '../calc/restoration/restorationInput.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'
import { VEHICLE_STATE } from './selection.ts'
import { toInput } from './toInput.ts'

export interface StateZone {
  readonly id: string
  readonly number: number
  readonly name: string
  readonly place: string
}

/** A vehicle as it stands in a build, ready for the calculations of teardown and restoration. */
export interface VehicleState {
  readonly build: {
    readonly id: string
    readonly number: number
    readonly title: string
    readonly holding: string
    readonly deliveredOn: string | null
  }
  readonly vehicle: {
    readonly make: string
    readonly model: string
    readonly year: number | null
    readonly body: string
    readonly energy: string
    readonly vin: string
    /** Seconds after the battery is off, by the maker's manual; null where nobody noted it. */
    readonly batteryWaitS: number | null
    readonly batteryWaitSource: string
    readonly highVoltageWaitS: number | null
    readonly factoryOptions: string
  }
  readonly zones: readonly StateZone[]
  /** All but the choice of what goes back. */
  readonly input: Omit<RestorationInput, 'choice'>
  /** Price of an hour in the department that returns to stock; null while the settings name none. */
  readonly ratePerHourMinor: number | null
  readonly rateDepartment: string
}

/** A build as the restoration sees it, in a constant number of queries. Throws a 404 where there is none. */
export async function loadVehicleState(reads: Reads | Write, buildId: string): Promise<VehicleState> {
  const [build, shop, photographed] = await Promise.all([
    reads.build.findFirst({ where: { id: buildId, removedAt: null }, select: VEHICLE_STATE }),
    reads.shop.findFirst({ select: { restoreDepartmentId: true, clipBreakShare: true } }),
    listPhotographed(reads, [buildId]),
  ])
  if (!build) throw notFound('build')
  const department = shop?.restoreDepartmentId
    ? await reads.department.findFirst({ where: { id: shop.restoreDepartmentId, removedAt: null }, select: { name: true, sellRate: true } })
    : null
  const { vehicle, zones, number, title, holding, deliveredOn } = build
  return {
    build: { id: buildId, number, title, holding, deliveredOn },
    vehicle: {
      make: vehicle.make, model: vehicle.model, year: vehicle.year, body: vehicle.body, energy: vehicle.energy, vin: vehicle.vin,
      batteryWaitS: vehicle.airbagWait, batteryWaitSource: vehicle.airbagWaitSource,
      highVoltageWaitS: vehicle.highVoltageWait, factoryOptions: vehicle.factoryOptions,
    },
    zones,
    input: toInput(build, shop?.clipBreakShare ?? 0, photographed),
    ratePerHourMinor: department?.sellRate ?? null,
    rateDepartment: department?.name ?? '',
  }
}

/** The alterations that a photo shows. */
async function listPhotographed(reads: Reads | Write, buildIds: readonly string[]): Promise<ReadonlySet<string>> {
  const photos = await reads.photo.findMany({
    where: { buildId: { in: [...buildIds] }, subjectKind: 'alteration', removedAt: null }, distinct: ['subjectId'], select: { subjectId: true },
  })
  return new Set(photos.map(({ subjectId }) => subjectId))
}

/** Each of these builds as the calculations of the way back take it, by id. */
export async function loadRecorded(reads: Reads, buildIds: readonly string[]): Promise<ReadonlyMap<string, VehicleState['input']>> {
  const [builds, shop, photographed] = await Promise.all([
    reads.build.findMany({ where: { id: { in: [...buildIds] } }, select: VEHICLE_STATE }),
    reads.shop.findFirst({ select: { clipBreakShare: true } }),
    listPhotographed(reads, buildIds),
  ])
  return new Map(builds.map((build) => [build.id, toInput(build, shop?.clipBreakShare ?? 0, photographed)]))
}

export interface ShopHead {
  readonly name: string
  readonly address: string
  readonly phone: string
}

/** The shop as the owner of a sheet. */
export async function loadShopHead(reads: Reads): Promise<ShopHead> {
  const shop = await reads.shop.findFirst({ select: { name: true, address: true, phone: true } })
  return shop ?? { name: '', address: '', phone: '' }
}
