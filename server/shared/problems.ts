import type { FieldProblem } from '../../web/shared/viewer.ts'

/** The page on which what stands in the way can be put right. */
export type Help = NonNullable<FieldProblem['help']>

/** A refusal with what happened and what to do, as RFC 9457 problem details and as a page. */
export class Problem extends Error {
  readonly status: number
  readonly title: string
  readonly detail: string
  readonly retryAfterS: number | undefined

  constructor(status: number, title: string, detail: string, retryAfterS?: number) {
    super(`${title}: ${detail}`)
    this.status = status
    this.title = title
    this.detail = detail
    this.retryAfterS = retryAfterS
  }
}

/** Something else has to happen first, on another page. */
export class HeldProblem extends Problem {
  readonly help: Help

  constructor(title: string, detail: string, help: Help, status = 409) {
    super(status, title, detail)
    this.help = help
  }
}

/** Fields that cannot be taken as they are. */
export class FieldProblems extends Problem {
  readonly fields: readonly FieldProblem[]

  constructor(fields: readonly FieldProblem[]) {
    super(422, 'Some entries need another look', fields.map((field) => `${field.field}: ${field.message}`).join('; '))
    this.fields = fields
  }
}

/** The record was changed by somebody else since it was read. */
export class VersionConflict extends Problem {
  readonly current: Readonly<Record<string, unknown>>

  constructor(current: Readonly<Record<string, unknown>>) {
    super(412, 'Somebody else saved this first', 'Compare both versions and decide which values stand.')
    this.current = current
  }
}

export class StorageBusy extends Problem {
  constructor() {
    super(503, 'The shop’s records are busy', 'Nothing was saved. Try again in a few seconds.', 3)
  }
}

export const invalid = (field: string, message: string, help?: Help): FieldProblems => new FieldProblems([{ field, message, ...(help ? { help } : {}) }])
export const notFound = (what: string): Problem =>
  new Problem(404, 'Not here', `There is no such ${what}, or it is not yours to see.`)
export const forbidden = (why: string): Problem => new Problem(403, 'Not for this role', why)
