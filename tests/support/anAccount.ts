import { aBuild } from './aBuild.ts'
import type { Answer, Json, TestShop } from './shop.ts'

export interface Invoice extends Json {
  readonly id: string
  readonly number: string
  readonly lines: readonly { readonly key: string, readonly text: string, readonly amountMinor: number, readonly taxCode: string }[]
  readonly total: { readonly netMinor: number, readonly taxMinor: number, readonly totalMinor: number, readonly codes: readonly { readonly taxCode: string, readonly netMinor: number, readonly taxMinor: number }[] }
  readonly paidAheadMinor: number
  readonly openMinor: number | null
}

export interface Account {
  readonly acceptedMinor: number | null
  readonly invoicedMinor: number
  readonly creditedMinor: number
  readonly paidMinor: number
  readonly balanceMinor: number
  readonly aheadMinor: number
  readonly invoices: readonly { readonly id: string, readonly number: string, readonly openMinor: number | null, readonly totalMinor: number }[]
  readonly payments: readonly { readonly id: string, readonly amountMinor: number, readonly takesBackId: string | null }[]
}

/** A build with hours, an amplifier and a sheet of plywood, labor taxed at 5 %, goods at 7.25 %. */
export async function anAccount(shop: TestShop) {
  const { api } = shop.as('manager')
  const base = await aBuild(shop)
  const { build, zone, department } = base
  const labor = await api.create('/api/tax-codes', { code: 'LABOR', name: 'Labor', rate: '5 %' })
  const goods = await api.create('/api/tax-codes', { code: 'GOODS', name: 'Goods sold', rate: '7.25 %' })
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { laborTaxCodeId: labor.id, materialTaxCodeId: goods.id, paymentDays: 10 } }))
  const part = await api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Amplifier board', quantity: 1 })
  const operation = await api.create('/api/operations', { buildId: build.id, partId: part.id, departmentId: department.id, kind: 'cut', run: '10 h' })
  const amplifier = await api.create('/api/equipment-lines', { buildId: build.id, zoneId: zone.id, name: 'Amplifier', quantity: 2, cost: '90.00', price: '149.95', taxCodeId: goods.id })
  const plywood = await api.create('/api/materials', { name: 'Birch plywood 12 mm', form: 'area', packName: 'sheet', packSize: '2.98 m²', packCost: '58.00', packPrice: '92.00' })
  await api.create('/api/material-needs', { buildId: build.id, partId: part.id, materialId: plywood.id, quantity: '1 m²' })
  const url = `/api/builds/${build.id}`
  const log = (time: string, more: Json = {}): Promise<Json & { id: string }> => api.create('/api/time-entries', { operationId: operation.id, date: '2031-03-03', time, ...more })
  return {
    ...base, part, operation, amplifier, api, url, log,
    pay: (amount: unknown, more: Json = {}): Promise<Answer> => api.post(`${url}/payments`, { amount, method: 'bank transfer', ...more }),
    issue: async (more: Json = {}): Promise<Invoice> => await api.create(`${url}/invoices`, { basis: 'time and material', ...more }) as unknown as Invoice,
    credit: (invoice: Invoice, more: Json): Promise<Answer> => api.post(`/api/invoices/${invoice.id}/credit-notes`, more),
    account: async (): Promise<Account> => (await api.get(`${url}/account`)).json(),
  }
}
