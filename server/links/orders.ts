import { z } from 'zod'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import type { Reads } from '../shared/database/database.ts'
import { listSharedPages, type SharedPage } from '../shared/links/sharedPages.ts'
import { FieldProblems } from '../shared/problems.ts'
import type { LinkOrder } from './store.ts'

export const USUAL_DAYS = 90
const LONGEST_NOTE = 200

/** What a link of this build could lead to, for those who may make it. */
export interface Offered {
  readonly page: SharedPage
  readonly id: string
  readonly name: string
}

export async function listOffered(reads: Reads, buildId: string, viewer: Viewer): Promise<Offered[]> {
  const pages = listSharedPages().filter(({ roles }) => roles.includes(viewer.role))
  const lists = await Promise.all(pages.map(async (page) => (await page.list(reads, buildId)).map((one) => ({ page, ...one }))))
  return lists.flat()
}

/** As it stands in the form: what it is, and which. */
export const valueOf = ({ page, id }: Offered): string => `${page.subjectKind}:${id}`

const given = z.object({ subject: z.string(), note: z.string(), days: z.union([z.string(), z.number()]) }).partial()
export type Given = z.infer<typeof given>
export const readGiven = (body: unknown): Given => given.catch({}).parse(body ?? {})

/** What was typed or sent, checked. Throws FieldProblems. */
export function readOrder(body: unknown, buildId: string, offered: readonly Offered[]): LinkOrder {
  const { subject = '', note = '', days = '' } = readGiven(body)
  const chosen = offered.find((one) => valueOf(one) === subject)
  const handed = readHanded({ note, days }, { usual: USUAL_DAYS, longest: chosen?.page.longestDays ?? USUAL_DAYS })
  const problems: FieldProblem[] = chosen ? handed.problems : [{ field: 'subject', message: 'Choose what the link leads to: one of what this build has to share.' }, ...handed.problems]
  if (!chosen || problems.length > 0) throw new FieldProblems(problems)
  return { buildId, subjectKind: chosen.page.subjectKind, subjectId: chosen.id, subjectName: chosen.name, note: handed.note, days: handed.days }
}

/** For whom a link is and for how long, as it was typed or sent. */
export function readHanded({ note, days }: { note: string, days: string | number }, { usual, longest }: { usual: number, longest: number }): { note: string, days: number, problems: FieldProblem[] } {
  const count = typeof days === 'number' ? days : /^\s*\d{1,5}\s*$/.test(days) ? Number(days) : days.trim() === '' ? usual : NaN
  const tidy = note.trim()
  const problems: FieldProblem[] = []
  if (tidy === '' || tidy.length > LONGEST_NOTE) problems.push({ field: 'note', message: `For whom says who gets the link, in 1 to ${LONGEST_NOTE} characters.` })
  if (!Number.isInteger(count) || count < 1 || count > longest) problems.push({ field: 'days', message: `Valid for 1 to ${longest} days; left empty it is ${usual}.` })
  return { note: tidy, days: count, problems }
}
