import { z } from 'zod'
import { invalid } from '../shared/problems.ts'
import { LONGEST_LINE } from '../shared/records/reading.ts'
import type { SeenPart } from './deeds.ts'

/** What was pressed at a bin or place: p53=here, p54=not here, all of them, or the number of what lies there too. */
export const seenForm = z.looseObject({
  bin: z.uuid().optional(), build: z.coerce.number().int().min(1).max(999_999).optional(), place: z.string().max(LONGEST_LINE).default(''),
  also: z.string().trim().max(LONGEST_LINE).default(''), all: z.enum(['here']).optional(),
})

/** What somebody saw, from what the form sent. Throws where a number cannot be read or nothing was chosen. */
export function readSeen(body: z.infer<typeof seenForm>, ownNumbers: readonly number[]): SeenPart[] {
  if (body.also !== '') return [readAlso(body.also)]
  if (body.all) return ownNumbers.map((part) => ({ part, isHere: true }))
  const chosen = Object.entries(body).flatMap(([name, value]): SeenPart[] => {
    const part = /^p(\d{1,6})$/.exec(name)?.[1]
    return part === undefined || (value !== 'here' && value !== 'not here') ? [] : [{ part: Number(part), isHere: value === 'here' }]
  })
  if (chosen.length === 0) throw invalid('also', 'Nothing was chosen. Choose here or not here, or write the number of what lies here too.')
  return chosen
}

function readAlso(text: string): SeenPart {
  const read = /^(?:.*?B-?0*(\d{1,6})\D+)?F?-?0*(\d{1,6})$/i.exec(text)
  if (!read) throw invalid('also', 'Write the number on its label, as F-053; of another vehicle with its build, as B-0058 F-021.')
  return { part: Number(read[2]), isHere: true, ...(read[1] === undefined ? {} : { build: Number(read[1]) }) }
}
