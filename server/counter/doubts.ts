import type { FieldProblem } from '../../web/shared/viewer.ts'
import { writeDay } from '../../web/shared/day.ts'
import { FieldProblems } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import type { TypedJob } from './forms.ts'

/** A counter job seldom has more pieces in a line; it may, once somebody says so. Our own figure, no source. */
const MANY_PIECES = 12

/** Entries that can be taken and are probably slips: asked once, entered when they are meant. */
export class Doubts extends FieldProblems {}

/** What is odd in a counter job, with what to do about it. */
export function doubtsIn({ lines, job: { promisedOn } }: TypedJob, namesakes: readonly { number: number, name: string }[], today: string): FieldProblem[] {
  const many = lines.filter(({ quantity }) => quantity > MANY_PIECES)
  const known = namesakes.map(({ number, name }) => `${label('C', number)} ${name}`).join(', ')
  return [
    ...(known === '' ? [] : [{ field: 'customerName', message: `On record already: ${known}. Choose that customer above, or say below that this is another one.` }]),
    ...many.map(({ at, quantity }) => ({ field: `quantity${at}`, message: `${quantity} pieces in one counter job? Correct it, or say below that it is meant.` })),
    ...(promisedOn !== null && promisedOn < today ? [{ field: 'promisedOn', message: `${writeDay(promisedOn)} is past. Correct it, or say below that it is meant.` }] : []),
  ]
}
