import { test } from 'tap'
import { toHtml } from '../../web/shared/page.ts'
import { placeZones } from '../../web/shared/planLayout.ts'
import { BODIES, ZONE_PLACES } from '../../web/shared/zonePlaces.ts'
import { listPages } from './pages.tsx'

const LARGEST_PAGE_BYTES = 100_000

for (const [name, page] of listPages()) {
  test(`${name}: the page keeps what a poor network and a strict content policy ask of it`, (t) => {
    const html = toHtml(page)
    t.ok(Buffer.byteLength(html) <= LARGEST_PAGE_BYTES, 'it is at most 100 kB')
    t.notMatch(html, /\sstyle=/, 'it has no inline style')
    t.notMatch(html, /<script(?![^>]*\ssrc=)|\son[a-z]+=/, 'it has no inline script')
    t.equal(html.match(/<h1[\s>]/g)?.length, 1, 'it has one h1')
    t.notMatch(html, /\[object |undefined|NaN/, 'nothing in it was left unwritten')
    const ids = [...html.matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id)
    t.strictSame(ids, [...new Set(ids)], 'no id stands twice')
    t.end()
  })
}

test('markup typed by people is shown as they typed it', (t) => {
  const form = listPages().find(([name]) => name === 'form')
  t.match(toHtml(form![1]), '&lt;script>alert(1)&lt;/script>')
  t.end()
})

test('on the plan no balloon covers another, however many zones a body has', (t) => {
  const size = { radius: 33, reach: 166, gap: 74 }
  const crowded = BODIES.flatMap((body) => Array.from({ length: 24 }, (_, index) => ({ body, count: index + 1 })))
    .filter(({ body, count }) => {
      const zones = Array.from({ length: count }, (_, index) => (
        { number: index + 1, name: '', place: ZONE_PLACES[index % ZONE_PLACES.length]!, openPoints: 1 }))
      const balloons = placeZones(zones, body, size).map(({ balloon }) => balloon)
      return balloons.some((one, index) => balloons.slice(index + 1)
        .some((other) => Math.hypot(one.x - other.x, one.y - other.y) < 2 * size.radius))
    })
  t.strictSame(crowded, [])
  t.end()
})
