import { issueInvoice } from '../server/accounts/issuing.ts'
import { pay } from '../server/accounts/paying.ts'
import { addDays } from '../server/calc/calendar.ts'
import { changeOrder } from '../server/changeorders/records.ts'
import { quoteLine } from '../server/quotes/records.ts'
import { createRecord } from '../server/shared/records/table.ts'
import type { Database } from '../server/shared/database/database.ts'
import { get, type World } from './world.ts'

const DEPOSIT_DAYS_AGO = 48

const ORDER_LINES = [['Second amplifier with its feed', 1_000, 61_500], ['Fitting it under the seat', 2_500, 9_600], ['Left out: lamp in the lid', 1_000, -8_900]] as const

/** For the hatchback a change order is drawn up and not frozen yet. */
export async function addChangeOrder(database: Database, { people, days, settings }: Pick<World, 'people' | 'days' | 'settings'>): Promise<void> {
  const hatchback = await database.reads.build.findFirstOrThrow({ where: { vehicle: { body: 'hatchback' }, kind: 'everyday build', stage: { not: 'delivered' } }, select: { id: true } })
  const { id: personId, name: personName } = get(people, 'c.oake')
  const actor = { personId, personName, requestId: 'demo', now: days.at(days.workday(-1), '15:20') }
  await database.write(async (write) => {
    const { id } = await createRecord(write, changeOrder, hatchback.id, { values: { title: 'A second amplifier', reason: 'Asked for when the false floor was shown.', daysLater: 2, validDays: 14 }, entered: {} }, actor)
    for (const [text, quantity, price] of ORDER_LINES) {
      const taxCodeId = text.startsWith('Fitting') ? settings.laborTaxId : settings.goodsTaxId
      await createRecord(write, quoteLine, hatchback.id, { values: { text, quantity, price, taxCodeId, optionId: null, changeOrderId: id }, entered: {} }, actor)
    }
  })
}

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
    const invoiceId = await issueInvoice(write, closed.id, { basis: 'time and material', chosen: null, note: 'Thank you.', fingerprint: null, confirmed: false }, issued.viewer, issued.actor)
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
