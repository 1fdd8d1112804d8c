import type { AccountDocument, AccountPayment } from '../calc/quotes/account.ts'
import { groupBy } from '../calc/grouping.ts'
import { addExactly } from '../calc/rounding.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { notFound, Problem } from '../shared/problems.ts'
import { hashOfContent, invoiceNumber, type InvoiceContent } from './content.ts'

const INVOICE = {
  id: true, number: true, buildId: true, kind: true, basis: true, content: true, contentHash: true, issuedOn: true, dueOn: true,
  netMinor: true, taxMinor: true, creditsId: true, build: { select: { number: true, title: true } },
} as const

/** An issued invoice or credit note with its content read. */
export interface StoredInvoice extends AccountDocument {
  readonly buildId: string
  readonly buildNumber: number
  readonly buildTitle: string
  readonly kind: 'invoice' | 'credit note'
  readonly basis: string
  readonly content: InvoiceContent
  readonly contentHash: string
  readonly issuedOn: string
  readonly dueOn: string
  readonly netMinor: number
  readonly taxMinor: number
}

type Row = NonNullable<Awaited<ReturnType<typeof findRow>>>
const findRow = (client: Reads | Write, id: string) => client.invoice.findUnique({ where: { id }, select: INVOICE })

/** Throws a 404 where there is no such invoice, a 500 where its content is not what was issued. */
export async function getInvoice(client: Reads | Write, id: string): Promise<StoredInvoice> {
  const row = await findRow(client, id)
  if (!row) throw notFound('invoice')
  return toInvoice(row)
}

/** What was invoiced on builds and what credit notes took back of it, without tax; none where no invoice was issued. */
export async function sumInvoices(client: Reads | Write, buildIds: readonly string[]): Promise<Map<string, { readonly invoicedMinor: number, readonly creditedMinor: number }>> {
  const rows = await client.invoice.findMany({ where: { buildId: { in: [...buildIds] } }, select: { buildId: true, kind: true, netMinor: true } })
  const sum = (own: typeof rows, kind: string): number => addExactly(own.filter((row) => row.kind === kind).map(({ netMinor }) => netMinor))
  return new Map([...groupBy(rows, ({ buildId }) => buildId)].map(([id, own]) => [id, { invoicedMinor: sum(own, 'invoice'), creditedMinor: -sum(own, 'credit note') + 0 }]))
}

/** Invoices and credit notes of a build in the order of their numbers. */
export async function listInvoices(client: Reads | Write, buildId: string): Promise<StoredInvoice[]> {
  const rows = await client.invoice.findMany({ where: { buildId }, orderBy: { number: 'asc' }, select: INVOICE })
  return rows.map(toInvoice)
}

function toInvoice({ number, content, build, kind, ...row }: Row): StoredInvoice {
  if (hashOfContent(content) !== row.contentHash) {
    throw new Problem(500, 'This invoice is damaged', `The content of ${invoiceNumber(number)} is not what was issued. Restore a backup; go by the paper until then.`)
  }
  return {
    ...row, number: invoiceNumber(number), kind: kind === 'credit note' ? kind : 'invoice', content: JSON.parse(content) as InvoiceContent,
    totalMinor: row.netMinor + row.taxMinor, buildNumber: build.number, buildTitle: build.title,
  }
}

/** The next number of the shop, without gaps: to be used in the same write. */
export async function nextInvoiceNumber(write: Write): Promise<number> {
  const last = await write.invoice.findFirst({ orderBy: { number: 'desc' }, select: { number: true } })
  return (last?.number ?? 0) + 1
}

