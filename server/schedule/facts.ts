import { createHash } from 'node:crypto'
import { findWaiting } from '../calc/readyWork.ts'
import type { ShopBuild, ShopFacts, ShopWork } from '../calc/schedule/shopProblem.ts'
import { toUnsureLabor } from '../calc/unsureLabor.ts'
import { figuresOf, type BuildFigures } from '../builds/figures.ts'
import { loadBuilds, type StoredBuild } from '../builds/store.ts'
import { toStep } from '../hours/nextWork.ts'
import { listBenchOperations, listPredecessors, type BenchOperation } from '../hours/nowStore.ts'
import { nameOperation } from '../hours/operationName.ts'
import type { Reads } from '../shared/database/database.ts'
import { USUAL_TOGETHER_THOUSANDTHS } from '../spread/spreads.ts'
import { label } from '../shared/records/kind.ts'
import { closingOn, openHours, openingOn, ruleOf } from './openHours.ts'
import { loadExpected, loadShopDay, type StoredShopDay } from './store.ts'

export const TICK_MS = 15 * 60_000
/** So many even steps from the best case of an operation to its worst. */
const STEPS = 40
const WEEKS = 26
const TICKS_A_WEEK = 7 * 24 * 4
const SHOP_WITHOUT_HOURS = { timeZone: 'UTC', opensAt: 28_800, closesAt: 61_200, workdays: '1,2,3,4,5' }

/** Work on a made part that is done in the vehicle; the rest is done at the bench. Common practice, no source. */
const IN_VEHICLE = ['pattern', 'mock-up', 'damp', 'take out', 'fit', 'wire', 'tune', 'check', 'put back']

/** All that a plan is made from, at an instant. Work of service visits is not in it. */
export async function loadShopFacts(reads: Reads, now: Date): Promise<ShopFacts> {
  const day = await loadShopDay(reads)
  const bench = await listBenchOperations(reads)
  const ids = [...new Set(bench.map(({ buildId }) => buildId))]
  const [builds, rules, expected] = [await loadBuilds(reads, ids), await listPredecessors(reads), await loadExpected(reads, ids)]
  const waiting = findWaiting(bench.map(toStep), rules.map(({ earlierId, laterId }) => ({ before: earlierId, after: laterId })))
  const hours = day.shop ?? SHOP_WITHOUT_HOURS
  const fromMs = Math.ceil(now.getTime() / TICK_MS) * TICK_MS
  const open = openHours(hours, now, 7 * WEEKS)
  return {
    fromMs, tickMs: TICK_MS, togetherThousandths: day.shop?.goWrongTogether ?? USUAL_TOGETHER_THOUSANDTHS, horizonTicks: WEEKS * TICKS_A_WEEK, bays: day.bays,
    people: day.people.filter(({ role, skills }) => role === 'technician' || skills.length > 0)
      .map(({ id, name, skills }) => ({ id, name, skillIds: skills.map(({ skillId }) => skillId), hoursRule: ruleOf(hours), hours: open })),
    builds: builds.flatMap((stored): ShopBuild[] => {
      const own = bench.filter(({ buildId, state, visit }) => buildId === stored.head.id && state !== 'done' && visit === null)
      const { head } = stored
      const due = head.promisedOn ?? head.deadline
      return own.length === 0 ? [] : [{
        id: head.id, name: `${label('B', head.number)} ${head.title}`, bayId: head.bay?.id ?? null, weight: 1, dueMs: due === null ? null : closingOn(hours, due),
        work: toWork(own, { stored, day, waiting, earliest: (owner) => (expected.has(owner) ? openingOn(hours, expected.get(owner)!) : null) }),
      }]
    }),
  }
}

interface Around {
  readonly stored: StoredBuild
  readonly day: StoredShopDay
  readonly waiting: ReadonlyMap<string, readonly string[]>
  readonly earliest: (ownerId: string) => number | null
}

function toWork(operations: readonly BenchOperation[], { stored, day, waiting, earliest }: Around): ShopWork[] {
  const { costing } = figuresOf(stored)
  const remaining = new Map(costing.operations.map(({ operation, figures }) => [operation.id, figures.remainingS]))
  const cases = casesOf(costing)
  const skills = new Map(day.skills.map((skill) => [skill.id, skill]))
  return operations.map((operation) => {
    const { item, operation: named } = nameOperation(operation)
    return {
      id: operation.id, name: `${item}, ${named}`, shortName: `${item}, ${operation.kind}`, remainingS: remaining.get(operation.id) ?? 0, remainingCasesS: cases(operation.id, remaining.get(operation.id) ?? 0), crew: operation.crew, personId: operation.personId,
      skill: operation.skillId === null ? null : skills.get(operation.skillId) ?? null, after: waiting.get(operation.id) ?? [], waitS: operation.wait,
      isInVehicle: operation.partId === null || IN_VEHICLE.includes(operation.kind),
      earliestMs: earliest((operation.part ?? operation.line ?? operation.factoryPart)?.id ?? ''),
      runningBy: day.timers.filter(({ operationId }) => operationId === operation.id).map(({ personId }) => personId),
    }
  })
}

/** What remains is as unsure as the whole: three values, or the shop's hours where they were accepted, drawn out to what remains. */
function casesOf({ estimate }: BuildFigures['costing']): (id: string, remainingS: number) => readonly number[] {
  const labor = new Map(estimate.operations.map(({ operation, sums }) => [operation.id, sums.laborS]))
  const unsure = new Map(toUnsureLabor(estimate.operations, 'with rework').unsure.map((one) => [one.operationId, one]))
  return (id, remainingS) => {
    const [own, whole] = [unsure.get(id), labor.get(id) ?? 0]
    if (!own || whole === 0 || own.three === null) return []
    const sure = whole - (own.three.bestS + 4 * own.three.likelyS + own.three.worstS) / 6
    return Array.from({ length: STEPS }, (_, step) => Math.round((sure + own.quantile((step + 0.5) / STEPS)) * remainingS / whole))
  }
}

/** Alike as long as nothing a plan depends on has changed, whatever the time. */
export function printOf({ people, bays, builds, togetherThousandths }: ShopFacts): string {
  const lasting = { people: people.map(({ id, skillIds, hoursRule }) => ({ id, skillIds, hoursRule })), bays, builds, togetherThousandths }
  return createHash('sha256').update(JSON.stringify(lasting)).digest('hex')
}
