import t from 'tap'
import fc from 'fast-check'
import { aBuild } from '../support/aBuild.ts'
import { openShop, type Json } from '../support/shop.ts'

let minutes = 0
const shop = await openShop(t, { clock: () => new Date(Date.UTC(2031, 2, 3, 9, minutes)) })
const base = await aBuild(shop)
const { api } = shop.as('technician')
const binId = (await api.create('/api/bins', { buildId: base.build.id, place: 'rack C' })).id

type Deed = 'came out' | 'loosened' | 'stays' | 'went back' | 'altered' | 'broke' | 'undo'
type Standing = readonly [state: string, isInBin: boolean, stays: boolean]

// Written down anew, as a table a technician could read: what each deed makes of a part, and null where it cannot be said of it.
const isIn = ([state, isInBin]: Standing): boolean => ['fitted', 'loosened'].includes(state) || (['altered', 'damaged'].includes(state) && !isInBin)
function expectedAfter(before: Standing, deed: Exclude<Deed, 'undo'>): Standing | null {
  const [state, isInBin, stays] = before
  const marred = state === 'altered' || state === 'damaged'
  switch (deed) {
    case 'came out': return isIn(before) ? [marred ? state : 'out and stored', true, false] : null
    case 'loosened': return isIn(before) ? [marred ? state : 'loosened', isInBin, false] : null
    case 'stays': return isIn(before) ? [state, isInBin, true] : null
    case 'went back': return ['fitted', false, false]
    case 'altered': return [state === 'damaged' ? 'damaged' : 'altered', isInBin, isInBin ? false : stays]
    case 'broke': return ['damaged', isInBin, isInBin ? false : stays]
  }
}

const deeds = fc.array(fc.constantFrom<Deed>('came out', 'came out', 'loosened', 'stays', 'went back', 'altered', 'broke', 'undo', 'undo'), { minLength: 1, maxLength: 12 })

t.test('whatever comes out, is loosened, stays, breaks, is altered or taken back, the part stands as its standing records tell', { timeout: 120_000 }, async (t) => {
  await fc.assert(fc.asyncProperty(deeds, async (row) => {
    const part = await api.create('/api/factory-parts', { buildId: base.build.id, zoneId: base.zone.id, name: 'Trim' })
    const standing: { id: string; before: Standing }[] = []
    let now: Standing = ['fitted', false, false]
    for (const deed of row) {
      minutes += 1
      if (deed === 'undo') {
        const last = standing.pop()
        if (!last) continue
        const answer = await api.post(`/api/removals/${last.id}/removal`)
        if (answer.statusCode !== 200) throw new Error(answer.body)
        now = last.before
      } else {
        const expected = expectedAfter(now, deed)
        const answer = await api.post('/api/removals', { buildId: base.build.id, factoryPartId: part.id, kind: deed, ...(deed === 'came out' ? { binId } : {}) })
        if ((answer.statusCode === 201) !== (expected !== null)) throw new Error(`${deed} of a part that is ${now.join(', ')}: ${answer.statusCode} ${answer.body}`)
        if (expected === null) continue
        standing.push({ id: answer.json<{ id: string }>().id, before: now })
        now = expected
      }
      const { state, binId: bin, stays } = (await api.get(`/api/factory-parts/${part.id}`)).json<Json>()
      if (JSON.stringify([state, bin !== null, stays]) !== JSON.stringify(now)) throw new Error(`after ${deed}: ${String(state)}, ${String(bin)}, ${String(stays)}, not ${now.join(', ')}`)
    }
    const records = (await shop.database.reads.removal.findMany({ where: { factoryPartId: part.id, removedAt: null } })).map(({ id }) => id)
    if (JSON.stringify(records.sort()) !== JSON.stringify(standing.map(({ id }) => id).sort())) throw new Error('other records stand than were kept')
  }), { numRuns: 60, seed: 20310303 })
  t.ok(minutes > 200, `${minutes} deeds and undos`)
})

