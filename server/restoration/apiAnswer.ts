import { z } from 'zod'
import type { Role } from '../../web/shared/viewer.ts'
import { listOutOfUse } from '../calc/restoration/outOfUse.ts'
import { nameThings } from './naming.ts'
import { mayShowMoney, type Refused, type Restoration } from './result.ts'
import type { VehicleState } from './store.ts'
import { listOpenPoints } from './unsettled.ts'

const torque = z.union([z.object({ mNm: z.int(), source: z.string() }), z.string()]).describe('mN·m with its source, or where to look')
const thing = { id: z.string(), number: z.string(), name: z.string() }

const stepSchema = z.object({
  number: z.int(), phase: z.string(), zoneName: z.string(), itemNumber: z.string(), text: z.string(), place: z.string(),
  fasteners: z.array(z.object({ text: z.string(), torque })), notes: z.array(z.string()), cautionNumbers: z.array(z.string()),
})

export const restorationSchema = z.object({
  basis: z.enum(['recorded', 'planned']).describe('From the vehicle as recorded now, or as the build is meant to leave it'),
  refused: z.string().nullable().describe('The ring that makes an order impossible, in words; then all else is empty'),
  verdict: z.string(),
  reasons: z.array(z.string()),
  needs: z.array(z.string()),
  hours: z.object({ out: z.int(), repair: z.int(), back: z.int(), total: z.int() }).describe('s'),
  cost: z.object({ labor: z.int(), parts: z.int(), outside: z.int(), total: z.int(), unpricedCount: z.int() }).nullable()
    .describe('Minor units; for managers, once a department prices it'),
  leadDays: z.int(),
  takeOut: z.array(z.object({ ...thing, depth: z.enum(['out', 'loosened']) })),
  putBack: z.array(z.object({ ...thing, how: z.enum(['refit', 'fit new', 'tighten']) })),
  staysOutIds: z.array(z.string()),
  partsToBuy: z.array(z.object({
    name: z.string(), count: z.int(), reason: z.string(), forNumbers: z.array(z.string()), leadDays: z.int(), price: z.int().nullable(),
  })),
  cautions: z.array(z.object({ number: z.string(), signalWord: z.string(), title: z.string(), text: z.string() })),
  steps: z.array(stepSchema),
  outOfUse: z.array(z.string()).describe('What does not work meanwhile, and afterward, in words'),
  openPoints: z.array(z.string()),
}).meta({ id: 'Restoration' })

type Answer = z.infer<typeof restorationSchema>

/** A restoration as this role may see it. */
export function restorationJson(found: Restoration | Refused, state: VehicleState, role: Role): Answer {
  if ('sentence' in found) return { ...NOTHING, basis: found.basis, refused: found.sentence }
  const { basis, plan, verdict, checklist } = found
  const showsMoney = mayShowMoney(role, state)
  const things = nameThings(state)
  const named = (id: string) => ({ id, number: things.get(id)?.number ?? '', name: things.get(id)?.name ?? '' })
  const { outS, repairS, backS, totalS } = verdict.hours
  const { laborMinor, partsMinor, outsideMinor, totalMinor, unpricedCount } = verdict.cost
  return {
    basis, refused: null, verdict: verdict.kind, reasons: [...verdict.reasons], needs: [...verdict.needs], leadDays: verdict.leadDays,
    hours: { out: outS, repair: repairS, back: backS, total: totalS },
    cost: showsMoney ? { labor: laborMinor, parts: partsMinor, outside: outsideMinor, total: totalMinor, unpricedCount } : null,
    takeOut: plan.takeOut.map(({ id, depth }) => ({ ...named(id), depth })),
    putBack: plan.putBack.map(({ id, how }) => ({ ...named(id), how })),
    staysOutIds: [...plan.staysOutIds],
    partsToBuy: verdict.partsToBuy.map(({ priceMinor, forNumbers, from: _, ...line }) => ({ ...line, forNumbers: [...forNumbers], price: showsMoney ? priceMinor : null })),
    cautions: checklist.cautions.map(({ number, signalWord, title, text }) => ({ number, signalWord, title, text })),
    steps: checklist.steps.map((step) => ({ ...step, fasteners: [...step.fasteners], notes: [...step.notes], cautionNumbers: [...step.cautionNumbers] })),
    outOfUse: listOutOfUse(found.input, plan), openPoints: listOpenPoints(found, state, role),
  }
}

const NOTHING: Omit<Answer, 'basis' | 'refused'> = {
  verdict: 'no order is possible', reasons: [], needs: [], hours: { out: 0, repair: 0, back: 0, total: 0 }, cost: null, leadDays: 0, takeOut: [],
  putBack: [], staysOutIds: [], partsToBuy: [], cautions: [], steps: [], outOfUse: [], openPoints: [],
}
