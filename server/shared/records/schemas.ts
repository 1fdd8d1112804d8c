import { z } from 'zod'
import type { Role } from '../../../web/shared/viewer.ts'
import type { Row } from '../database/delegate.ts'
import type { Field } from './field.ts'
import type { RecordKind } from './kind.ts'
import { enteredOf } from './table.ts'

// The shop's own settings are the one record whose id is a word.
export const idParams = z.object({ id: z.union([z.uuid(), z.literal('shop')]) })

const helpSchema = z.object({ href: z.string(), name: z.string() }).describe('The page on which it can be put right')

/** Problem details, RFC 9457. */
export const problemSchema = z.object({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  detail: z.string(),
  requestId: z.string().optional(),
  fields: z.array(z.object({ field: z.string(), message: z.string(), help: helpSchema.optional() })).optional(),
  help: helpSchema.optional(),
  yours: z.unknown().optional(),
  theirs: z.unknown().optional(),
}).meta({ id: 'Problem' })

export const problemAnswers = { '4xx': problemSchema, '5xx': problemSchema } as const

export const historySchema = z.object({
  items: z.array(z.object({
    at: z.string(),
    personName: z.string(),
    action: z.string(),
    changes: z.array(z.object({ field: z.string(), before: z.unknown(), after: z.unknown() })),
  })),
})

/** A record as the API answers it; fields that a role may not see are left out. */
export function recordSchema(kind: RecordKind): z.ZodType<Record<string, unknown>> {
  const fields = Object.entries(kind.fields).map(([name, field]) => [name, field.output.optional().describe(meaning(field))] as const)
  return z.object({
    id: z.string(),
    version: z.int(),
    ...(kind.isOfBuild ? { buildId: z.string() } : {}),
    ...(kind.number ? { number: z.int() } : {}),
    removedAt: z.string().nullable(),
    entered: z.record(z.string(), z.string()).describe('What was typed, where a unit was involved'),
    ...Object.fromEntries(fields),
  }).meta({ id: `${pascal(kind.name)}` }) as unknown as z.ZodType<Record<string, unknown>>
}

const CANONICAL: Readonly<Record<string, string>> = {
  length: 'µm', area: 'mm²', volume: 'mL', mass: 'g', time: 's', torque: 'mN·m', current: 'mA', voltage: 'mV',
  resistance: 'mΩ', distance: 'm', count: 'pieces', times: 'thousandths', share: 'thousandths', power: 'mW',
}

/** What a value of a field is, in words. */
export function meaning(field: Field): string {
  const { entry } = field
  if (entry.as === 'quantity') return `${field.label}; an integer in ${CANONICAL[entry.measures] ?? entry.measures}, or a text with its unit`
  if (entry.as === 'money') return `${field.label}; an integer in minor units, or a text`
  if (entry.as === 'choice') return `${field.label}; one of: ${entry.choices.join(', ')}`
  if (entry.as === 'checks') return `${field.label}; any of: ${entry.choices.join(', ')}`
  if (entry.as === 'clock') return `${field.label}; a time of day, 17:30, or seconds after midnight`
  if (entry.as === 'date') return `${field.label}; a calendar date, YYYY-MM-DD`
  if (entry.as === 'reference') return `${field.label}; the id of a ${entry.kind}`
  return field.label
}

/** A row as this role may see it. */
export function toJson(kind: RecordKind, row: Row, role: Role): Record<string, unknown> {
  const seen = Object.entries(kind.fields).filter(([, field]) => field.seenBy.includes(role)).map(([name]) => name)
  const entered = Object.entries(enteredOf(row)).filter(([name]) => seen.includes(name))
  return {
    id: row.id,
    version: row.version,
    ...(kind.isOfBuild ? { buildId: row.buildId } : {}),
    ...(kind.number ? { number: row.number } : {}),
    removedAt: row.removedAt?.toISOString() ?? null,
    entered: Object.fromEntries(entered),
    ...Object.fromEntries(seen.map((name) => [name, row[name]])),
  }
}

const pascal = (name: string): string => name.replaceAll(/[^a-z0-9 ]/gi, '').split(' ').map((word) => word.charAt(0).toUpperCase() + word.slice(1)).join('')
