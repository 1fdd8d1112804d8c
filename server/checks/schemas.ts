import { z } from 'zod'
import { OUTCOMES } from '../calc/checks/checkState.ts'
import { idParams } from '../shared/records/schemas.ts'

const LONGEST_NOTE = 1_000
const LONGEST_SIGNATURE = 20_000
const measured = z.union([z.string().max(60, 'A measured value is at most 60 signs long.'), z.number()]).default('')

export const pointKey = z.string().regex(/^[a-z-]{1,40}(?:\.\d{1,6})?$/)
export const pointParams = idParams.extend({ point: pointKey })

const outcome = z.enum(OUTCOMES, 'Choose one: right, not right, does not apply, or let pass.')
const note = z.string().trim().max(LONGEST_NOTE, `A note is at most ${LONGEST_NOTE} characters long.`).default('')

export const resultBody = z.object({
  point: pointKey, outcome, note,
  value: measured.describe('What was measured: a text with its unit, or a whole number in mV, mA or µm'),
  power: measured.describe('Rated power of one channel, for a gain: a text, or mW'),
  load: measured.describe('Nominal load of that channel, for a gain: a text, or mΩ'),
})
/** One point by its key, or several ticked as right. */
export const resultForm = z.looseObject({
  point: pointKey.optional(), outcome: z.string().max(40).default(''), value: z.string().max(200).default(''), power: z.string().max(200).default(''), load: z.string().max(200).default(''),
  note: z.string().max(5_000).default(''), right: z.union([pointKey, z.array(pointKey).max(500)]).default([]).transform((given) => [given].flat()),
})

const signedName = z.string().trim().min(1, 'Type the name of whoever signs.').max(200, 'The name is at most 200 characters long.')
const signature = z.string().max(LONGEST_SIGNATURE, 'The drawn signature is too long. Begin it again.').regex(/^(?:[ML]\d{1,3} \d{1,3})*$/, 'The drawn signature cannot be read. Begin it again.').default('')
export const signForm = z.looseObject({ signedName, signature, _version: z.coerce.number().int().min(0) })
export const signBody = z.object({ signedName, signature })

const answer = z.object({
  outcome: z.string(), value: z.int().nullable().describe('mV, mA or µm, by what is measured'), entered: z.record(z.string(), z.string()), note: z.string(), at: z.string(), personName: z.string(),
})
export const checkAnswer = z.object({
  buildId: z.string(), signedName: z.string(), signedAt: z.string().nullable(), unsettled: z.int(),
  cautions: z.array(z.object({ signalWord: z.string(), title: z.string(), text: z.string() })),
  points: z.array(z.object({
    key: z.string(), group: z.string(), title: z.string(), how: z.string(), why: z.string(), lineId: z.string().nullable(),
    measures: z.enum(['voltage', 'current', 'length', 'gain']).nullable(),
    limit: z.object({ least: z.int().nullable(), most: z.int().nullable(), source: z.string() }).nullable(),
    isOfRecords: z.boolean(), isSettled: z.boolean(), words: z.string(), open: z.array(z.string()), answer: answer.nullable(),
  })),
})
