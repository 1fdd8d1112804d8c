import fc from 'fast-check'
import t from 'tap'
import { planRestoration } from '../../server/calc/restoration/restoration.ts'
import { restorationByZone } from '../../server/calc/restoration/restorationByZone.ts'
import { toVerdict } from '../../server/calc/restoration/verdict.ts'
import { alteration, arbitraryRestoration, DOOR, getPlan, part, restorationOf } from '../support/restorationWorld.ts'

t.test('each thing counts in the zone where it stands, and an alteration where it was made', async t => {
  const input = restorationOf({
    factoryParts: [
      part(1, 'panel', { state: 'out and stored', place: 'A', putBackS: 1800 }),
      part(2, 'carpet', { state: 'loosened', zoneId: 'z2', zoneName: 'floor', takeOutS: 600, putBackS: 1200 }),
    ],
    alterations: [alteration('X-001', { zoneId: 'z2', zoneName: 'floor', reverseS: 900 })],
  })
  // By hand: the panel 1800 s; the carpet is made fast in half of 1200 s, and the hole takes 900 s.
  t.strictSame([...restorationByZone(input, getPlan(input))].sort(), [['z1', 1800], ['z2', 1500]])
  // The door as built: panel out 900 s and back 1200 s with its switch, baffle and speaker out, factory speaker back 500 s.
  t.equal(restorationByZone(DOOR, getPlan(DOOR)).get('z1'), 300 + 900 + 480 + 720 + 500 + 1200 + 300)
})

t.test('the zones sum to the hours of the verdict, whatever is out and however it is ordered', async () => {
  fc.assert(fc.property(arbitraryRestoration, fc.array(fc.constantFrom('z1', 'z2', 'z3'), { minLength: 5, maxLength: 5 }), (world, zones) => {
    const input = {
      ...world,
      factoryParts: world.factoryParts.map((each, index) => ({ ...each, zoneId: zones[index] ?? 'z1' })),
      installedItems: world.installedItems.map((each, index) => ({ ...each, zoneId: zones[4 - index] ?? 'z1' })),
    }
    const plan = planRestoration(input)
    if (plan.kind === 'refused') return
    const sum = [...restorationByZone(input, plan).values()].reduce((total, seconds) => total + seconds, 0)
    if (sum !== toVerdict(input, plan, 5000).hours.totalS) throw new Error(`${sum} s in the zones`)
  }), { numRuns: 100, seed: 20_310_304 })
})
