import { isInVehicle } from '../../server/calc/removal/factoryParts.ts'
import type { RemovalEdge } from '../../server/calc/removal/removalEdges.ts'
import type { RestorationInput } from '../../server/calc/restoration/restorationInput.ts'

export type Position = 'fitted' | 'loose' | 'out'
export type Vehicle = Map<string, Position>
export type Ways = ReadonlyMap<string, string>

/** Every thing and where it is now, told without any graph. */
export function toVehicle(input: RestorationInput): Vehicle {
  return new Map([
    ...input.factoryParts.map(part => [part.id, !isInVehicle(part) ? 'out' : part.state === 'loosened' ? 'loose' : 'fitted'] as const),
    ...input.installedItems.map(item => [item.id, item.isFitted ? 'fitted' : 'out'] as const),
  ])
}

/** Whether a hand can get at the thing: nothing that has to be out or loose first is in its way. */
export function canReach(id: string, vehicle: Vehicle, edges: readonly RemovalEdge[], ways: Ways): boolean {
  return edges.every(({ afterId, beforeId, kind, way }) => {
    if (afterId !== id || (way && ways.get(id) !== way)) return true
    const position = vehicle.get(beforeId) ?? 'out'
    return position === 'out' || (position === 'loose' && kind === 'loosened')
  })
}

/** The edges that bind as built, found by walking paths instead of by closures. */
export function bindingAsBuilt({ edges }: RestorationInput, vehicle: Vehicle): RemovalEdge[] {
  const [found, built] = (['found', 'built'] as const).map(graph => edges.filter(edge => edge.graph === graph))
  const isCurrent = (edge: RemovalEdge) => vehicle.get(edge.beforeId) !== 'out'
  const leads = (rules: readonly RemovalEdge[], from: string, to: string, seen: readonly string[] = []): boolean =>
    from === to || rules.some(({ beforeId, afterId, way }) =>
      beforeId === from && !way && !seen.includes(from) && leads(rules, afterId, to, [...seen, from]))
  const standing = built!.filter(edge => isCurrent(edge) || edge.way || !leads(found!, edge.afterId, edge.beforeId))
  return [...standing, ...found!.filter(({ beforeId, afterId, way }) => way
    || (!standing.some(edge => edge.beforeId === beforeId && edge.afterId === afterId)
      && !leads(standing.filter(isCurrent), afterId, beforeId)))]
}

/** What a restoration asks for: who must be fitted in the end, and who must be gone. */
export function toDemand(input: RestorationInput) {
  const isChosen = (id: string) => input.choice === 'all' || input.choice.factoryPartIds.includes(id)
  const restored = input.factoryParts.filter(part => isChosen(part.id) && part.state !== 'fitted').map(part => part.id)
  const reworked = input.factoryParts.filter(part => restored.includes(part.id) && part.state === 'altered').map(part => part.id)
  const gone = input.installedItems.filter(item => item.isFitted
    && (input.choice === 'all' || item.replacesFactoryPartIds.some(id => restored.includes(id)))).map(item => item.id)
  return { restored, reworked, gone }
}

/**
 * Tries to do a restoration with hands: takes out and loosens exactly `plan`, then puts all back that
 * belongs back, each whenever it can be reached. Tells whether that works out.
 */
export function works(input: RestorationInput, plan: ReadonlyMap<string, 'loose' | 'out'>, ways: Ways): boolean {
  const vehicle = toVehicle(input)
  const asBuilt = bindingAsBuilt(input, vehicle)
  const { restored, reworked, gone } = toDemand(input)
  if ([...reworked, ...gone].some(id => plan.get(id) !== 'out')) return false

  const moving = new Map(plan)
  while (moving.size > 0) {
    const next = [...moving.keys()].find(id => canReach(id, vehicle, asBuilt, ways))
    if (next === undefined) return false
    vehicle.set(next, moving.get(next) ?? 'out')
    moving.delete(next)
  }

  // As built, nothing may be left in front of a place that a part goes back to.
  if (restored.some(id => !canReach(id, vehicle, asBuilt, ways))) return false

  const back = [...new Set([...restored, ...plan.keys()])].filter(id => !gone.includes(id))
  const rules = input.choice === 'all' ? input.edges.filter(edge => edge.graph === 'found') : asBuilt
  // What goes back too soon can lock something else out, so every order is tried.
  const canFinish = (left: readonly string[], now: Vehicle): boolean => left.length === 0 || left.some(id =>
    !left.some(other => input.edges.some(edge => edge.graph === 'reinstall' && edge.afterId === id && edge.beforeId === other))
    && canReach(id, now, rules, ways)
    && canFinish(left.filter(other => other !== id), new Map([...now, [id, 'fitted']])))
  return canFinish(back, vehicle)
}

/** Seconds and pieces of the best restoration, found by trying every set, depth and way; null when none works. */
export function findBestByTrial(input: RestorationInput): { seconds: number, count: number } | null {
  const movable = [...toVehicle(input)].filter(([, position]) => position !== 'out')
  let plans: Map<string, 'loose' | 'out'>[] = [new Map()]
  for (const [id, position] of movable) {
    const depths = position === 'loose' ? ['out' as const] : ['out' as const, 'loose' as const]
    plans = plans.flatMap(plan => [plan, ...depths.map(depth => new Map([...plan, [id, depth]]))])
  }
  let all: Ways[] = [new Map()]
  for (const id of new Set(input.edges.filter(edge => edge.way).map(edge => edge.afterId))) {
    const names = [...new Set(input.edges.flatMap(edge => edge.way && edge.afterId === id ? [edge.way] : []))]
    all = all.flatMap(ways => names.map(name => new Map([...ways, [id, name]])))
  }
  const working = plans.filter(plan => all.some(ways => works(input, plan, ways))).map(plan => toEffort(input, plan))
  return working.toSorted((a, b) => a.seconds - b.seconds || a.count - b.count)[0] ?? null
}

export function toEffort(input: RestorationInput, plan: ReadonlyMap<string, 'loose' | 'out'>): { seconds: number, count: number } {
  const { gone } = toDemand(input)
  const seconds = [...input.factoryParts, ...input.installedItems].map(({ id, takeOutS, putBackS }) => {
    const whole = takeOutS + (gone.includes(id) ? 0 : putBackS)
    return plan.get(id) === 'out' ? whole : plan.get(id) === 'loose' ? whole / 2 : 0
  })
  return { seconds: seconds.reduce((sum, n) => sum + n, 0), count: plan.size }
}
