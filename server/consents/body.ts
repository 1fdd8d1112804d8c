import type { FieldProblem } from '../../web/shared/viewer.ts'
import { excludesOf } from '../calc/quotes/paperOptions.ts'
import type { PaperContent } from '../quotes/content.ts'
import type { Given } from './giving.ts'

type Body = Readonly<Record<string, unknown>>

/** What a form of consent sent: the answer, and the total that was before the reader. */
export interface Sent {
  readonly given: Given
  readonly seen: number | null
}

const textIn = (body: Body, name: string): string => {
  const raw = body[name]
  return typeof raw === 'string' || typeof raw === 'number' ? String(raw).slice(0, 5000) : ''
}

/** Reads the fields of the form of consent; a no has its own name and note. */
export function readSent(body: Body, { options }: PaperContent): Sent {
  const isNo = textIn(body, 'decision') === 'declined'
  const seen = textIn(body, 'seen')
  return {
    given: {
      decision: textIn(body, 'decision'), typedName: textIn(body, isNo ? 'declineName' : 'typedName'), hasRead: textIn(body, 'hasRead') === 'true',
      contentHash: textIn(body, 'hash'), chosen: isNo ? [] : chosenIn(body, options), note: textIn(body, isNo ? 'declineNote' : 'note'),
    },
    seen: /^-?\d{1,10}$/.test(seen) ? Number(seen) : null,
  }
}

/** Numbers of the options that are ticked, and of those chosen out of several. */
function chosenIn(body: Body, options: PaperContent['options']): number[] {
  const groups = [...new Set(options.map(excludesOf))].filter((group) => group !== '')
  const raw = [body.option ?? [], ...groups.map((group) => body[`one.${group}`] ?? [])].flat().map(String)
  return [...new Set(raw.filter((one) => one !== '').map((one) => (/^\d{1,6}$/.test(one) ? Number(one) : -1)))]
}

const OF_A_NO: Readonly<Record<string, string>> = { typedName: 'declineName', note: 'declineNote' }

/** Problems beside the entries of the form that was sent. */
export const problemsIn = (fields: readonly FieldProblem[], { given }: Sent): FieldProblem[] =>
  fields.map((problem) => (given.decision === 'declined' ? { ...problem, field: OF_A_NO[problem.field] ?? problem.field } : problem))

/** What stands in the form when it is shown again. */
export function typedOf({ given: { decision, typedName, hasRead, note } }: Sent) {
  const isNo = decision === 'declined'
  return { typedName: isNo ? '' : typedName, hasRead, note: isNo ? '' : note, declineName: isNo ? typedName : '', declineNote: isNo ? note : '' }
}
