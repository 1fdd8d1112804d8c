import t from 'tap'
import { forgetOldAnswers } from '../../server/shared/once.ts'
import { openShop } from '../support/shop.ts'

t.test('an answer is kept for a month, then the key is free again', async (t) => {
  const shop = await openShop(t)
  const { api } = shop.as('manager')
  const key = { 'idempotency-key': 'bay for the lift' }
  const first = await api.post('/api/bays', { name: 'Bay 2' }, key)
  const day = 24 * 3600_000
  t.equal(await forgetOldAnswers(shop.database, new Date(Date.now() + 29 * day)), 0)
  const repeated = await api.post('/api/bays', { name: 'Bay 2' }, key)
  t.equal(repeated.json<{ id: string }>().id, first.json<{ id: string }>().id)
  t.equal(await forgetOldAnswers(shop.database, new Date(Date.now() + 31 * day)), 1)
  const anew = await api.post('/api/bays', { name: 'Bay 2' }, key)
  t.not(anew.json<{ id: string }>().id, first.json<{ id: string }>().id)
})
