import { nameThings } from '../restoration/naming.ts'
import type { StateZone, VehicleState } from '../restoration/store.ts'
import { notFound } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import type { Orders } from './orders.ts'

/** What of the two orders is looked at. */
export type OrderView = { readonly kind: 'whole' } | { readonly kind: 'thing', readonly id: string } | { readonly kind: 'zone', readonly zone: StateZone }

/** As the address of the page says it: a thing by its id or its number, or a zone by its number. */
export interface ViewAsked {
  readonly part?: string | undefined
  readonly of?: string | undefined
  readonly zone?: number | undefined
}

/** Throws a 404 for what is not in the build. */
export function viewAsked(state: VehicleState, { part, of, zone }: ViewAsked): OrderView {
  if (part !== undefined || of !== undefined) {
    const found = [...nameThings(state)].find(([id, { number }]) => id === part || number === of)
    if (!found) throw notFound('factory part')
    return { kind: 'thing', id: found[0] }
  }
  if (zone === undefined) return { kind: 'whole' }
  const found = state.zones.find(({ number }) => number === zone)
  if (!found) throw notFound('zone')
  return { kind: 'zone', zone: found }
}

/** What shall come out. */
export function targetsOf(view: OrderView, { input }: VehicleState): 'all' | string[] {
  if (view.kind === 'whole') return 'all'
  if (view.kind === 'thing') return [view.id]
  return [...input.factoryParts, ...input.installedItems].filter(({ zoneId }) => zoneId === view.zone.id).map(({ id }) => id)
}

/** Whether a thing is what is looked at, not only in front of it. */
export function inView(view: OrderView, { input }: VehicleState): (id: string) => boolean {
  if (view.kind === 'whole') return () => true
  if (view.kind === 'thing') return (id) => id === view.id
  const own = new Set([...input.factoryParts, ...input.installedItems].filter(({ zoneId }) => zoneId === view.zone.id).map(({ id }) => id))
  return (id) => own.has(id)
}

/** The view as it stands in an address; empty for the whole vehicle. */
export function addressOf(view: OrderView, { things }: Pick<Orders, 'things'>): string {
  if (view.kind === 'whole') return ''
  return view.kind === 'zone' ? `zone=${view.zone.number}` : `of=${things.get(view.id)?.number ?? ''}`
}

/** The view's name in the trail, its number, its title, and what is asked about it. */
export function wordsOf(view: OrderView, { build }: VehicleState, { things }: Pick<Orders, 'things'>): [trail: string, number: string, title: string, question: string] {
  if (view.kind === 'whole') return ['', label('B', build.number), build.title, 'What comes out of']
  if (view.kind === 'zone') return [`${view.zone.number} ${view.zone.name}`, String(view.zone.number), view.zone.name, 'What comes out of the zone']
  const { number = '', name = '' } = things.get(view.id) ?? {}
  return [`${number} ${name}`, number, name, 'What must come out before']
}
