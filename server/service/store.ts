import { OPERATION_NAME } from '../hours/operationName.ts'
import type { Reads } from '../shared/database/database.ts'

const STANDING = { removedAt: null } as const
const LINE = { select: { id: true, number: true, name: true, item: { select: { warrantyMonths: true } } } } as const

const VISIT_PARTS = {
  build: { select: { id: true, number: true, deliveredOn: true } },
  operations: { where: STANDING, orderBy: { number: 'asc' }, select: { ...OPERATION_NAME, departmentId: true, department: { select: { name: true } } } },
  claims: {
    where: STANDING, orderBy: { claimedOn: 'asc' },
    select: { id: true, lineId: true, visitId: true, claimedOn: true, reference: true, state: true, amount: true, answeredOn: true, note: true, line: LINE },
  },
  swaps: {
    where: STANDING, orderBy: { swappedOn: 'asc' },
    select: { id: true, oldSerial: true, newSerial: true, swappedOn: true, warrantyUntil: true, note: true, line: LINE },
  },
} as const

export type VisitParts = Awaited<ReturnType<typeof loadVisitParts>>

/** What was done during a visit. */
export async function loadVisitParts(reads: Reads, id: string) {
  return reads.serviceVisit.findUniqueOrThrow({ where: { id }, select: VISIT_PARTS })
}

export function listDepartments(reads: Reads) {
  return reads.department.findMany({ select: { id: true, name: true, costRate: true } })
}

/** What a vehicle carries now, and how it came to that. */
export async function findAsBuilt(reads: Reads, buildId: string) {
  return reads.build.findFirst({ where: { id: buildId, removedAt: null }, select: AS_BUILT })
}

export type StoredAsBuilt = NonNullable<Awaited<ReturnType<typeof findAsBuilt>>>

const BY_NUMBER = { orderBy: { number: 'asc' } } as const
const ZONE = { select: { number: true, name: true } } as const

const AS_BUILT = {
  id: true, number: true, title: true, deliveredOn: true,
  vehicle: { select: { make: true, model: true, year: true, vin: true } },
  lines: {
    where: { ...STANDING, isFitted: true }, ...BY_NUMBER,
    select: {
      id: true, number: true, name: true, quantity: true, serialNumbers: true, mounting: true, zone: ZONE,
      item: { select: { maker: true, model: true, warrantyMonths: true } },
      swaps: {
        where: STANDING, orderBy: { swappedOn: 'asc' },
        select: { oldSerial: true, newSerial: true, swappedOn: true, warrantyUntil: true, note: true, visit: { select: { number: true } } },
      },
    },
  },
  parts: { where: { ...STANDING, isFitted: true }, ...BY_NUMBER, select: { number: true, name: true, quantity: true, removable: true, zone: ZONE } },
  alterations: {
    where: STANDING, ...BY_NUMBER,
    select: { number: true, kind: true, what: true, whereAt: true, consentBy: true, consentOn: true, isReversible: true, reversal: true, reversedOn: true, zone: ZONE },
  },
  factoryParts: {
    where: STANDING, ...BY_NUMBER,
    select: { number: true, name: true, state: true, condition: true, place: true, bin: { select: { number: true, place: true } }, zone: ZONE },
  },
  visits: {
    where: STANDING, ...BY_NUMBER,
    select: { id: true, number: true, cameOn: true, leftOn: true, complaint: true, cause: true, found: true, paidBy: true },
  },
} as const
