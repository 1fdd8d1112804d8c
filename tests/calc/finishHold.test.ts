import t from 'tap'
import { FINISH_KINDS, findHolds, findUnfinished, heldKinds, isFinishing, type FinishStep, type SampledFinish } from '../../server/calc/finishHold.ts'

const step = (id: string, kind: string, more: Partial<FinishStep> = {}): FinishStep => ({ id, partId: 'pod', kind, state: 'not started', ...more })
const finish = (id: string, kind: string, sampleState: string, partId = 'pod'): SampledFinish => ({ id, partId, kind, sampleState })
const heldBy = (steps: readonly FinishStep[], finishes: readonly SampledFinish[]): Record<string, string[]> =>
  Object.fromEntries([...findHolds(steps, finishes)].map(([id, found]) => [id, found.map((one) => one.id)]))

const POD = ['mold', 'laminate', 'sand', 'prime', 'paint', 'foam', 'sew', 'wrap', 'outside finish', 'fit'].map((kind) => step(kind, kind))

// Which operation lays which finish on: common practice, no source.
t.test('a sample that is not approved holds what lays the finish on, and nothing beneath it', async (t) => {
  const held: Readonly<Record<string, readonly string[]>> = {
    'paint': ['paint'], 'powder coat': ['outside finish'], 'anodize': ['outside finish'], 'plating': ['outside finish'],
    'leather': ['sew', 'wrap'], 'vinyl': ['sew', 'wrap'], 'fabric': ['sew', 'wrap'], 'carpet': ['sew', 'wrap'], 'veneer': ['wrap'],
    'other': ['outside finish', 'paint', 'sew', 'wrap'],
  }
  t.same(Object.keys(held).sort(), [...FINISH_KINDS].sort())
  for (const [kind, operations] of Object.entries(held)) {
    for (const state of ['no sample yet', 'sample shown', 'refused']) {
      t.same(Object.keys(heldBy(POD, [finish('s', kind, state)])).sort(), operations, `${kind}, ${state}`)
    }
    t.same(heldBy(POD, [finish('s', kind, 'approved')]), {}, `${kind}, approved`)
  }
})

t.test('what is laid on by an outside finisher is held there', async (t) => {
  t.same(heldKinds('paint', ['sand', 'prime', 'outside finish']), ['outside finish'])
  t.same(heldKinds('leather', ['pattern', 'outside finish']), ['outside finish'])
  t.same(heldKinds('paint', ['paint', 'outside finish']), ['paint'], 'the shop’s own paint is held, not the anodizer’s work on the same part')
  t.same(heldKinds('anodize', ['machine', 'wrap']), [])
})

t.test('each finish of a part has to be approved; other parts and what is done are not held', async (t) => {
  const steps = [step('sew', 'sew'), step('wrap', 'wrap', { state: 'done' }), step('paint', 'paint'), step('other', 'wrap', { partId: 'floor' }), step('line', 'wrap', { partId: null })]
  t.same(heldBy(steps, [finish('leather', 'leather', 'refused'), finish('vinyl', 'vinyl', 'sample shown'), finish('color', 'paint', 'approved')]), { sew: ['leather', 'vinyl'] })
})

t.test('a part with finishing to come and no finish is named once; one that is finished is not', async (t) => {
  const steps = [step('1', 'sew'), step('2', 'wrap'), step('3', 'paint', { partId: 'ring', state: 'done' }), step('4', 'cut', { partId: 'floor' }), step('5', 'paint', { partId: 'frame' })]
  t.same(findUnfinished(steps, [{ partId: 'frame' }]), ['pod'])
  t.same(['prime', 'sand', 'foam', 'cut'].map(isFinishing), [false, false, false, false])
})
