import assert from 'node:assert/strict'
import fc from 'fast-check'
import t from 'tap'
import { FIT_CHECKS, fitCheck, type FitItem, type FitPlace } from '../../server/calc/fitCheck.ts'
import { parseQuantity } from '../../server/calc/quantities.ts'

const RUNS = { numRuns: 100, seed: 31_125 }

const item = (fields: Partial<FitItem> = {}): FitItem => ({ mountingDepth: null, projection: null, length: null, width: null, height: null, ...fields })
const place = (fields: Partial<FitPlace> = {}): FitPlace => ({
  checks: ['mounting depth'], depth: null, windowDrop: null, seatTravel: null, lidHinges: null, grille: null, length: null, width: null, largestSpacer: 0, clearance: 3_000, ...fields,
})
const um = (text: string): number => {
  const read = parseQuantity(text, 'length', 'mm')
  assert(read.ok, text)
  return read.value
}

t.test('a 2 3/4 in deep speaker in a door 2 in deep takes a 3/4 in spacer', async (t) => {
  // neogaf.com/threads/fitting-bigger-speakers-in-your-car-door.30045: "roughly 2 in of depth in the doors", "top-mount depth 2-3/4 in",
  // "compensate with 3/4 in". A hobbyist's instructions, weak as a source, and without a clearance.
  const answer = fitCheck(item({ mountingDepth: um('2 3/4 in') }), place({ depth: um('2 in'), largestSpacer: um('1 in'), clearance: 0 }), null)
  t.match(answer, { state: 'fits with a spacer', leastSpacer: 19_050 })
})

// From here on: common practice, no source; every sum by hand.
t.test('each limit by itself: to the last micrometer it fits, one more and it does not', async (t) => {
  const cases: [Partial<FitItem>, Partial<FitPlace>, keyof FitItem][] = [
    [{ mountingDepth: 58_000 }, { checks: ['mounting depth'], depth: 61_000 }, 'mountingDepth'],
    [{ mountingDepth: 58_000 }, { checks: ['window drop'], windowDrop: 61_000 }, 'mountingDepth'],
    [{ height: 58_000 }, { checks: ['seat travel'], seatTravel: 61_000 }, 'height'],
    [{ height: 58_000 }, { checks: ['lid hinges'], lidHinges: 61_000 }, 'height'],
    [{ projection: 58_000 }, { checks: ['grille clearance'], grille: 61_000 }, 'projection'],
  ]
  for (const [size, room, name] of cases) {
    t.match(fitCheck(item(size), place(room), null), { state: 'fits', leastSpacer: 0, checks: [{ left: 0 }] }, name)
    t.match(fitCheck(item({ [name]: 58_001 }), place(room), null), { state: 'does not fit', leastSpacer: null, checks: [{ left: -1 }] }, name)
  }
})

t.test('an opening is passed a quarter turned, and nothing has to stay free beside it', async (t) => {
  const opening = place({ checks: ['cutout'], length: 100_000, width: 60_000 })
  t.equal(fitCheck(item({ length: 60_000, width: 100_000 }), opening, null).state, 'fits')
  t.match(fitCheck(item({ length: 61_000, width: 61_000 }), opening, 5_000), { state: 'does not fit', checks: [{ left: -1_000 }] })
})

t.test('the spacer that the window asks for is limited by the grille in front', async (t) => {
  // Behind: 66 + 3 − 57 = 12 mm is needed. In front: 30 − 9 − 3 = 18 mm is left for it.
  const door = place({ checks: ['mounting depth', 'window drop', 'grille clearance'], depth: 62_000, windowDrop: 57_000, grille: 30_000, largestSpacer: 18_000 })
  const midbass = item({ mountingDepth: 66_000, projection: 9_000 })
  t.match(fitCheck(midbass, door, null), { state: 'fits with a spacer', leastSpacer: 12_000, words: /short in mounting depth and window drop/ })
  t.match(fitCheck(midbass, door, 18_000), { state: 'fits', checks: [{ left: 11_000 }, { left: 6_000 }, { left: 0 }] })
  t.match(fitCheck(midbass, door, 11_999), { state: 'does not fit', leastSpacer: 12_000, checks: [{}, { state: 'does not fit', left: -1 }, {}] })
  t.match(fitCheck(midbass, { ...door, largestSpacer: 11_999 }, null), { state: 'does not fit', leastSpacer: null, words: /no spacer this place takes/ })
  t.match(fitCheck(midbass, { ...door, grille: 23_999 }, null), { state: 'does not fit' })
  t.match(fitCheck(midbass, door, 18_001), { state: 'does not fit', words: /thicker than this place takes/ })
})

t.test('what is not recorded leaves it open and is named, unless it cannot fit anyway', async (t) => {
  const both = place({ checks: ['mounting depth', 'grille clearance'], depth: 50_000 })
  t.match(fitCheck(item({ mountingDepth: 40_000 }), both, null), { state: 'open', leastSpacer: null, words: 'Open: not recorded is projection in front of the mounting face, room to the grille in front.' })
  t.match(fitCheck(item({ mountingDepth: 60_000 }), both, null), { state: 'does not fit' })
  t.match(fitCheck(item(), place({ checks: [] }), null), { state: 'open', leastSpacer: null, words: /no limit/ })
})

t.test('how it comes about adds up to what is left', async (t) => {
  const [check] = fitCheck(item({ mountingDepth: 66_000 }), place({ depth: 62_000 }), 18_000).checks
  t.same(check?.working?.inputs.map(({ amount }) => amount.value), [62_000, 18_000, 66_000, 3_000])
  t.match(check?.working, { result: { kind: 'length', value: 11_000 }, formula: /room \+ spacer/ })
})

const size = fc.option(fc.integer({ min: 0, max: 40 }), { freq: 8 })
const items: fc.Arbitrary<FitItem> = fc.record({ mountingDepth: size, projection: size, length: size, width: size, height: size })
const places: fc.Arbitrary<FitPlace> = fc.record({
  checks: fc.subarray([...FIT_CHECKS], { minLength: 1 }), depth: size, windowDrop: size, seatTravel: size, lidHinges: size, grille: size, length: size, width: size,
  largestSpacer: fc.integer({ min: 0, max: 20 }), clearance: fc.integer({ min: 0, max: 5 }),
})

t.test('more room never turns what fits into what does not', async () => {
  const RANK = { 'does not fit': 0, 'open': 1, 'fits with a spacer': 2, 'fits': 3 }
  const ROOMS = ['depth', 'windowDrop', 'seatTravel', 'lidHinges', 'grille', 'length', 'width', 'largestSpacer'] as const
  fc.assert(fc.property(items, places, fc.constantFrom(...ROOMS), fc.integer({ min: 0, max: 30 }), (thing, where, room, more) => {
    const before = where[room]
    if (before === null) return
    assert(RANK[fitCheck(thing, { ...where, [room]: before + more }, null).state] >= RANK[fitCheck(thing, where, null).state])
  }), RUNS)
})

t.test('the spacer named is the smallest of all that are tried', async () => {
  fc.assert(fc.property(items, places, (thing, where) => {
    const { state, leastSpacer } = fitCheck(thing, where, null)
    const tried = Array.from({ length: where.largestSpacer + 1 }, (_, spacer) => spacer).filter((spacer) => fitCheck(thing, where, spacer).state === 'fits')
    if (state === 'open') return
    assert.equal(leastSpacer, tried[0] ?? null)
    assert.equal(state, tried[0] === undefined ? 'does not fit' : tried[0] === 0 ? 'fits' : 'fits with a spacer')
  }), RUNS)
})
