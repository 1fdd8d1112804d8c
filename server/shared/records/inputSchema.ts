import { z } from 'zod'
import { withArticle } from '../../../web/shared/text.ts'
import type { Field } from './field.ts'
import type { RecordKind } from './kind.ts'
import { meaning } from './schemas.ts'

/**
 * What the API takes, for the description of the API: the fields themselves read what is sent, with
 * the same messages as in forms, so nothing is refused here but a missing build.
 */
export function inputSchema(kind: RecordKind, isNew: boolean): z.ZodType<Record<string, unknown>> {
  const open = Object.entries(kind.fields).filter(([, field]) => isNew || !field.isFixed)
  const needed = open.filter(([, field]) => isNew && isNeeded(field)).map(([name]) => name)
  const isOfBuild = kind.isOfBuild && isNew
  return z.looseObject({
    ...(isOfBuild ? { buildId: z.string(`Which build? Send its id: ${withArticle(kind.name)} belongs to one.`).describe('The build it belongs to') } : {}),
    ...Object.fromEntries(open.map(([name, field]) => [name, z.unknown().optional().meta({ ...shapeOf(field), description: meaning(field) })])),
  }).meta({
    additionalProperties: false,
    required: [...(isOfBuild ? ['buildId'] : []), ...needed],
  }) as unknown as z.ZodType<Record<string, unknown>>
}

/** Whether a new record cannot do without it. */
function isNeeded(field: Field): boolean {
  return !field.input({ units: 'metric', currency: 'USD' }).safeParse(field.initial).success
}

const ANY_NUMBER = { type: ['integer', 'string', 'null'] }
const ANY_TEXT = { type: ['string', 'null'] }
const ANY_LIST = { type: ['array', 'string', 'null'], items: { type: 'string' } }

function shapeOf({ entry }: Field): object {
  if (entry.as === 'quantity' || entry.as === 'money' || entry.as === 'measured' || entry.as === 'whole' || entry.as === 'clock') return ANY_NUMBER
  if (entry.as === 'check') return { type: ['boolean', 'string', 'null'] }
  if (entry.as === 'checks' || entry.as === 'references') return ANY_LIST
  return ANY_TEXT
}
