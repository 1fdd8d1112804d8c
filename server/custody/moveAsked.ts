import { z } from 'zod'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { needsPlace, refuseMove, whereaboutsOf, type MoveKind } from '../calc/removal/custody.ts'
import { LONGEST_LINE, LONGEST_TEXT } from '../shared/records/reading.ts'
import { label } from '../shared/records/kind.ts'
import { FieldProblems } from '../shared/problems.ts'

/** What can be pressed; that a part came out or went back is recorded with its removal. */
export const PRESSED_KINDS = ['stored', 'handed to the customer', 'brought back', 'disposed with consent', 'missing', 'found again'] as const satisfies readonly MoveKind[]

const MOST_PARTS = 300

/** Reads "F-021, 22 23" as 21, 22 and 23; null where something in it is no number of a part. */
export function readNumbers(text: string, prefix: string): number[] | null {
  const words = text.split(/[\s,;]+/).filter((word) => word !== '')
  const numbers = words.map((word) => Number(new RegExp(`^(?:${prefix}-?)?0*(\\d{1,6})$`, 'i').exec(word)?.[1] ?? NaN))
  return numbers.some(Number.isNaN) ? null : [...new Set(numbers)]
}

const SIGNATURE = /^(?:[ML]\d{1,3} \d{1,3})*$/
const line = z.string().trim().max(LONGEST_LINE).default('')
const rest = {
  place: line, toWhom: line, signedName: line,
  signature: z.string().max(20_000, 'The drawn signature is too long. Begin it again.').regex(SIGNATURE, 'The drawn signature cannot be read. Begin it again.').default(''),
  note: z.string().trim().max(LONGEST_TEXT).default(''),
}
const kind = z.enum(PRESSED_KINDS)

/** As a form sends it: numbers as they were typed or ticked. */
export const moveForm = z.looseObject({
  kind, parts: z.union([z.string().max(4_000), z.array(z.string().max(20)).max(MOST_PARTS)]).default('').transform((given) => [given].flat().join(' ')),
  bin: z.string().trim().max(20).default(''), ...rest,
})
export type MoveBody = z.infer<typeof moveForm>

/** The same under /api. */
export const moveJson = z.object({
  kind, parts: z.array(z.int().min(1).max(999_999)).min(1).max(MOST_PARTS).describe('Numbers of factory parts of the build: 21 for F-021'),
  bin: z.int().min(1).max(999_999).nullable().optional().describe('Number of a bin of the build: 3 for A-003'), ...rest,
})

export const ofJson = ({ parts, bin, ...others }: z.infer<typeof moveJson>): MoveBody => ({ ...others, parts: parts.join(' '), bin: bin ? String(bin) : '' })

interface Part { readonly number: number, readonly name: string, readonly state: string, readonly binId: string | null, readonly place: string }
interface Bin { readonly id: string, readonly number: number }

/** What was asked for, checked against the parts as they are. Throws FieldProblems with all that is wrong. */
export function checkMove(body: MoveBody, parts: readonly Part[], bins: readonly Bin[]): { readonly binId: string | null } {
  const { kind } = body
  const binNumber = readNumbers(body.bin, 'A')
  const bin = bins.find(({ number }) => number === binNumber?.[0]) ?? null
  const problems: FieldProblem[] = [...partProblems(body, parts)]
  if (body.bin !== '' && (!bin || binNumber?.length !== 1)) problems.push({ field: 'bin', message: `There is no bin ${body.bin} in this build. Choose one of its bins.` })
  if (needsPlace(kind)) problems.push(...placeProblems(body, parts, bin))
  if (kind === 'handed to the customer' && body.signedName === '') problems.push({ field: 'signedName', message: 'Who takes it home? Type the name of whoever signs.' })
  if (kind === 'disposed with consent' && body.toWhom === '') problems.push({ field: 'toWhom', message: 'Whose consent is it? Type the name; without consent nothing is thrown away.' })
  if (problems.length > 0) throw new FieldProblems(problems)
  return { binId: needsPlace(kind) ? bin?.id ?? null : null }
}

function partProblems({ parts: typed, kind }: MoveBody, parts: readonly Part[]): FieldProblem[] {
  const numbers = readNumbers(typed, 'F')
  if (numbers === null) return [{ field: 'parts', message: 'Write the numbers of factory parts, as F-021, F-022.' }]
  if (numbers.length === 0) return [{ field: 'parts', message: 'Which parts? Write their numbers, as F-021, F-022.' }]
  const strange = numbers.filter((number) => !parts.some((part) => part.number === number))
  if (strange.length > 0) return [{ field: 'parts', message: `This build has no ${strange.map((number) => label('F', number)).join(', ')}.` }]
  const refused = parts.map((part) => ({ part, why: refuseMove(kind, whereaboutsOf(part)) })).filter(({ why }) => why !== null)
  return refused.length === 0 ? [] : [{ field: 'parts', message: refused.map(({ part, why }) => `${label('F', part.number)} ${part.name}: ${why ?? ''}`).join(' ') }]
}

function placeProblems(body: MoveBody, parts: readonly Part[], bin: Bin | null): FieldProblem[] {
  if (body.bin === '' && body.place === '') return [{ field: 'bin', message: 'Where does it lie now? Choose a bin, or write the place.' }]
  if (body.bin !== '' && body.place !== '') return [{ field: 'place', message: 'A bin or a place, not both: where a bin stands is written at the bin.' }]
  const isThere = (part: Part): boolean => body.kind === 'stored' && part.binId === (bin?.id ?? null) && (bin !== null || part.place === body.place)
  const still = parts.filter(isThere)
  return still.length === 0 || (body.bin !== '' && !bin) ? [] : [{ field: bin ? 'bin' : 'place', message: `${still.map(({ number }) => label('F', number)).join(', ')} ${still.length === 1 ? 'lies' : 'lie'} there already.` }]
}
