import { createHash } from 'node:crypto'
import { z } from 'zod'
import { LARGEST_INTEGER } from '../calc/amounts.ts'
import { label } from '../shared/records/kind.ts'

export const PAPER_KINDS = ['quote', 'change order'] as const
export type PaperKind = typeof PAPER_KINDS[number]

const text = z.string()
const date = z.string().regex(/^\d{4}-\d{2}-\d{2}$/)
const minor = z.int().min(-LARGEST_INTEGER).max(LARGEST_INTEGER)
const count = z.int().min(0).max(LARGEST_INTEGER)
const thousandths = z.int().min(0).max(1000)

const taxCode = z.object({ code: text, name: text, rateThousandthsOfPercent: count })
const totals = z.object({ netMinor: minor, taxMinor: minor, totalMinor: minor, taxes: z.array(taxCode.extend({ netMinor: minor, taxMinor: minor })).readonly() })
const line = z.object({
  /** The same from revision to revision, so that two can be compared. */
  key: text, text, quantity: count.describe('thousandths'), eachMinor: minor, amountMinor: minor,
  taxCode: taxCode.nullable(), option: z.int().nullable().describe('number of its option'),
})
const option = z.object({
  id: text, number: z.int(), name: text, note: text, insteadOf: text.describe('options with the same word exclude each other'), totals,
})

/** Everything that stands on a quote or a change order, as it was when it was frozen; nothing of it is looked up again. */
export const paperSchema = z.object({
  format: z.literal(1), kind: z.enum(PAPER_KINDS), number: text, revision: z.int().min(1), replaces: text, title: text,
  shop: z.object({ name: text, address: text, phone: text }),
  customer: z.object({ name: text, address: text }),
  // Whoever holds the link reads it: no VIN, no plate.
  vehicle: text, build: z.object({ number: text, title: text }),
  currency: text, issuedOn: date, validUntil: date, createdBy: text,
  reason: text.describe('of a change order: what has changed, and why'), daysLater: z.int().nullable(),
  lines: z.array(line).max(1000).readonly(), options: z.array(option).max(100).readonly(),
  totals: totals.describe('without options'),
  supplies: z.object({ share: thousandths, mostMinor: count.nullable() }).nullable().describe('how its line was worked out'),
  deposits: z.array(z.object({ number: z.int(), share: thousandths, due: text, amountMinor: minor })).readonly(),
  measured: z.object({ estimateMinor: minor, missingMinor: minor }).optional().describe('of a change order, for the shop alone: price of the estimate, and what the forecast lacked, when it was frozen'),
  exclusions: text, assumptions: text, replacedParts: text, note: text,
})

export type PaperContent = z.infer<typeof paperSchema>
export type PaperLine = PaperContent['lines'][number]
export type PaperOption = PaperContent['options'][number]

export interface FrozenPaper {
  readonly text: string
  readonly hash: string
}

/** The content as it is stored, and the SHA-256 of that text. Throws a ZodError where it is no paper. */
export function freezePaper(content: PaperContent): FrozenPaper {
  const frozen = JSON.stringify(paperSchema.parse(content))
  return { text: frozen, hash: hashOfPaper(frozen) }
}

export const readPaper = (frozen: string): PaperContent => paperSchema.parse(JSON.parse(frozen))

export const hashOfPaper = (frozen: string): string => createHash('sha256').update(frozen).digest('hex')

/** As it is read out and compared by eye: sixteen groups of four. */
export const inGroups = (hash: string): string => hash.match(/.{1,4}/g)?.join(' ') ?? ''

/** Q-0243-2 is the second revision of the quote of B-0243, C-0243-3.1 the first of its third change order. */
export function paperNumber(kind: PaperKind, buildNumber: number, revision: number, changeOrder = 0): string {
  const build = label('B', buildNumber).slice('B-'.length)
  return kind === 'quote' ? `Q-${build}-${revision}` : `C-${build}-${changeOrder}.${revision}`
}
