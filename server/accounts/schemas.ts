import { z } from 'zod'
import { DIRECTIONS, METHODS, type PaymentTyped } from '../../web/accounts/paymentForm.tsx'
import { LONGEST_LINE, LONGEST_TEXT } from '../shared/records/reading.ts'
import { BASES } from './content.ts'

const line = z.string().trim().max(LONGEST_LINE).default('')
const note = z.string().trim().max(LONGEST_TEXT).default('')
const offers = z.union([z.string().max(12), z.array(z.string().max(12)).max(2_000)]).default([]).transform((given) => [given].flat())
const ticked = z.enum(['true', 'yes', 'on']).optional().transform((given) => given !== undefined)

/** As the form sends it; what is wrong with an entry is told beside it. */
export const paymentForm = z.looseObject({ direction: z.enum(DIRECTIONS).catch('received').default('received'), amount: line, paidOn: line, method: line, reference: line, invoiceId: line, note, confirmed: ticked })

export const paymentJson = z.object({
  direction: z.enum(DIRECTIONS).default('received'), amount: z.union([z.int(), z.string().max(LONGEST_LINE)], 'Amount is a whole number of minor units, or a text as 1,234.50').describe('Above zero; an integer in minor units, or a text'),
  paidOn: z.string().max(LONGEST_LINE).describe('A calendar date, YYYY-MM-DD; today without it').optional(), method: z.enum(METHODS), reference: line,
  invoiceId: z.uuid().nullable().optional().describe('The invoice it is for; none: paid ahead'), note,
  confirmed: z.boolean().default(false).describe('That more than is open, or an equal entry, is meant'),
})

export const typedOf = ({ amount, paidOn, invoiceId, ...rest }: z.infer<typeof paymentJson>, today: string): PaymentTyped => ({ ...rest, amount, paidOn: paidOn ?? today, invoiceId: invoiceId ?? '' })

export const draftQuery = z.object({ basis: z.enum(BASES).catch('time and material').default('time and material'), chosen: z.enum(['yes']).optional().catch(undefined), line: offers })
export const issueForm = z.looseObject({ basis: z.enum(BASES), line: offers, fingerprint: z.string().max(64), note, confirmed: ticked })
export const issueJson = z.object({
  basis: z.enum(BASES), lines: z.array(z.string().max(12)).max(2_000).optional().describe('Keys of the lines of the draft; all but rework and the fasteners of the way back without it. Of what was accepted always all'),
  fingerprint: z.string().max(64).optional().describe('Of the draft that was looked at: refused when it has changed since'), note,
  confirmed: z.boolean().default(false).describe('That more is charged than was accepted, and that is meant'),
})

/** Amounts come under the keys of the invoice’s lines: L1, L2 … */
export const creditForm = z.looseObject({ what: z.enum(['whole', 'chosen']).catch('chosen'), note })
export const creditJson = z.object({
  what: z.enum(['whole', 'chosen']), amounts: z.record(z.string().regex(/^L\d{1,5}$/), z.union([z.int(), z.string().max(LONGEST_LINE)], 'A whole number of minor units, or a text as 1,234.50')).default({}).describe('Net amounts by the keys of the invoice’s lines'), note,
})

/** What was typed at the lines. */
export function amountsOf(body: z.infer<typeof creditForm>): Record<string, string> {
  return Object.fromEntries(Object.entries(body).filter(([name, value]) => /^L\d{1,5}$/.test(name) && typeof value === 'string').map(([name, value]) => [name, String(value).trim().slice(0, LONGEST_LINE)]))
}

export const noteForm = z.looseObject({ note })
