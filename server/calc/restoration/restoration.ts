import { findAccess } from '../removal/access.ts'
import type { AccessQuestion, AccessStep, WayTaken } from '../removal/access.ts'
import { secondsAt } from '../removal/loosening.ts'
import { listOpenPoints } from './openPoints.ts'
import { isInVehicle } from '../removal/factoryParts.ts'
import { toAsBuiltEdges, withoutDisproved } from '../removal/removalEdges.ts'
import type { RemovalEdge } from '../removal/removalEdges.ts'
import { toRefusedOrder } from '../removal/removalOrder.ts'
import type { RestorationInput } from './restorationInput.ts'
import { findScope } from './restorationScope.ts'
import type { Repair, Scope } from './restorationScope.ts'
import { byZone, listThings } from './things.ts'
import type { Thing } from './things.ts'
import { findWayBack, listWayBackEdges } from '../removal/wayBack.ts'
import type { WayBackQuestion } from '../removal/wayBack.ts'
import type { WayChoice } from '../removal/ways.ts'

export interface PutBackStep {
  readonly id: string
  /** 'fit new' = a bought part takes the place of the old one. */
  readonly how: 'refit' | 'fit new' | 'tighten'
  /** What goes back in the same job and has to be back before. */
  readonly needsIds: readonly string[]
}

export interface RestorationPlan {
  readonly kind: 'plan'
  readonly isWhole: boolean
  readonly takeOut: readonly AccessStep[]
  readonly repairs: readonly Repair[]
  /** Alterations of the body that nothing can undo. */
  readonly lastingAlterationIds: readonly string[]
  readonly putBack: readonly PutBackStep[]
  /** Installed items that come out for good. */
  readonly staysOutIds: readonly string[]
  readonly waysTaken: readonly WayTaken[]
  /** False when there were too many named ways to try every combination. */
  readonly isProvenLeast: boolean
  readonly openPoints: readonly string[]
}

export interface RestorationRefused {
  readonly kind: 'refused'
  readonly phase: 'take out' | 'reinstall'
  readonly loopIds: readonly string[]
  readonly sentence: string
}

/**
 * The way back to stock from the vehicle as built, for all factory parts or the chosen ones.
 *
 * What stands in front of a part that goes back comes out in the same job; of that, factory parts go
 * back on, installed items only if they do not take the place of a restored part (in a whole
 * restoration none does). Rings are refused with the loop named. Assumptions: `toAsBuiltEdges`,
 * `isInVehicle`, `LOOSENING_SHARE_THOUSANDTHS`. No source: the rules of the trade as we have them.
 */
export function planRestoration(asked: RestorationInput): RestorationPlan | RestorationRefused {
  const input = { ...asked, edges: withoutDisproved(asked.edges, asked.factoryParts, isInVehicle) }
  const things = listThings(input)
  const labelOf = (id: string) => things.find(thing => thing.id === id)?.label ?? id
  const scope = findScope(input)
  const edges = listBindingEdges(input, things, scope)

  const backFrom = (steps: readonly AccessStep[], choice: WayChoice): WayBackQuestion => ({
    ids: listPutBackIds(things, scope, steps),
    removalEdges: edges.wayBack,
    reinstallEdges: input.edges.filter(edge => edge.graph === 'reinstall'),
    choice,
    tieBreak: byZone(things),
  })
  const access = findAccess({
    ...toAccessQuestion(input, things, scope, edges),
    isUsable: (steps, choice) => 'order' in findWayBack(backFrom(steps, choice)),
  })
  if ('cycle' in access) return { ...toRefusedOrder(access.cycle, labelOf), phase: 'take out' }
  const back = backFrom(access.steps, access.choice)
  const order = findWayBack(back)
  if ('cycle' in order) return { ...toRefusedOrder(order.cycle, labelOf), phase: 'reinstall' }

  const backEdges = listWayBackEdges(back)
  return {
    kind: 'plan',
    isWhole: scope.isWhole,
    takeOut: access.steps,
    repairs: scope.repairs,
    lastingAlterationIds: scope.lastingAlterationIds,
    putBack: order.order.map(id => ({ id, how: howBack(id, scope, access.steps), needsIds: backEdges.filter(({ after }) => after === id).map(({ before }) => before) })),
    staysOutIds: scope.staysOutIds,
    waysTaken: access.waysTaken,
    isProvenLeast: access.isProvenLeast,
    openPoints: listOpenPoints({ input, scope, steps: access.steps, edges: access.edges, labelOf }),
  }
}

interface BindingEdges {
  readonly wayOut: readonly RemovalEdge[]
  readonly also: readonly RemovalEdge[]
  readonly wayBack: readonly RemovalEdge[]
}

// In a whole restoration nothing built stays, so the way back is the as-found one, turned around.
function listBindingEdges({ edges }: RestorationInput, things: readonly Thing[], { isWhole }: Scope): BindingEdges {
  const presentIds = new Set(things.filter(thing => thing.isPresent).map(thing => thing.id))
  const { standing, overruled } = toAsBuiltEdges(edges, presentIds)
  if (!isWhole) return { wayOut: standing, also: [], wayBack: standing }
  return { wayOut: standing, also: overruled, wayBack: edges.filter(edge => edge.graph === 'found') }
}

function toAccessQuestion(
  { factoryParts }: RestorationInput, things: readonly Thing[], scope: Scope, edges: BindingEdges,
): AccessQuestion {
  const byId = new Map(things.map(thing => [thing.id, thing]))
  const staying = new Set(scope.staysOutIds)
  return {
    presentIds: things.filter(thing => thing.isPresent).map(thing => thing.id),
    looseIds: new Set(factoryParts.filter(part => part.state === 'loosened').map(part => part.id)),
    goalIds: scope.goalIds,
    reachIds: scope.reachIds,
    edges: edges.wayOut,
    alsoEdges: edges.also,
    secondsOf: (id, depth) => {
      const { takeOutS = 0, putBackS = 0 } = byId.get(id) ?? {}
      return secondsAt(takeOutS, depth) + (staying.has(id) ? 0 : secondsAt(putBackS, depth))
    },
    tieBreak: byZone(things),
  }
}

function listPutBackIds(things: readonly Thing[], scope: Scope, steps: readonly AccessStep[]): string[] {
  const moved = new Set(steps.map(step => step.id))
  const restored = new Set(scope.partIds)
  const staying = new Set(scope.staysOutIds)
  return things.map(thing => thing.id).filter(id => (restored.has(id) || moved.has(id)) && !staying.has(id))
}

function howBack(id: string, scope: Scope, steps: readonly AccessStep[]): PutBackStep['how'] {
  if (scope.newPartIds.includes(id)) return 'fit new'
  const step = steps.find(taken => taken.id === id)
  const isLoose = step ? step.depth === 'loosened' : scope.reachIds.includes(id)
  return isLoose ? 'tighten' : 'refit'
}
