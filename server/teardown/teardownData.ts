import { randomUUID } from 'node:crypto'
import type { BinChoice, CurrentPart, TeardownCaution, TeardownData } from '../../web/teardown/teardownData.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { cautionsFor } from '../calc/removal/cautions.ts'
import { isInVehicle, toPartLabel, toPartNumber, type FactoryPart } from '../calc/removal/factoryParts.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { listPhotos } from '../shared/photos/rows.ts'
import { shownOf } from '../shared/photos/shown.ts'
import { notFound } from '../shared/problems.ts'
import { getKind, label } from '../shared/records/kind.ts'
import { findRecord } from '../shared/records/table.ts'
import { clockTimeIn } from '../shared/shopTime.ts'
import { loadVehicleState, type VehicleState } from '../restoration/store.ts'
import { toFasteners } from './fasteners.ts'
import { toMoreForms, type Refused } from './moreForms.ts'
import { howOf, standingOf, toFront, toOpen, toRows, toTeardownOrder, triggersOf, type TeardownOrder } from './order.ts'
import { toRest } from './rest.ts'
import { loadRecords, type Records, type TeardownBin } from './store.ts'

interface Asked {
  readonly buildId: string
  readonly partId?: string | undefined
  readonly partNumber?: number | undefined
  readonly said?: string | undefined
  readonly refused?: Refused
}

// Enough to see that the pictures have come.
const MOST_PHOTOS = 6

/** The page of a teardown: the part asked for, or the next in the order. */
export async function teardownData(reads: Reads, viewer: Viewer, { buildId, partId, partNumber, said = '', refused }: Asked): Promise<TeardownData> {
  const [state, records, { timeZone }] = await Promise.all([loadVehicleState(reads, buildId), loadRecords(reads, buildId), shopOf(reads)])
  const { factoryParts } = state.input
  const order = toTeardownOrder(state)
  const nextId = order.nextIds[0]
  const isAsked = partId !== undefined || partNumber !== undefined
  const part = factoryParts.find(({ id, number }) => (isAsked ? id === partId || number === partNumber : id === nextId)) ?? null
  if (isAsked && !part) throw notFound('factory part')
  const row = part ? await findRecord(reads, getKind('factory part'), part.id) : null
  return {
    buildId, build: `${label('B', state.build.number)} ${state.build.title}`,
    settled: factoryParts.length - order.nextIds.length, total: factoryParts.length,
    part: part ? await toCurrent(reads, part, state, order, timeZone) : null, isNext: part?.id === nextId,
    cautions: cautionsOf(state, order, part, records), bins: records.bins.map((bin, index) => toBin(bin, index === 0 && records.removals.some((one) => one.bin?.number === bin.number))),
    newBin: records.newBin, key: randomUUID(), last: lastOf(records, factoryParts, buildId, timeZone),
    rows: toRows(state, order, records), rest: toRest(factoryParts, records, buildId), open: toOpen(state, order), said,
    more: toMoreForms(state, part, { version: row?.version ?? 0, condition: String(row?.condition ?? '') }, viewer, refused),
  }
}

async function toCurrent(reads: Reads, part: FactoryPart, state: VehicleState, order: TeardownOrder, timeZone: string): Promise<CurrentPart> {
  const photos = await listPhotos(reads, { subjectKind: 'factory part', subjectId: part.id })
  return {
    id: part.id, number: toPartNumber(part), name: part.name, href: `/factory-parts/${part.id}`, zone: part.zoneName, how: howOf(part),
    standing: standingOf(part, order).words, isOut: !isInVehicle(part), front: toFront(part, state, order),
    photos: photos.slice(-MOST_PHOTOS).map((photo) => shownOf(photo, toPartLabel(part), timeZone)), photoCount: photos.length, fasteners: toFasteners(part),
  }
}

/** Before the first touch all of them are shown; then those of the part at hand. */
function cautionsOf({ vehicle, input }: VehicleState, { nextIds }: TeardownOrder, part: FactoryPart | null, { removals }: Records): TeardownCaution[] {
  const concerned = input.factoryParts.filter(({ id }) => nextIds.includes(id) || id === part?.id)
  const own = new Set(part ? triggersOf(part, vehicle.energy) : [])
  return cautionsFor(concerned.flatMap((one) => triggersOf(one, vehicle.energy)), vehicle)
    .map(({ signalWord, title, text, trigger }) => ({ signal: signalWord, title, text, trigger, isShown: part !== null && (own.has(trigger) || removals.length === 0) }))
}

function toBin({ number, place, parts }: TeardownBin, isLast: boolean): BinChoice {
  const holds = parts.length === 0 ? 'empty' : `with ${parts.slice(0, 2).map((part) => label('F', part.number)).join(', ')}${parts.length > 2 ? ' …' : ''}`
  return { number, name: label('A', number), words: [isLast ? 'last used' : '', holds, place].filter((word) => word !== '').join(', ') }
}

const SAID: Readonly<Record<string, string>> = { 'came out': 'came out', loosened: 'loosened', stays: 'stays', altered: 'altered', broke: 'broke' }

function lastOf({ removals }: Records, factoryParts: readonly FactoryPart[], buildId: string, timeZone: string): TeardownData['last'] {
  const [last] = removals
  const part = factoryParts.find(({ id }) => id === last?.factoryPartId)
  if (!last || !part) return null
  const into = last.bin ? `, into ${label('A', last.bin.number)}` : ''
  return {
    words: `${toPartLabel(part)} ${SAID[last.kind] ?? last.kind}${into}, ${clockTimeIn(timeZone, last.at)}`,
    undo: { action: `/builds/${buildId}/teardown/withdrawals`, idempotencyKey: randomUUID(), values: [['removalId', last.id]] },
  }
}
