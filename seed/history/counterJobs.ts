import type { FactoryGroup } from '../builds/tables.ts'
import type { JobRecipe } from './recipe.ts'

const out = (zone: string, parts: FactoryGroup['parts']): FactoryGroup => ({ zone, state: 'fitted', by: 's.penhale', day: 0, backDay: 0, parts })

/** One to three lines, nothing made, an hour to four. */
export const COUNTER_JOBS: readonly JobRecipe[] = [
  {
    title: 'Front door speakers', kind: 'counter job', reason: 'The factory speakers buzz.', days: 1,
    zones: [{ key: 'doors', name: 'Front doors', place: 'front doors' }],
    lines: [{ n: 1, zone: 'doors', item: 'cx165', quantity: 2, work: 'fit and wire', mounting: 'in the factory holes', take: '10 min', isFitted: true }],
    factory: [out('doors', [
      ['panelL', 'Door panel, left', '14 min', '8 clipA, 2 s48', '', { work: 'zone out and back', size: 0.4 }],
      ['panelR', 'Door panel, right', '14 min', '8 clipA, 2 s48', ''],
      ['speakerL', 'Factory speaker, left', '6 min', '3 s42', 'panelL', { state: 'out with the customer', place: 'taken along' }],
      ['speakerR', 'Factory speaker, right', '6 min', '3 s42', 'panelR', { state: 'out with the customer', place: 'taken along' }],
    ])],
    edges: [{ graph: 'as built', before: 'panelL panelR', after: 'E1' }, { graph: 'as built', before: 'E1', after: 'speakerL speakerR', note: 'Takes the place of the factory speakers.' }],
    predecessors: ['panelL:10 > E1:10', 'E1:20 > panelL:20'],
  },
  {
    title: 'Rear camera', kind: 'counter job', reason: 'Backing out of a lane without sight.', days: 1,
    zones: [{ key: 'rear', name: 'Tailgate', place: 'outside' }],
    lines: [{ n: 1, zone: 'rear', item: 'cam', work: 'run and wire', size: 1.1, mounting: 'above the plate', take: '20 min', cautions: 'driver assistance', isFitted: true }],
    factory: [out('rear', [['gateTrim', 'Tailgate trim', '8 min', '8 clipA', '', { work: 'zone out and back', size: 0.3 }]])],
    edges: [{ graph: 'as built', before: 'gateTrim', after: 'E1' }],
    predecessors: ['gateTrim:10 > E1:10', 'E1:10 > gateTrim:20'],
  },
  {
    title: 'Dash camera', kind: 'counter job', reason: 'Parking at night in the street.', days: 1,
    zones: [{ key: 'dash', name: 'Windshield and dash', place: 'dash' }],
    lines: [{ n: 1, zone: 'dash', item: 'dashcam', work: 'fit and wire', size: 1.5, mounting: 'behind the mirror', take: '10 min', cautions: 'driver view,driver assistance', isFitted: true }],
    factory: [out('dash', [['endCap', 'Dash end cap, left', '2 min', '3 clipA', '', { cautions: 'airbag' }]])],
    edges: [{ graph: 'as built', before: 'endCap', after: 'E1' }],
  },
  {
    title: 'Source unit and harness adapter', kind: 'counter job', reason: 'The old unit no longer pairs with the telephone.', days: 1,
    zones: [{ key: 'dash', name: 'Dash', place: 'dash' }],
    lines: [
      { n: 1, zone: 'dash', item: 'head', work: 'fit and wire', size: 1.3, mounting: 'factory cradle', take: '12 min', isFitted: true },
      { n: 2, zone: 'dash', item: 'harness', work: 'fit only', mounting: 'on the factory plugs', take: '5 min', isFitted: true },
    ],
    factory: [out('dash', [
      ['surround', 'Radio surround', '6 min', '6 clipA', '', { work: 'zone out and back', size: 0.3 }],
      ['radio', 'Factory radio', '8 min', '4 s48', 'surround', { state: 'out with the customer', place: 'taken along', connectors: 'main plug, antenna' }],
    ])],
    edges: [{ graph: 'as built', before: 'surround', after: 'E1 E2' }, { graph: 'as built', before: 'E1', after: 'radio', note: 'Takes the place of the factory radio.' }],
    predecessors: ['surround:10 > E1:10', 'E1:20 > surround:20'],
  },
  {
    title: 'Cargo area light', kind: 'counter job', reason: 'Loading before sunrise.', days: 1,
    zones: [{ key: 'roof', name: 'Headliner, rear', place: 'headliner' }],
    lines: [
      { n: 1, zone: 'roof', item: 'strip', quantity: 2, work: 'fit and wire', mounting: 'along the headliner edge', take: '8 min', isFitted: true, needs: 'wire4 5 m' },
      { n: 2, zone: 'roof', item: 'work', work: 'fit and wire', mounting: 'over the tailgate', take: '8 min', isFitted: true },
    ],
    factory: [out('roof', [['gateUpper', 'Tailgate upper trim', '5 min', '4 clipC', '', { cautions: 'airbag', work: 'zone out and back', size: 0.3 }]])],
    edges: [{ graph: 'as built', before: 'gateUpper', after: 'E1 E2' }],
    predecessors: ['gateUpper:10 > E1:10', 'E1:20 > gateUpper:20', 'E2:20 > gateUpper:20'],
  },
]
