import t from 'tap'
import { aDoor } from '../support/aDoor.ts'
import { openShop, type Json } from '../support/shop.ts'

let minutes = 0
const shop = await openShop(t, { clock: () => new Date(Date.UTC(2031, 2, 3, 9, minutes)) })
const door = await aDoor(shop)
const { api } = shop.as('technician')
const stateOf = async (): Promise<unknown[]> => {
  const { state, binId, condition } = (await api.get(`/api/factory-parts/${door.panel.id}`)).json<Json>()
  return [state, binId, condition]
}
const happens = (kind: string, more: Json = {}) => {
  minutes += 1
  return api.create('/api/removals', { buildId: door.build.id, factoryPartId: door.panel.id, kind, ...more })
}
const remove = async (id: string): Promise<[number, string]> => {
  minutes += 1
  const answer = await api.post(`/api/removals/${id}/removal`)
  return [answer.statusCode, answer.body]
}

t.test('a removal entered by mistake is removed, and the part is where it was, state, bin and condition', async (t) => {
  const out = await happens('came out', { binId: door.bin.id, condition: 'scratched' })
  t.same(await stateOf(), ['out and stored', door.bin.id, 'scratched'])
  t.equal((await remove(out.id))[0], 200)
  t.same(await stateOf(), ['fitted', null, ''])
  minutes += 1
  t.equal((await api.post(`/api/removals/${out.id}/recovery`)).statusCode, 200)
  t.same((await stateOf()).slice(0, 2), ['out and stored', door.bin.id], 'and taken back it is out again')
  t.equal((await remove(out.id))[0], 200)
})

t.test('only the newest is removed; what went back goes out into its bin again', async (t) => {
  const out = await happens('came out', { binId: door.bin.id })
  const back = await happens('went back')
  const [status, words] = await remove(out.id)
  t.equal(status, 422)
  t.match(words, /it went back\. Remove that one first/)
  t.same((await stateOf()).slice(0, 2), ['fitted', null], 'refused, nothing moves')
  t.equal((await remove(back.id))[0], 200)
  t.same((await stateOf()).slice(0, 2), ['out and stored', door.bin.id])
})

t.test('a part that was marked damaged since is left alone, with what to do', async (t) => {
  const [newest] = (await api.get(`/api/removals?build=${door.build.id}`)).json<{ items: { id: string }[] }>().items
  const part = (await api.get(`/api/factory-parts/${door.panel.id}`)).json<{ version: number }>()
  t.equal((await api.patch(`/api/factory-parts/${door.panel.id}`, { state: 'damaged' }, { 'if-match': String(part.version) })).statusCode, 200)
  const [status, words] = await remove(newest!.id)
  t.equal(status, 422)
  t.match(words, /is damaged now/)
  t.equal((await stateOf())[0], 'damaged')
})
