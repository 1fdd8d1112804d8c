import { z } from 'zod'

const minor = z.int().describe('Minor units')
const code = z.object({ taxCode: z.string(), rateThousandthsOfPercent: z.int(), netMinor: minor, taxMinor: minor })
export const totalSchema = z.object({ codes: z.array(code), netMinor: minor, taxMinor: minor, totalMinor: minor })

const quantity = z.union([
  z.object({ of: z.literal('time'), seconds: z.int() }), z.object({ of: z.literal('count'), thousandths: z.int(), unit: z.string() }),
]).nullable()
const line = z.object({ key: z.string(), group: z.string(), text: z.string(), quantity, eachMinor: minor.nullable(), amountMinor: minor.describe('Net, minor units'), taxCode: z.string(), rateThousandthsOfPercent: z.int() })
const earlier = z.array(z.object({ number: z.string(), issuedOn: z.string(), codes: z.array(code), totalMinor: minor })).describe('Earlier invoices that are taken off')

export const invoiceSchema = z.object({
  id: z.string(), number: z.string(), buildId: z.string(), kind: z.enum(['invoice', 'credit note']), basis: z.string(), issuedOn: z.string(), dueOn: z.string(), contentHash: z.string().describe('SHA-256 of all that stands on it'),
  creditsId: z.string().nullable().describe('The invoice that a credit note takes back from'), customer: z.string(), note: z.string(), lines: z.array(line), earlier, total: totalSchema,
  paidAheadMinor: minor, openMinor: minor.nullable().describe('Still to be paid by now; null of a credit note'),
}).meta({ id: 'Invoice' })

export const draftSchema = z.object({
  basis: z.string(), offered: z.array(z.object({ offer: z.string().describe('Its key when it is issued'), text: z.string(), amountMinor: minor, isChosen: z.boolean() })),
  lines: z.array(line), earlier, total: totalSchema, paidAheadMinor: minor, fingerprint: z.string(),
}).meta({ id: 'InvoiceDraft' })

export const paymentSchema = z.object({
  id: z.string(), buildId: z.string(), invoiceId: z.string().nullable(), amountMinor: minor.describe('Minor units; below zero where it was paid or taken back'), paidOn: z.string(), method: z.string(), reference: z.string(),
  takesBackId: z.string().nullable(), note: z.string(),
}).meta({ id: 'Payment' })

export const accountSchema = z.object({
  acceptedMinor: minor.nullable().describe('Accepted with tax; null while nothing is'), invoicedMinor: minor, creditedMinor: minor, paidMinor: minor, balanceMinor: minor.describe('Invoiced less credited less paid'), aheadMinor: minor.describe('Paid, and used up by no invoice yet'),
  invoices: z.array(z.object({ id: z.string(), number: z.string(), kind: z.string(), creditsId: z.string().nullable(), issuedOn: z.string(), dueOn: z.string(), totalMinor: minor, openMinor: minor.nullable() })),
  payments: z.array(paymentSchema),
}).meta({ id: 'Account' })