t.test('what broke stays damaged when it comes out, and says so to whoever forgets the bin', async (t) => {
  const part = await api.create('/api/factory-parts', { buildId: base.build.id, zoneId: base.zone.id, name: 'Clip carrier' })
  const say = (kind: string, more: Json = {}) => api.post('/api/removals', { buildId: base.build.id, factoryPartId: part.id, kind, ...more })
  minutes += 1
  await say('broke', { condition: 'tab torn off' })
  t.match((await say('came out')).json(), { status: 422, fields: [{ field: 'binId', message: /It is damaged.*choose a bin/ }] })
  minutes += 1
  t.equal((await say('came out', { binId })).statusCode, 201)
  t.match((await api.get(`/api/factory-parts/${part.id}`)).json(), { state: 'damaged', binId, condition: 'tab torn off' })
  const plan = (await api.get(`/api/builds/${base.build.id}/restoration?parts=${part.id}`)).json<{ partsToBuy: { name: string }[] }>()
  t.match(plan.partsToBuy[0]?.name, /Clip carrier/, 'so that the way back buys a new one')
})

t.test('an alteration that is told in a record of its own is taken away before the answer “altered” is', async (t) => {
  const part = await api.create('/api/factory-parts', { buildId: base.build.id, zoneId: base.zone.id, name: 'Rear wall' })
  minutes += 1
  const removal = await api.create('/api/removals', { buildId: base.build.id, factoryPartId: part.id, kind: 'altered' })
  const alteration = await api.create('/api/alterations', { buildId: base.build.id, zoneId: base.zone.id, factoryPartId: part.id, kind: 'drilled', what: 'Four holes', isReversible: false })
  t.match((await api.post(`/api/removals/${removal.id}/removal`)).json(), { status: 422, detail: /X-001 Four holes says how it was altered/ })
  await api.post(`/api/alterations/${alteration.id}/removal`)
  t.equal((await api.post(`/api/removals/${removal.id}/removal`)).statusCode, 200)
  t.match((await api.get(`/api/factory-parts/${part.id}`)).json(), { state: 'fitted' })
})

t.test('what stays is never next to come out, binds nothing behind it, and the planned way back leaves it alone', async (t) => {
  const { build, zone } = await aBuild(shop, 'A build of its own')
  const add = (name: string) => api.create('/api/factory-parts', { buildId: build.id, zoneId: zone.id, name, takeOut: '10 min', putBack: '10 min' })
  const [sill, pillar, roof] = [await add('Sill trim'), await add('Pillar trim'), await add('Headliner')]
  for (const [before, after] of [[sill, pillar], [pillar, roof]] as const) await api.create('/api/order-edges', { buildId: build.id, graph: 'as found', beforeId: before.id, afterId: after.id })
  const order = async () => (await api.get(`/api/builds/${build.id}/removal-order`)).json<{ readyIds: string[]; asBuilt: { steps: { name: string }[] } }>()
  t.same((await order()).readyIds, [sill.id])
  await api.create('/api/removals', { buildId: build.id, factoryPartId: sill.id, kind: 'stays' })
  t.same((await order()).readyIds, [pillar.id])
  t.same((await order()).asBuilt.steps.map(({ name }) => name), ['Pillar trim', 'Headliner'])
  t.match((await api.get(`/api/builds/${build.id}/removal-order?part=${roof.id}`)).json(), { asBuilt: { steps: [{ name: 'Sill trim' }, { name: 'Pillar trim' }, { name: 'Headliner' }] } }, 'asked for one part by itself, nothing is left out')
  const back = async () => (await api.get(`/api/builds/${build.id}/restoration?scope=all&as=planned`)).json<{ putBack: { id: string }[] }>().putBack.map(({ id }) => id)
  t.same((await back()).sort(), [pillar.id, roof.id].sort())
  await api.create('/api/removals', { buildId: build.id, factoryPartId: pillar.id, kind: 'loosened' })
  t.same((await order()).readyIds, [pillar.id], 'loose is not enough where it must be out')
})
