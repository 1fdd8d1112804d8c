import { findHolds, nameFinish } from '../calc/finishHold.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'

const FINISH = { id: true, partId: true, kind: true, number: true, material: true, color: true, sampleState: true } as const
const STEP = { id: true, partId: true, kind: true, state: true } as const

export type HeldFinish = Awaited<ReturnType<typeof loadUnapproved>>[number]

/** A finish that holds an operation, in words and with its page. */
export interface Hold {
  readonly words: string
  readonly href: string
  readonly name: string
}

/** Finishes whose sample is not approved, of some parts. */
function loadUnapproved(client: Reads | Write, partIds: readonly string[]) {
  return client.finish.findMany({
    where: { partId: { in: [...partIds] }, removedAt: null, sampleState: { not: 'approved' } }, orderBy: [{ number: 'asc' }], select: FINISH,
  })
}

/** What holds each of some operations: those of parts with an unapproved finish alone are named. */
export async function loadHolds(client: Reads | Write, partIds: readonly string[]): Promise<Map<string, Hold>> {
  const finishes = await loadUnapproved(client, partIds)
  if (finishes.length === 0) return new Map()
  const held = [...new Set(finishes.map(({ partId }) => partId))]
  const steps = await client.operation.findMany({ where: { partId: { in: held }, removedAt: null }, select: STEP })
  return new Map([...findHolds(steps, finishes)].map(([id, found]) => [id, toHold(found)]))
}

/** What holds an operation as it would stand, or null. */
export async function findHold(client: Reads | Write, wanted: { id: string | null, partId: string, kind: string }): Promise<Hold | null> {
  const finishes = await loadUnapproved(client, [wanted.partId])
  if (finishes.length === 0) return null
  const others = await client.operation.findMany({ where: { partId: wanted.partId, removedAt: null, id: { not: wanted.id ?? '' } }, select: STEP })
  const own = { id: wanted.id ?? 'new', partId: wanted.partId, kind: wanted.kind, state: 'not started' }
  const found = findHolds([...others, own], finishes).get(own.id)
  return found ? toHold(found) : null
}

/** @example toHold([leather]).words // 'S-003 leather, tan: no sample yet. …' */
export function toHold(finishes: readonly Omit<HeldFinish, 'partId'>[]): Hold {
  const [first, ...others] = finishes
  if (!first) throw new Error('a hold is by a finish')
  const name = `${label('S', first.number)} ${nameFinish(first)}`
  const more = others.length === 0 ? '' : ` (and ${others.map(({ number }) => label('S', number)).join(', ')})`
  return {
    name, href: `/finishes/${first.id}`,
    words: `Held by ${name}${more}: ${stateInWords(first.sampleState)}. It can start when the customer’s approval is recorded.`,
  }
}

const stateInWords = (state: string): string =>
  state === 'refused' ? 'its sample was refused' : state === 'sample shown' ? 'its sample was shown and is not approved' : 'no sample was shown yet'
