import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { invalid } from '../shared/problems.ts'
import { getKind } from '../shared/records/kind.ts'
import { createRecord } from '../shared/records/table.ts'
import { Doubts, doubtsIn } from './doubts.ts'
import type { TypedJob, TypedLine } from './forms.ts'
import { findItem, findNamesakes, getFitting, ownerOf, type Fitting, type Item } from './store.ts'

export interface CounterJob {
  readonly buildId: string
  readonly number: number
  readonly customerId: string
  readonly vehicleId: string
}

interface Line extends TypedLine {
  readonly fitting: Fitting
  readonly item: Item | null
}

const LONGEST_TITLE = 120

/** Customer, vehicle, build, zones, lines and operations of a counter job, in one write. Throws Doubts where something is odd and nobody has said that it is meant. */
export async function createCounterJob(write: Write, typed: TypedJob, actor: Actor, today: string): Promise<CounterJob> {
  await ask(write, typed, today)
  const add = async (kind: string, buildId: string | null, values: Readonly<Record<string, unknown>>): Promise<string> =>
    (await createRecord(write, getKind(kind), buildId, { values, entered: {} }, actor)).id
  const lines: Line[] = []
  for (const line of typed.lines) lines.push(await understand(write, line))
  const customerId = await customerOf(write, typed, async () => add('customer', null, typed.customer ?? {}))
  const vehicleId = typed.vehicleId ?? (await add('vehicle', null, { ...typed.vehicle, customerId }))
  const build = await createRecord(write, getKind('build'), null, {
    values: { ...typed.job, title: titleOf(lines), kind: 'counter job', stage: 'order', vehicleId }, entered: {},
  }, actor)
  const zones = new Map<string, string>()
  for (const { fitting: { place } } of lines) {
    if (!zones.has(place)) zones.set(place, await add('zone', build.id, { name: capital(place), place }))
  }
  for (const line of lines) await addLine(line, build.id, zones.get(line.fitting.place) ?? '', add)
  return { buildId: build.id, number: Number(build.number), customerId, vehicleId }
}

async function ask(write: Write, typed: TypedJob, today: string): Promise<void> {
  if (typed.isMeant) return
  const name = typed.customer?.name
  const doubts = doubtsIn(typed, typeof name === 'string' ? await findNamesakes(write, name) : [], today)
  if (doubts.length > 0) throw new Doubts(doubts)
}

async function understand(write: Write, line: TypedLine): Promise<Line> {
  const fitting = await getFitting(write, line.fittingId)
  if (!fitting) throw invalid(`fittingId${line.at}`, 'There is no such fitting any more. Choose one from the list.')
  return { ...line, fitting, item: await itemOf(write, line, fitting) }
}

/** Nothing typed is what is usually fitted, unless the customer brings something. */
async function itemOf(write: Write, { at, equipment, suppliedBy }: TypedLine, { item }: Fitting): Promise<Item | null> {
  if (equipment === '') return suppliedBy === 'shop' ? item : null
  const found = await findItem(write, equipment)
  if (!found && /^K-?\d+$/i.test(equipment)) throw invalid(`equipment${at}`, `The catalog has no ${equipment}. Choose from the list, or say in words what is fitted.`)
  return found
}

async function customerOf(write: Write, { vehicleId, customerId }: TypedJob, add: () => Promise<string>): Promise<string> {
  if (vehicleId === null) return customerId ?? add()
  const owner = await ownerOf(write, vehicleId)
  if (owner === null) throw invalid('vehicleId', 'There is no such vehicle any more. Choose one from the list.')
  if (customerId !== null && customerId !== owner) throw invalid('customerId', 'That vehicle belongs to another customer. Choose the vehicle alone: its owner comes with it.')
  return owner
}

async function addLine(
  { fitting, item, quantity, equipment, price, suppliedBy }: Line, buildId: string, zoneId: string,
  add: (kind: string, buildId: string, values: Readonly<Record<string, unknown>>) => Promise<string>,
): Promise<void> {
  const name = item ? '' : equipment || fitting.name
  const lineId = await add('equipment line', buildId, { zoneId, itemId: item?.id ?? null, name, quantity, suppliedBy, price, kitId: fitting.kitId, cautions: fitting.cautions })
  await add('operation', buildId, {
    lineId, kind: 'fit', work: fitting.name, departmentId: fitting.departmentId, skillId: fitting.skillId, setUp: fitting.setUp, run: fitting.run,
  })
}

function titleOf(lines: readonly Line[]): string {
  const names = lines.map(({ fitting, quantity }) => (quantity > 1 ? `${fitting.name} × ${quantity}` : fitting.name))
  const title = names.join(', ')
  return title.length <= LONGEST_TITLE ? title : `${title.slice(0, LONGEST_TITLE - 1)}…`
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
