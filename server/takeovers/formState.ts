import type { FieldProblem } from '../../web/shared/viewer.ts'
import { FieldProblems } from '../shared/problems.ts'
import { entryText, type Reader } from '../shared/records/display.ts'
import { isId, time, whole, type Field } from '../shared/records/field.ts'
import type { Body } from '../shared/records/submission.ts'
import type { Row } from '../shared/database/delegate.ts'
import type { Times } from './plan.ts'
import type { Keys } from './keys.ts'
import { SCOPES, type Rows } from './scope.ts'
import type { Wanted } from './wanted.ts'

/** What stands in the form of a preview, as typed, whether the row it belongs to is open or folded. */
export interface FormState {
  readonly sourceId: string
  readonly what: Wanted['what']
  readonly partId: string | null
  readonly zoneId: string | null
  readonly into: string
  readonly left: ReadonlySet<string>
  readonly logged: ReadonlySet<string>
  readonly isLoggedForAll: boolean
  /** By field and key, as "setUp P-510.20". */
  readonly typed: ReadonlyMap<string, string>
  /** The one whose operations stand open where there are many. */
  readonly open: string
}

export const EDITED = ['quantity', 'setUp', 'run'] as const
const FIELDS: Readonly<Record<(typeof EDITED)[number], Field>> = {
  quantity: whole('Quantity', 0, 1_000, { isRequired: true }), setUp: time('Set-up', { isRequired: true }), run: time('Run', { isRequired: true }),
}

const text = (raw: unknown): string => (typeof raw === 'string' ? raw : '')
const words = (raw: unknown): string[] => (Array.isArray(raw) ? raw.map(String) : [text(raw)]).flatMap((one) => one.split(' ')).filter((word) => word !== '')
const idOrNull = (raw: unknown): string | null => (isId(raw) ? raw : null)

/** Reads a form, or the address of a first preview. A box that was offered and is not ticked is left out. */
export function readState(body: Body): FormState {
  const ticked = new Set(words(body.take))
  return {
    sourceId: text(body.source), what: SCOPES.find((one) => one === body.what) ?? 'whole scope', partId: idOrNull(body.part), zoneId: idOrNull(body.zone), into: text(body.into),
    left: new Set([...words(body.left), ...words(body.offered).filter((key) => !ticked.has(key))]),
    logged: new Set(words(body.logged)), isLoggedForAll: body.loggedAll === 'yes', open: text(body.open),
    typed: new Map(Object.entries(body).filter(([name, value]) => EDITED.some((field) => name.startsWith(`${field} `)) && typeof value === 'string').map(([name, value]) => [name, String(value)])),
  }
}

/** How a value of the source stands in the form until somebody edits it. */
export function shownText(field: (typeof EDITED)[number], row: Row, reader: Reader): string {
  return String(entryText(field, FIELDS[field], row, reader))
}

/** What is wanted by the form. Only what was edited differs from the source. Throws FieldProblems. */
export function toWanted(state: FormState, rows: Rows, keys: Keys, reader: Reader): Wanted {
  const byId = new Map([...rows.fabricatedPart, ...rows.equipmentLine, ...rows.operation].map((row) => [row.id, row]))
  const problems: FieldProblem[] = []
  const quantities = new Map<string, number>()
  const times = new Map<string, Times>()
  for (const [name, typed] of state.typed) {
    const field = EDITED.find((one) => name.startsWith(`${one} `)) ?? 'quantity'
    const row = byId.get(keys.idOf.get(name.slice(field.length + 1)) ?? '')
    if (!row || typed === shownText(field, row, reader)) continue
    const checked = FIELDS[field].input(reader).safeParse(typed)
    if (!checked.success) problems.push({ field: name.replace(' ', '-'), message: `${name.slice(field.length + 1)}: ${checked.error.issues[0]?.message ?? 'This cannot be taken.'}` })
    else if (field === 'quantity') quantities.set(row.id, Number(checked.data.value))
    else times.set(row.id, { ...times.get(row.id), [field]: Number(checked.data.value) })
  }
  if (problems.length > 0) throw new FieldProblems(problems)
  const ids = (names: ReadonlySet<string>): Set<string> => new Set([...names].flatMap((key) => keys.idOf.get(key) ?? []))
  const { sourceId, what, partId, zoneId, into, isLoggedForAll } = state
  return { sourceId, what, partId, zoneId, intoZoneId: idOrNull(into), leftOut: ids(state.left), logged: ids(state.logged), quantities, times, isLoggedForAll }
}