export async function createInvoice(write: Write, { number, buildId, content, creditsId }: { number: number, buildId: string, content: InvoiceContent, creditsId: string | null }, actor: Actor): Promise<string> {
  const text = JSON.stringify(content)
  const { id } = await write.invoice.create({
    data: {
      number, buildId, kind: content.kind, basis: content.basis, content: text, contentHash: hashOfContent(text), issuedOn: content.issuedOn, dueOn: content.dueOn,
      netMinor: content.total.netMinor, taxMinor: content.total.taxMinor, creditsId, issuedById: actor.personId ?? '', createdAt: actor.now,
    },
    select: { id: true },
  })
  await audit(write, actor, { action: `issued the ${content.kind} ${invoiceNumber(number)}`, recordKind: 'build', recordId: buildId })
  return id
}

const PAYMENT = {
  id: true, createdAt: true, buildId: true, invoiceId: true, amountMinor: true, paidOn: true, method: true, reference: true, takesBackId: true, receivedById: true, note: true,
} as const

export interface StoredPayment extends AccountPayment {
  readonly id: string
  readonly createdAt: Date
  readonly buildId: string
  readonly paidOn: string
  readonly method: string
  readonly reference: string
  readonly takesBackId: string | null
  readonly receivedById: string
  readonly note: string
}

/** Every entry of a build in the order it was written. */
export const listPayments = (client: Reads | Write, buildId: string): Promise<StoredPayment[]> =>
  client.payment.findMany({ where: { buildId }, orderBy: [{ createdAt: 'asc' }, { id: 'asc' }], select: PAYMENT })

export async function getPayment(client: Reads | Write, id: string): Promise<StoredPayment> {
  const row = await client.payment.findUnique({ where: { id }, select: PAYMENT })
  if (!row) throw notFound('payment')
  return row
}

export async function createPayment(write: Write, data: Omit<StoredPayment, 'id' | 'createdAt' | 'receivedById'>, actor: Actor, action: string): Promise<string> {
  const { id } = await write.payment.create({ data: { ...data, receivedById: actor.personId ?? '', createdAt: actor.now }, select: { id: true } })
  await audit(write, actor, { action, recordKind: 'build', recordId: data.buildId })
  return id
}

export async function namesOf(client: Reads | Write, ids: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const people = await client.person.findMany({ where: { id: { in: [...new Set(ids)] } }, select: { id: true, name: true } })
  return new Map(people.map(({ id, name }) => [id, name]))
}

/** The build with those whom its papers name. Throws a 404. */
export async function getHead(client: Reads | Write, buildId: string) {
  const build = await client.build.findFirst({
    where: { id: buildId, removedAt: null },
    select: {
      id: true, number: true, title: true, kind: true,
      vehicle: { select: { make: true, model: true, year: true, vin: true, customer: { select: { name: true, contact: true, address: true } } } },
    },
  })
  if (!build) throw notFound('build')
  return build
}
export type Head = Awaited<ReturnType<typeof getHead>>

const NO_SHOP = { name: '', address: '', phone: '', paymentDays: 14, laborTaxCodeId: null, materialTaxCodeId: null }

/** What the shop's papers begin with, and what is taxed how unless something says otherwise. */
export async function getShop(client: Reads | Write) {
  const shop = await client.shop.findFirst({ select: { name: true, address: true, phone: true, paymentDays: true, laborTaxCodeId: true, materialTaxCodeId: true } })
  return shop ?? NO_SHOP
}

export async function listTaxCodes(client: Reads | Write) {
  return client.taxCode.findMany({ select: { id: true, code: true, name: true, rate: true } })
}

/** Which tax code each equipment line names, and which the quote does for the rest. */
export async function listNamedCodes(client: Reads | Write, buildId: string) {
  const [lines, quote] = await Promise.all([
    client.equipmentLine.findMany({ where: { buildId, taxCodeId: { not: null } }, select: { id: true, taxCodeId: true } }),
    client.quote.findUnique({ where: { buildId }, select: { removedAt: true, laborTaxCodeId: true, materialTaxCodeId: true } }),
  ])
  return { ofLine: new Map(lines.map(({ id, taxCodeId }) => [id, taxCodeId])), quote: quote?.removedAt === null ? quote : null }
}
