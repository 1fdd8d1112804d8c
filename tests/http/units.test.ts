import t from 'tap'
import { openShop } from '../support/shop.ts'
import { fillDemo } from '../../seed/fill.ts'

t.test('a new person reads in the shop’s units unless they are chosen', async (t) => {
  const shop = await openShop(t)
  await shop.database.write((write) => write.shop.updateMany({ data: { units: 'inch' } }))
  const { api } = shop.as('manager')
  const open = await api.create('/api/people', { name: 'Ada Quill', signInName: 'a.quill', role: 'technician' })
  t.equal(open.units, 'inch')
  const chosen = await api.create('/api/people', { name: 'Bo Quill', signInName: 'b.quill', role: 'technician', units: 'metric' })
  t.equal(chosen.units, 'metric')
})

t.test('everybody in the demo reads in some units', async (t) => {
  const { database } = await openShop(t)
  await fillDemo(database, new Date())
  const units = await database.reads.person.findMany({ select: { units: true } })
  t.ok(units.length > 8)
  t.same(units.filter((person) => !['metric', 'inch'].includes(person.units)), [])
})
