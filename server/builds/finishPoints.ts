import { findHolds, findUnfinished } from '../calc/finishHold.ts'
import { groupBy } from '../calc/grouping.ts'
import { counted } from '../../web/shared/text.ts'
import { label } from '../shared/records/kind.ts'
import type { StoredBuild } from './store.ts'

interface FinishPoint {
  readonly zoneId: string
  readonly text: string
  readonly href: string
  readonly stopsWork: boolean
}

/** What the finish schedule leaves open, once a zone: samples that stop work, and parts for which no finish is recorded. */
export function finishPoints(stored: StoredBuild): FinishPoint[] {
  const steps = stored.operations.filter(({ removedAt }) => removedAt === null)
  const zoneOf = new Map(stored.parts.map(({ id, zoneId }) => [id, zoneId]))
  const finishes = stored.finishes.filter(({ partId }) => zoneOf.has(partId))
  const known = steps.filter(({ partId }) => partId !== null && zoneOf.has(partId))
  const href = `/builds/${stored.head.id}/finishes`
  return [
    ...unapproved(known, finishes, zoneOf).map(([zoneId, text]) => ({ zoneId, text, href, stopsWork: true })),
    ...[...groupBy(findUnfinished(known, finishes), (partId) => zoneOf.get(partId) ?? '')].map(([zoneId, partIds]) => ({
      zoneId, href, stopsWork: false, text: `${counted(partIds.length, 'part is', 'parts are')} to be finished, and no finish is recorded.`,
    })),
  ]
}

type Steps = StoredBuild['operations']
type Finishes = StoredBuild['finishes']

function unapproved(steps: Steps, finishes: Finishes, zoneOf: ReadonlyMap<string, string>): [zoneId: string, text: string][] {
  const holds = [...findHolds(steps, finishes)]
  const byZone = groupBy(holds, ([, [finish]]) => zoneOf.get(finish?.partId ?? '') ?? '')
  return [...byZone].map(([zoneId, held]) => {
    const numbers = [...new Set(held.flatMap(([, found]) => found.map(({ number }) => label('S', number))))]
    const kinds = [...new Set(held.map(([id]) => steps.find((step) => step.id === id)?.kind ?? ''))]
    return [zoneId, `${numbers.join(', ')}: sample not approved; ${kinds.join(' and ')} cannot start.`]
  })
}
