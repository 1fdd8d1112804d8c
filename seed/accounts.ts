import { issueInvoice } from '../server/accounts/issuing.ts'
import { pay } from '../server/accounts/paying.ts'
import { addDays } from '../server/calc/calendar.ts'
import type { Database } from '../server/shared/database/database.ts'
import { get, type World } from './world.ts'

const DEPOSIT_DAYS_AGO = 48

/** The last everyday build that was delivered is invoiced and paid in two parts; for the display truck a deposit was paid. */
export async function addAccounts(database: Database, { people, days }: Pick<World, 'people' | 'days'>): Promise<void> {
  const { reads } = database
  const closed = await reads.build.findFirstOrThrow({ where: { kind: 'everyday build', stage: 'delivered', holding: 'owned', deliveredOn: { lt: days.on(-24) } }, orderBy: [{ deliveredOn: 'desc' }, { number: 'desc' }], select: { id: true, deliveredOn: true } })
  const truck = await reads.build.findFirstOrThrow({ where: { kind: 'show build', stage: { not: 'delivered' } }, select: { id: true } })
  const { id: personId, name } = get(people, 'c.oake')
  const on = (today: string) => ({
    viewer: { personId, name, role: 'manager', units: 'metric', theme: 'system', csrfToken: '', shopName: '', currency: 'USD', today } as const,
    actor: { personId, personName: name, requestId: 'demo', now: days.at(today, '16:10') },
  })
  const payment = { direction: 'received', reference: '', note: '', confirmed: false } as const
  const issuedOn = addDays(closed.deliveredOn ?? days.on(-30), 1)
  await database.write(async (write) => {
    const issued = on(issuedOn)
    const invoiceId = await issueInvoice(write, closed.id, { basis: 'time and material', chosen: null, note: 'Thank you.', fingerprint: null }, issued.viewer, issued.actor)
    const { netMinor, taxMinor } = await write.invoice.findUniqueOrThrow({ where: { id: invoiceId }, select: { netMinor: true, taxMinor: true } })
    const first = Math.floor((netMinor + taxMinor) / 2)
    const parts = [[first, addDays(issuedOn, 1), 'card', ''], [netMinor + taxMinor - first, addDays(issuedOn, 12), 'bank transfer', 'I-0001']] as const
    for (const [amount, paidOn, method, reference] of parts) {
      const { viewer, actor } = on(paidOn)
      await pay(write, closed.id, { ...payment, amount, paidOn, method, reference, invoiceId }, viewer, actor)
    }
    const paidOn = days.on(-DEPOSIT_DAYS_AGO)
    const { viewer, actor } = on(paidOn)
    await pay(write, truck.id, { ...payment, amount: 1_200_000, paidOn, method: 'bank transfer', invoiceId: '', note: 'Deposit on signing.', confirmed: true }, viewer, actor)
  })
}
