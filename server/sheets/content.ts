import { createHash } from 'node:crypto'
import type { ReturnToStockData } from '../../web/restoration/returnToStock.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { Checklist } from '../calc/restoration/checklist.ts'
import { findNeeds } from '../calc/restoration/sheetNeeds.ts'
import { Problem } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { toRestoration, type Basis, type Restoration, type RestorationAsked } from '../restoration/result.ts'
import { sheetData } from '../restoration/sheetData.ts'
import type { ShopHead, VehicleState } from '../restoration/store.ts'
import { listOpenPoints } from '../restoration/unsettled.ts'

export interface FrozenPicture {
  readonly hash: string
  readonly says: string
  readonly width: number
  readonly height: number
}

/** Everything that stands on a sheet, as it was when it was frozen; nothing of it is looked up again. */
export interface FrozenContent {
  readonly format: 1
  readonly asked: { readonly parts: 'all' | readonly string[], readonly basis: Basis }
  readonly sheet: Pick<ReturnToStockData, 'titleBlock' | 'scope' | 'verdict' | 'checklist' | 'whereabouts' | 'factoryOptions' | 'outOfUse' | 'openPoints'>
  /** For each step by its number, the steps it needs. */
  readonly needs: Readonly<Record<string, readonly number[]>>
  /** What is done to each thing, for the records when the sheet is closed. */
  readonly plan: {
    readonly takeOut: readonly { readonly id: string, readonly depth: 'out' | 'loosened' }[]
    readonly putBackIds: readonly string[]
    /** Alterations that are gone once the step about `byId` is done. */
    readonly undone: readonly { readonly alterationId: string, readonly byId: string }[]
  }
  /** What each factory part and alteration looked like, by id. */
  readonly pictures: Readonly<Record<string, readonly FrozenPicture[]>>
  /** False while no department priced the labor. */
  readonly isPriced: boolean
  readonly currency: string
}

interface Freezing {
  readonly state: VehicleState
  readonly shop: ShopHead
  readonly viewer: Viewer
  readonly asked: RestorationAsked
  /** Within the build, from 1. */
  readonly number: number
  readonly replaces: string
  readonly pictures: FrozenContent['pictures']
}

export const sheetNumber = (buildNumber: number, number: number): string => `R-${label('B', buildNumber).slice('B-'.length)}-${number}`

/** A sheet as it would be frozen now. Throws a 409 where no order is possible. */
export function toContent({ state, shop, viewer, asked, number, replaces, pictures }: Freezing): FrozenContent {
  const found = toRestoration(state, asked)
  if ('sentence' in found) throw new Problem(409, 'No order is possible', found.sentence)
  // What each role sees is decided when it is shown, so all of it is kept.
  const { titleBlock, scope, verdict, checklist, whereabouts, factoryOptions, outOfUse } = sheetData(state, shop, { ...viewer, role: 'manager' }, asked)
  return {
    format: 1, asked: { parts: asked.parts, basis: found.basis },
    sheet: {
      titleBlock: { ...titleBlock, number: sheetNumber(state.build.number, number), revision: 'A', replaces },
      scope, verdict, checklist, whereabouts, factoryOptions, outOfUse, openPoints: listOpenPoints(found, state, 'technician'),
    },
    needs: Object.fromEntries(findNeeds(found.input, found.plan, checklist.steps)), plan: toPlan(found),
    pictures: picturesOn(checklist, pictures), isPriced: state.ratePerHourMinor !== null, currency: viewer.currency,
  }
}

// What was done to a part that is replaced goes away with it.
function toPlan({ input, plan: { takeOut, putBack, repairs } }: Restoration): FrozenContent['plan'] {
  const isOpenOn = (partId: string) => input.alterations.filter(({ factoryPartId, isReversed }) => factoryPartId === partId && !isReversed)
  return {
    takeOut: takeOut.map(({ id, depth }) => ({ id, depth })), putBackIds: putBack.map(({ id }) => id),
    undone: [
      ...repairs.flatMap((repair) => (repair.kind === 'reverse' ? [{ alterationId: repair.alterationId, byId: repair.alterationId }] : [])),
      ...putBack.filter(({ how }) => how === 'fit new').flatMap(({ id }) => isOpenOn(id).map((alteration) => ({ alterationId: alteration.id, byId: id }))),
    ],
  }
}

function picturesOn({ steps }: Checklist, pictures: FrozenContent['pictures']): FrozenContent['pictures'] {
  const shown = new Set(steps.flatMap(({ thingId }) => thingId ?? []))
  return Object.fromEntries(Object.entries(pictures).filter(([id]) => shown.has(id)))
}

/** SHA-256 of a sheet's content as it is stored. */
export const hashOfContent = (text: string): string => createHash('sha256').update(text).digest('hex')
