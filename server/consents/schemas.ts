import { z } from 'zod'
import { PAPER_KINDS, paperSchema } from '../quotes/content.ts'
import { standingAt, type StoredRevision } from '../quotes/revisionStore.ts'

const minor = z.int().describe('minor units')

export const consentSchema = z.object({
  id: z.string(), revisionId: z.string(), at: z.string(), decision: z.enum(['accepted', 'declined']), typedName: z.string(), contentHash: z.string(),
  chosen: z.array(z.string()).describe('Ids of the options said yes to'), net: minor, tax: minor, way: z.string(), note: z.string(),
}).meta({ id: 'Consent' })

export const revisionSchema = z.object({
  id: z.string(), buildId: z.string(), kind: z.enum(PAPER_KINDS), number: z.string(), frozenAt: z.string(), validUntil: z.string(),
  standing: z.enum(['open', 'accepted', 'declined', 'withdrawn', 'superseded', 'expired']), withdrawnWhy: z.string(),
  contentHash: z.string().describe('SHA-256 of the content as it is stored'), content: paperSchema, consent: consentSchema.nullable(),
}).meta({ id: 'QuoteRevision' })

export const consentBody = z.object({
  decision: z.string().describe('accepted or declined'), typedName: z.string().describe('Full name of the customer'), hasRead: z.boolean().default(false).describe('The customer has read it'),
  contentHash: z.string().describe('Hash of the revision that was read'), options: z.array(z.int()).max(100).default([]).describe('Numbers of the options said yes to'), note: z.string().default(''),
})

export function revisionJson(revision: StoredRevision, today: string): z.infer<typeof revisionSchema> {
  const { id, buildId, kind, content, createdAt, validUntil, withdrawnWhy, contentHash, consent } = revision
  return {
    id, buildId, kind, number: content.number, frozenAt: createdAt.toISOString(), validUntil, standing: standingAt(revision, today), withdrawnWhy, contentHash, content,
    consent: consent && {
      id: consent.id, revisionId: id, at: consent.createdAt.toISOString(), decision: consent.decision, typedName: consent.typedName, contentHash: consent.contentHash, chosen: [...consent.chosen],
      net: consent.netMinor, tax: consent.taxMinor, way: consent.way, note: consent.note,
    },
  }
}
