import { randomUUID } from 'node:crypto'
import type { StandsQuestionData } from '../../web/restoration/standsQuestions.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { askWhatStandsInFront } from '../calc/removal/backOn.ts'
import { namer } from '../restoration/naming.ts'
import type { VehicleState } from '../restoration/store.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Body } from '../shared/records/submission.ts'
import { loadBackOn } from './backOnStore.ts'
import type { Orders } from './orders.ts'

/** What was chosen in the answer about one part, and what is wrong with it. */
export interface TypedAnswer {
  readonly body: Body
  readonly problems: readonly FieldProblem[]
}

interface Asked {
  readonly state: VehicleState
  readonly orders: Orders
  readonly address: string
  readonly isSeen: (id: string) => boolean
}

/** Which factory parts went back on, and beside what of the installed nobody said yet what stands in front. */
export async function questionsData(reads: Reads, { state, orders, address, isSeen }: Asked, typed: TypedAnswer | null): Promise<StandsQuestionData[]> {
  const { backOn, fitted } = await loadBackOn(reads, state)
  const { presentIds, rules, things } = orders
  const name = namer(things)
  const number = (id: string): string => things.get(id)?.number ?? ''
  return askWhatStandsInFront(backOn, { items: fitted, edges: state.input.edges, standing: rules.asBuilt, presentIds }).filter(({ partId }) => isSeen(partId)).map(({ partId, items, stillIds }) => {
    const own = typed !== null && typed.body.part === number(partId) ? typed : null
    const given = (field: string): string | undefined => (own === null ? undefined : String(own.body[field] ?? ''))
    return {
      part: name(partId), number: number(partId), problems: own?.problems ?? [],
      action: `/builds/${state.build.id}/order-answers`, idempotencyKey: given('_key') || randomUUID(), back: [...new URLSearchParams(address)],
      items: items.map(({ id, isNew }) => ({ number: number(id), name: name(id), value: given(`item-${number(partId)}-${number(id)}`) ?? (isNew ? 'front' : '') })),
      still: stillIds.map((id) => ({ number: number(id), name: name(id), isChosen: own === null || [own.body[`still-${number(partId)}`]].flat().map(String).includes(number(id)) })),
    }
  })
}
