import { isFinishing } from '../../server/calc/finishHold.ts'
import { finish } from '../../server/finishes/records.ts'
import type { Columns } from '../rows.ts'
import { enteredBy, get } from '../world.ts'
import type { Desk } from './addBuild.ts'
import { RECIPES, type Step } from './recipes.ts'
import type { PartRow, SampleRows } from './tables.ts'

/** The finish schedule, for every part that is painted, covered or sent to a finisher. */
export function addFinishes(desk: Desk): void {
  const { samples, parts } = desk.tables
  if (!samples) return
  const finished = parts.flatMap((group) => group.parts).filter(({ recipe }) => RECIPES[recipe].some(({ kind }) => isFinishing(kind)))
  finished.forEach((row, index) => addFinish(desk, samples, row, index + 1))
}

function addFinish(desk: Desk, { by, day, open }: SampleRows, row: PartRow, number: number): void {
  const { world, buildId, things } = desk
  const { rows, days } = world
  const waits = open[`P${row.n}`]
  const state = waits?.state ?? 'approved'
  const isDecided = state === 'approved' || state === 'refused'
  const decided = { sampleState: state, approvedBy: isDecided ? by : '', approvedOn: isDecided ? days.workday(day) : null, refusal: waits?.why ?? '' }
  enteredBy(world, 'b.tarrow', day, '15:40')
  const id = rows.add(finish, { ...typedOf(row), partId: get(things, `P${row.n}`) }, { buildId, number, ...decided })
  if (!isDecided) return
  enteredBy(world, 'n.corvane', day, '16:30')
  rows.changed(finish, id, [{ field: 'sampleState', before: 'sample shown', after: state }, { field: 'approvedBy', before: '', after: by }])
}

/** By the recipe and by what the part takes. */
function typedOf({ recipe, needs = '' }: PartRow): Columns {
  const steps: readonly Step[] = RECIPES[recipe]
  const [last] = steps.filter(({ kind }) => isFinishing(kind))
  if (last?.kind === 'outside finish') return OUTSIDE[last.work] ?? { kind: 'powder coat', color: 'black' }
  if (last?.kind === 'paint') return painted(recipe, needs)
  const cover = COVERS.find(([material]) => needs.includes(material))
  return cover?.[1] ?? { kind: 'fabric', material: 'acoustic cloth', color: 'black', grain: 'stretch across', supplier: 'Weir & Daughter' }
}

const OUTSIDE: Readonly<Record<string, Columns>> = {
  'powder coat': { kind: 'powder coat', material: 'fine texture', color: 'black', code: 'TX 11', supplier: 'Ferris Coating' },
  'anodize, black': { kind: 'anodize', material: '15 µm, sealed', color: 'black', code: 'N 2', supplier: 'Anode Yard' },
}

const COVERS: readonly (readonly [material: string, finish: Columns])[] = [
  ['hide', { kind: 'leather', material: 'full grain, 1.2 mm', color: 'saddle', thread: '40 sand', supplier: 'Sallow Hides', batch: 'hide lot 318' }],
  ['suede', { kind: 'fabric', material: 'microsuede', color: 'smoke', grain: 'nap to the rear', thread: '60 smoke', supplier: 'Weir & Daughter', batch: 'lot 77' }],
  ['carpet', { kind: 'carpet', material: 'automotive carpet', color: 'graphite', grain: 'nap to the rear', supplier: 'Weir & Daughter', batch: 'roll 12' }],
  ['vinyl', { kind: 'vinyl', material: 'expanded vinyl', color: 'slate', thread: '40 slate', supplier: 'Weir & Daughter', batch: 'roll 9' }],
]

function painted(recipe: PartRow['recipe'], needs: string): Columns {
  if (recipe === 'bracket') return { kind: 'paint', material: 'two-part primer and top coat', color: 'black', code: 'S 01', supplier: 'Marsh Street Paints' }
  if (needs.includes('walnut')) return { kind: 'paint', material: 'matte clear over walnut', color: 'natural', code: 'C 40', grain: 'with the length', supplier: 'Marsh Street Paints' }
  if (needs.includes('bedliner')) return { kind: 'paint', material: 'bed liner', color: 'black', code: 'BL 2', supplier: 'Marsh Street Paints' }
  return { kind: 'paint', material: 'color and matte clear', color: 'smoke gray', code: 'G 71', supplier: 'Marsh Street Paints', batch: 'can 4' }
}
