import { drawInLayers, type DrawingSizes } from '../../../server/calc/drawing/layeredDrawing.ts'
import type { OrderDrawingData, PlacedDrawing } from '../../../web/restoration/orderDrawing.tsx'
import type { OrderStep, RemovalData } from '../../../web/restoration/removal.tsx'
import { part } from './part.ts'
import { seconds } from './workings.ts'

const step = (number: string, name: string, state: OrderStep['state'], hours: number, more: Partial<OrderStep> = {}): OrderStep => ({ number, name, href: '/factory-parts/1', depth: 'out', state, waitsFor: [], seconds: seconds(hours), isBuilt: false, ...more })

function placed(steps: readonly OrderStep[], chosen: readonly [number: string, name: string], sizes: DrawingSizes): PlacedDrawing {
  const named = new Map([...steps.map(({ number, name }) => [number, name] as const), chosen])
  const rules = [...steps.flatMap(({ number, waitsFor }) => waitsFor.map((before) => ({ before, after: number }))), { before: steps.at(-1)?.number ?? '', after: chosen[0] }]
  const { width, height, boxes, routes } = drawInLayers([...named.keys()], rules, sizes)
  return {
    width, height, boxWidth: sizes.boxWidth, boxHeight: sizes.boxHeight,
    things: boxes.map(({ id, x, y }, index) => ({ x, y, number: id, name: named.get(id) ?? '', lines: [named.get(id) ?? ''], step: index + 1, emphasis: id === 'F-051' ? 'plain' : 'on', isBuilt: /^[EP]/.test(id), isChosen: id === chosen[0], isOut: id === 'F-051' })),
    lines: routes.map(({ before, points }) => ({ points, isOn: true, isLoose: before === 'F-053' })),
  }
}

function drawn(steps: readonly OrderStep[]): OrderDrawingData {
  const sizes = { boxWidth: 132, boxHeight: 60, gap: 16, lane: 10, headroom: 15, mostAcross: 6, mostWide: 930 }
  const of = (own: DrawingSizes) => placed(steps, ['F-062', 'Cab vent'], own)
  return { kind: 'drawn', big: of(sizes), small: of({ ...sizes, boxWidth: 54, boxHeight: 30, gap: 8, mostWide: 348, mostAcross: 5 }), free: ['F-058'], hidden: 2 }
}

const asRecorded: RemovalData = {
  trail: [{ name: 'B-0162 Field cab', href: '/builds/sample' }, { name: '5 Rear wall, upper', href: '/builds/sample#zone-5' }, { name: 'Order of removal' }],
  number: 'F-062', title: 'Cab vent', question: 'What must come out before',
  cautions: [{ signal: 'warning', title: 'Airbags and belt pretensioners', text: 'Only trained people, by the maker’s manual. Disconnect the battery, then keep 10 min (recorded for this vehicle).' }, part.cautions[0] ?? { signal: 'caution', title: 'Dust', text: '' }],
  ready: [
    { number: 'F-053', name: 'Pillar trim, left', href: '/factory-parts/53', how: '2 × M6 × 20 bolt, hex 10; 5 × clip', recordHref: '/factory-parts/53/removals/new', intoBin: { name: 'bin 12', post: { action: '/factory-parts/53/removals', idempotencyKey: 'k', values: [['binId', '12']] } } },
    { number: 'F-054', name: 'Pillar trim, right', href: '/factory-parts/54', how: '5 × clip', recordHref: '/factory-parts/54/removals/new' },
  ],
  asFound: { seconds: seconds(3.3), ways: ['Taken: through the cab, 3.3 h. From the bed: 5.5 h.'], steps: [step('F-051', 'Rear seat cushion', 'done', 0.2), step('F-058', '2 × Belt anchors', 'done', 0.3, { depth: 'loosened' }), step('F-053', 'Pillar trim, left', 'ready', 0.25), step('F-054', 'Pillar trim, right', 'ready', 0.25), step('F-056', 'Upper wall trim', 'waits', 0.3, { waitsFor: ['F-053', 'F-054'] }), step('F-055', 'Rear wall panel', 'waits', 0.5, { waitsFor: ['F-056'] })] },
  asBuilt: { seconds: seconds(4.75), ways: [], steps: [step('P-400', 'Rebuilt rear wall', 'waits', 1.2, { isBuilt: true, waitsFor: ['E-08'] }), step('E-08', 'Subwoofer 300 mm', 'ready', 0.25, { isBuilt: true }), step('F-055', 'Rear wall panel', 'waits', 0.5, { waitsFor: ['P-400'] })] },
  differences: ['P-400 Rebuilt rear wall now stands in front of F-055.', 'E-08 Subwoofer must come out before P-400.'],
  others: [{ name: 'all that comes out', href: '/builds/sample/removal' }, { name: 'F-031 Headliner', href: '/builds/sample/removal?part=31' }], address: 'part=62', restoreHref: '/builds/sample/restorations',
}

export const removal: RemovalData = {
  ...asRecorded, asFound: { ...asRecorded.asFound, drawing: drawn(asRecorded.asFound.steps) }, asBuilt: { ...asRecorded.asBuilt, drawing: drawn(asRecorded.asBuilt.steps) },
}

export const ringRemoval: RemovalData = { ...removal, ready: [], asFound: { steps: [], seconds: 0, ways: [], drawing: { kind: 'too large', count: 52 }, refused: 'No order is possible: F-053 before F-056 before F-053. One of these rules must be wrong.' }, differences: [] }
