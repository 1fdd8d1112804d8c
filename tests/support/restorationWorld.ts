import fc from 'fast-check'
import type { Alteration, FactoryPart, Fastener, InstalledItem } from '../../server/calc/removal/factoryParts.ts'
import type { RemovalEdge } from '../../server/calc/removal/removalEdges.ts'
import { planRestoration } from '../../server/calc/restoration/restoration.ts'
import type { RestorationPlan } from '../../server/calc/restoration/restoration.ts'
import type { RestorationInput } from '../../server/calc/restoration/restorationInput.ts'

/** A factory part whose id is its printed number, "F-021". */
export function part(number: number, name: string, more: Partial<FactoryPart> = {}): FactoryPart {
  return {
    id: `F-${String(number).padStart(3, '0')}`, number, name, zoneId: 'z1', zoneName: 'left front door', state: 'fitted',
    place: '', takeOutS: 600, putBackS: 600, cautionTriggers: [], connectors: '', fasteners: [], leadDays: 0,
    replaceCostMinor: null, note: '', ...more,
  }
}

export function item(number: string, name: string, more: Partial<InstalledItem> = {}): InstalledItem {
  return {
    id: number, kind: number.startsWith('E') ? 'equipment' : 'made part', number, name, zoneId: 'z1',
    zoneName: 'left front door', isFitted: true, takeOutS: 600, putBackS: 600, cautionTriggers: [], fasteners: '',
    replacesFactoryPartIds: [], ...more,
  }
}

export function fastener(kind: string, count: number, more: Partial<Fastener> = {}): Fastener {
  return {
    id: kind, kind, size: '', drive: '', count, torqueMnm: null, torqueSource: '', isSingleUse: false,
    breakThousandths: 0, priceMinor: null, leadDays: 0, isSafety: false, ...more,
  }
}

export function alteration(number: string, more: Partial<Alteration> = {}): Alteration {
  return {
    id: number, number, zoneId: 'z1', zoneName: 'left front door', factoryPartId: null, what: 'hole', kind: 'drilled',
    consentBy: 'owner', isReversible: true, reversal: 'Plug and seal', reverseS: 0, partsToBuy: [], leadDays: 0,
    isReversed: false, ...more,
  }
}

export function edge(graph: RemovalEdge['graph'], beforeId: string, afterId: string, kind: RemovalEdge['kind'] = 'out'): RemovalEdge {
  return { graph, kind, beforeId, afterId }
}

export function restorationOf(input: Partial<RestorationInput>): RestorationInput {
  return { factoryParts: [], installedItems: [], edges: [], alterations: [], choice: 'all', ...input }
}

/**
 * A front door as a tradesman knows it. As found: window switch, then panel, then speaker. As built:
 * the panel is back in front of a made baffle that carries another speaker; the factory one is in a bin.
 */
const PANEL_CLIPS = fastener('clip', 9, { breakThousandths: 200, priceMinor: 120, leadDays: 3 })
export const DOOR = restorationOf({
  factoryParts: [
    part(20, 'window switch', { takeOutS: 300, putBackS: 300, connectors: 'switch plug' }),
    part(21, 'door panel', { takeOutS: 900, putBackS: 1200, fasteners: [PANEL_CLIPS, fastener('screw', 2, { size: 'M5 × 20' })] }),
    part(22, 'door speaker', { state: 'out and stored', place: 'bin A-07', takeOutS: 400, putBackS: 500,
      fasteners: [fastener('bolt', 4, { size: 'M6 × 20', drive: 'hexalobular no. 30', torqueMnm: 9000, torqueSource: 'workshop manual, door' })] }),
  ],
  installedItems: [
    item('E-05', 'midbass', { takeOutS: 480, replacesFactoryPartIds: ['F-022'] }),
    item('P-420', 'baffle', { takeOutS: 720, replacesFactoryPartIds: ['F-022'] }),
  ],
  edges: [
    edge('found', 'F-020', 'F-021'), edge('found', 'F-021', 'F-022'),
    edge('built', 'F-021', 'E-05'), edge('built', 'E-05', 'P-420'),
  ],
})

export function getPlan(input: RestorationInput): RestorationPlan {
  const result = planRestoration(input)
  if (result.kind === 'refused') throw new Error(result.sentence)
  return result
}

export const ids = (steps: readonly { readonly id: string }[]) => steps.map(step => step.id)

const arbitraryState = fc.constantFrom('fitted', 'fitted', 'out and stored', 'altered', 'loosened', 'missing')
// Even seconds, so that half a time is exact.
const arbitrarySeconds = fc.integer({ min: 0, max: 9 }).map(n => n * 2)

/** Small vehicles of up to three factory parts and two installed items, any edges among them. */
export const arbitraryRestoration: fc.Arbitrary<RestorationInput> = fc.record({
  parts: fc.array(fc.record({ state: arbitraryState, out: arbitrarySeconds, back: arbitrarySeconds }), { minLength: 1, maxLength: 3 }),
  items: fc.array(fc.record({ isFitted: fc.boolean(), out: arbitrarySeconds, back: arbitrarySeconds, replaces: fc.nat(2) }), { maxLength: 2 }),
  pairs: fc.array(fc.record({
    graph: fc.constantFrom('found', 'found', 'built', 'built', 'built', 'reinstall'), kind: fc.constantFrom('out', 'out', 'loosened'),
    from: fc.nat(4), to: fc.nat(4), way: fc.constantFrom('', '', 'from above', 'from below'),
  }), { maxLength: 7 }),
  isWhole: fc.boolean(),
  chosen: fc.nat(2),
}).map(({ parts, items, pairs, isWhole, chosen }) => {
  const factoryParts = parts.map(({ state, out, back }, index) => part(index + 1, 'part', { state, takeOutS: out, putBackS: back }))
  const partIds = factoryParts.map(({ id }) => id)
  const installedItems = items.map(({ isFitted, out, back, replaces }, index) => item(`E-0${index + 1}`, 'thing', {
    isFitted, takeOutS: out, putBackS: back, replacesFactoryPartIds: partIds.slice(replaces, replaces + 1),
  }))
  const ids = [...partIds, ...installedItems.map(({ id }) => id)]
  const edges = pairs.flatMap(({ graph, kind, from, to, way }): RemovalEdge[] => {
    const [beforeId, afterId] = [ids[from % ids.length] ?? '', ids[to % ids.length] ?? '']
    const isAmongParts = partIds.includes(beforeId) && partIds.includes(afterId)
    if (beforeId === afterId || (graph === 'found' && !isAmongParts)) return []
    return [{ graph, kind, beforeId, afterId, ...(way !== '' && graph !== 'reinstall' ? { way } : {}) }]
  })
  const choice = isWhole ? 'all' as const : { factoryPartIds: partIds.slice(chosen, chosen + 1), alterationIds: [] }
  return restorationOf({ factoryParts, installedItems, edges, choice })
})
