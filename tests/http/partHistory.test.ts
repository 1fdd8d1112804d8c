import t from 'tap'
import { aBuild } from '../support/aBuild.ts'
import { openShop } from '../support/shop.ts'

interface History {
  readonly items: readonly { readonly action: string; readonly personName: string; readonly changes: readonly { field: string; before: unknown; after: unknown }[] }[]
}

t.test('what a removal or an alteration does to a factory part stands in that part’s own history', async (t) => {
  const shop = await openShop(t)
  const { build, zone } = await aBuild(shop)
  const { api } = shop.as('technician')
  const part = await api.create('/api/factory-parts', { buildId: build.id, zoneId: zone.id, name: 'Door panel left' })
  const bin = await api.create('/api/bins', { buildId: build.id, place: 'rack C' })
  await api.create('/api/removals', { buildId: build.id, factoryPartId: part.id, kind: 'came out', binId: bin.id })
  const history = (await api.get(`/api/factory-parts/${part.id}/history`)).json<History>()
  t.match(history.items[0], { action: 'changed', personName: 'Test technician' })
  t.match(history.items[0]?.changes.find((change) => change.field === 'state'), { before: 'fitted', after: 'out and stored' })

  const other = await api.create('/api/factory-parts', { buildId: build.id, zoneId: zone.id, name: 'Load floor' })
  await api.create('/api/alterations', { buildId: build.id, zoneId: zone.id, factoryPartId: other.id, kind: 'drilled', what: 'Two holes 6 mm', reversal: 'Plug them' })
  const altered = (await api.get(`/api/factory-parts/${other.id}/history`)).json<History>()
  t.match(altered.items[0]?.changes, [{ field: 'state', before: 'fitted', after: 'altered' }])
})
