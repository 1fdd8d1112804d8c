import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { SEPARATORS, type Separator } from '../shared/csv/readCsv.ts'
import { answerOnce } from '../shared/once.ts'
import { FieldProblems, invalid, Problem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { problemAnswers } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { carryOut, countOf, isReady, planImport, type Asked, type Plan } from './importing.ts'
import { importBody, toUpload } from './requests.ts'

const LARGEST_BODY = 4 * 1024 * 1024

const body = z.object({
  kind: z.string().max(60).describe('What the text lists, as in the address of its records: catalog, materials, people, parts, factory-parts'),
  buildId: z.uuid().optional().describe('The build, for records of one'),
  text: z.string().describe('The CSV text, headings in the first line'),
  separator: z.enum(Object.keys(SEPARATORS) as [Separator, ...Separator[]]).optional().describe('Found out from the headings where it is left out'),
  columns: z.record(z.string(), z.string()).optional().describe('The field of a column by its place from 0; an empty text leaves it out. Other columns are known by their headings'),
  dryRun: z.boolean().default(true).describe('Only tell what each row would do; false writes all rows or none'),
  fingerprint: z.string().max(64).optional().describe('Of a dry run: refuse where anything would now be done otherwise'),
})

const answer = z.object({
  isWritten: z.boolean(),
  fingerprint: z.string().describe('Of the text, its columns and what each row would do'),
  separator: z.string(),
  counts: z.object({ create: z.int(), change: z.int(), skip: z.int(), error: z.int() }),
  columns: z.array(z.object({ heading: z.string(), field: z.string().nullable(), remark: z.string() })),
  faults: z.array(z.string()).describe('What keeps the whole text from being read'),
  rows: z.array(z.object({
    line: z.int().describe('Where the row begins in the text, counted from 1'),
    action: z.enum(['create', 'change', 'skip', 'error']),
    id: z.string().nullable(),
    changes: z.array(z.object({ field: z.string(), before: z.unknown(), after: z.unknown() })),
    problems: z.array(z.object({ field: z.string(), message: z.string() })),
  })),
})

export function registerImportApi(app: App, shell: Shell): void {
  const { database } = shell
  app.post('/api/imports', {
    config: { roles: MANAGERS }, bodyLimit: LARGEST_BODY,
    schema: { tags: ['imports'], summary: 'Read a CSV text into records: a dry run, or all rows at once', body, response: { 200: answer, ...problemAnswers } },
  }, async (request) => {
    const viewer = viewerOn(request)
    const actor = actorOf(request, shell)
    const asked = toAsked(request.body)
    if (request.body.dryRun) return toAnswer(await planImport(database.reads, asked, viewer, actor), false)
    const done = await answerOnce(database, askedOf(request), async (write) => {
      const plan = await planImport(write, asked, viewer, actor)
      refuseUnready(plan, request.body.fingerprint)
      await carryOut(write, plan, actor)
      return { status: 200, body: toAnswer(plan, true) }
    })
    return done.body as z.infer<typeof answer>
  })
}

function toAsked({ kind, buildId = '', text, separator, columns = {} }: z.infer<typeof body>): Asked {
  const chosen = Object.fromEntries(Object.entries(columns).map(([index, field]) => [`column-${index}`, field]))
  return toUpload(importBody.parse({ ...chosen, kind, build: buildId, text, separator: separator ?? '' })).asked
}

function refuseUnready(plan: Plan, fingerprint: string | undefined): void {
  if (plan.faults.length > 0) throw invalid('text', plan.faults.join(' '))
  if (!isReady(plan)) {
    throw new FieldProblems(plan.rows.flatMap(({ line, problems }) => problems.map(({ field, message }) => ({ field: `line ${line}, ${field}`, message }))))
  }
  if (fingerprint !== undefined && fingerprint !== plan.fingerprint) {
    throw new Problem(409, 'Not what was shown', 'The text, its columns or the shop’s records are not those of that dry run. Make another.')
  }
}

function toAnswer(plan: Plan, isWritten: boolean): z.infer<typeof answer> {
  const { fingerprint, separator, faults } = plan
  return {
    isWritten, fingerprint, separator, faults: [...faults],
    counts: { create: countOf(plan, 'create'), change: countOf(plan, 'change'), skip: countOf(plan, 'skip'), error: countOf(plan, 'error') },
    columns: plan.columns.map(({ heading, field, remark }) => ({ heading, field, remark })),
    rows: plan.rows.map(({ line, action, target, changes, problems }) => ({ line, action, id: target?.id ?? null, changes: [...changes], problems: [...problems] })),
  }
}
