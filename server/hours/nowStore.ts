import { takesTime } from '../calc/schedule/takesTime.ts'
import { CORRECTED, ESTIMATED } from '../operations/toOperation.ts'
import type { Reads } from '../shared/database/database.ts'
import { OPERATION_NAME } from './operationName.ts'

/** Not delivered, or back in the shop for a service visit that goes on; of the first, those count that take people’s time. */
const IN_THE_SHOP = {
  OR: [
    { visitId: null, build: { removedAt: null, stage: { not: 'delivered' } } },
    { visit: { removedAt: null, leftOn: null }, build: { removedAt: null } },
  ],
}

const PLACED = { cautions: true, removedAt: true, zone: { select: { place: true } } } as const
const WITH_PLACE = { select: { id: true, number: true, name: true, ...PLACED } } as const

const BENCH_OPERATION = {
  ...OPERATION_NAME, ...ESTIMATED, skillId: true, personId: true, visit: { select: { number: true } },
  department: { select: { reworkAllowance: true } },
  partId: true, part: WITH_PLACE, factoryPart: WITH_PLACE,
  line: { select: { id: true, number: true, name: true, quantity: true, ...PLACED } },
  build: {
    select: {
      id: true, number: true, title: true, stage: true, promisedOn: true, consent: true, removedAt: true, quote: { select: { id: true } },
      vehicle: { select: { energy: true, airbagWait: true } },
    },
  },
} as const

export type BenchOperation = Awaited<ReturnType<typeof findOperation>> & object

export function findOperation(reads: Reads, id: string) {
  return reads.operation.findFirst({ where: { id }, select: BENCH_OPERATION })
}

/** Operations of what takes people’s time, and of one build more where it is asked about; in the order in which they are worked through. */
export async function listBenchOperations(reads: Reads, alsoBuildId: string | null = null): Promise<BenchOperation[]> {
  const rows = await reads.operation.findMany({
    where: { removedAt: null, ...IN_THE_SHOP },
    orderBy: [{ build: { number: 'asc' } }, { number: 'asc' }, { id: 'asc' }], select: BENCH_OPERATION,
  })
  // What was taken away takes its operations with it until it is taken back.
  const there = rows.filter((row) => !(row.part ?? row.line ?? row.factoryPart)?.removedAt)
  const begun = new Set(there.filter(({ state, visit }) => visit === null && state !== 'not started').map(({ buildId }) => buildId))
  return there.filter(({ visit, buildId, build: { stage, consent, quote } }) => visit !== null || buildId === alsoBuildId
    || takesTime({ stage, isAgreed: consent !== null, isBegun: begun.has(buildId), hasQuote: quote !== null }))
}

export function listPredecessors(reads: Reads): Promise<{ earlierId: string; laterId: string }[]> {
  return reads.operationPredecessor.findMany({
    where: { removedAt: null, later: IN_THE_SHOP }, select: { earlierId: true, laterId: true },
  })
}

export async function skillsOf(reads: Reads, personId: string): Promise<ReadonlySet<string>> {
  const rows = await reads.personSkill.findMany({ where: { personId }, select: { skillId: true } })
  return new Set(rows.map(({ skillId }) => skillId))
}

/** The part trees of some builds, how many pieces an operation is for, and what was accepted of the shop’s hours. */
export async function loadTrees(reads: Reads, buildIds: readonly string[]) {
  const where = { buildId: { in: [...buildIds] }, removedAt: null }
  const [parts, uses, corrections] = await Promise.all([
    reads.fabricatedPart.findMany({ where, select: { id: true, buildId: true, number: true, name: true, zoneId: true, quantity: true } }),
    reads.partUse.findMany({ where, select: { buildId: true, parentId: true, partId: true, quantity: true } }),
    reads.hourCorrection.findMany({ where, orderBy: [{ id: 'asc' }], select: CORRECTED }),
  ])
  return { parts, uses, corrections }
}

export type Trees = Awaited<ReturnType<typeof loadTrees>>
