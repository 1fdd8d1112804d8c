import { findHolds, nameFinish } from '../calc/finishHold.ts'
import type { PartFinish, PartOperation } from '../../web/parts/partData.ts'
import { toHold } from '../operations/heldStore.ts'
import { label } from '../shared/records/kind.ts'
import type { PartSources } from './partPage.ts'

/** The finishes of a part, with how their samples stand. */
export function toPartFinishes({ stored, part }: PartSources): PartFinish[] {
  return stored.finishes.filter(({ partId }) => partId === part.id).map((finish) => ({
    name: `${label('S', finish.number)} ${nameFinish(finish)}`, href: `/finishes/${finish.id}`,
    state: finish.sampleState, isApproved: finish.sampleState === 'approved',
  }))
}

/** What holds each operation of a part, by its id. */
export function toPartHolds({ stored, part }: PartSources): ReadonlyMap<string, NonNullable<PartOperation['heldBy']>> {
  const steps = stored.operations.filter(({ removedAt, partId }) => removedAt === null && partId === part.id)
  const holds = findHolds(steps, stored.finishes.filter(({ partId }) => partId === part.id))
  return new Map([...holds].map(([id, finishes]) => [id, toHold(finishes)]))
}
