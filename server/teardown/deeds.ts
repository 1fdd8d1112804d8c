import { z } from 'zod'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { invalid, notFound } from '../shared/problems.ts'
import { getKind } from '../shared/records/kind.ts'
import { readForm, type Body } from '../shared/records/submission.ts'
import { buildOf, createRecord, findRecord, setRemoved } from '../shared/records/table.ts'
import { findOrMakeBin } from './store.ts'

export const ANSWERS = ['came out', 'loosened', 'stays', 'altered', 'broke'] as const

const LARGEST_BIN = 9999
const binNumber = z.coerce.number('A bin has a number, as 7.').int('A bin has a whole number, as 7.').min(1, 'Bins are numbered from 1.').max(LARGEST_BIN, `Bins are numbered up to ${LARGEST_BIN}.`)

/** What somebody says of a part: into which bin it went, or that it stays, is loose, was altered or broke. */
export interface PartAnswer {
  readonly factoryPartId: string
  readonly kind: string
  /** Null where it lies in none. */
  readonly bin: number | null
  readonly binPlace: string
  readonly condition: string
}

export const answerSchema = z.object({
  factoryPartId: z.uuid(), kind: z.enum(ANSWERS).default('came out'),
  bin: binNumber.nullable().default(null).describe('The number of the bin it went into; one that is not there yet is made'),
  binPlace: z.string().trim().max(200).default('').describe('Where a new bin stands'),
  condition: z.string().trim().max(200).default(''),
})

const word = (body: Body, name: string): string => (typeof body[name] === 'string' ? body[name].trim() : '')

/** The same from the form: the pressed button says the bin, or what else is true of the part. */
export function readAnswer(body: Body): PartAnswer {
  const into = word(body, 'into') || (word(body, 'kind') === '' ? '' : word(body, 'marredBin'))
  const typed = into === 'new' ? word(body, 'newBin') : into
  const bin = typed === '' && into !== 'new' ? null : binNumber.safeParse(typed)
  if (bin && !bin.success) throw invalid('newBin', bin.error.issues[0]?.message ?? 'A bin has a number.')
  const kind = word(body, 'kind') || 'came out'
  if (bin === null && kind === 'came out') throw invalid('newBin', 'Choose the bin it goes into, or say what else is true of it.')
  return { factoryPartId: word(body, 'factoryPartId'), kind, bin: bin?.data ?? null, binPlace: word(body, 'newPlace'), condition: kind === 'broke' || kind === 'altered' ? word(body, 'marredHow') : '' }
}

/** Writes what was said of a part. Throws FieldProblems where it cannot be so. */
export async function recordAnswer(write: Write, buildId: string, answer: PartAnswer, viewer: Viewer, actor: Actor): Promise<Row> {
  const removal = getKind('removal')
  const { factoryPartId, kind, condition, bin, binPlace } = answer
  const submitted = readForm(removal, viewer.role, true, { factoryPartId, kind, condition }, viewer)
  const binId = bin === null ? null : await findOrMakeBin(write, buildId, bin, binPlace, actor)
  return createRecord(write, removal, buildId, { ...submitted, values: { ...submitted.values, binId } }, actor)
}

/** Takes an answer back; the part is again as it was before. */
export async function withdrawAnswer(write: Write, buildId: string, removalId: string, actor: Actor): Promise<Row> {
  const removal = getKind('removal')
  const row = await findRecord(write, removal, removalId)
  if (!row || buildOf(row) !== buildId) throw notFound('removal')
  return setRemoved(write, removal, removalId, true, actor)
}
