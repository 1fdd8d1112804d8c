import { toLoggedTimes } from '../calc/hours/loggedTimes.ts'
import type { OperationCosting } from '../calc/costing/costRows.ts'
import { FieldProblems, invalid } from '../shared/problems.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import type { Choice, Target, Times } from './plan.ts'
import { SCOPES, type Rows } from './scope.ts'

/** What somebody wants taken over, read and not yet checked against the records. */
export interface Wanted {
  readonly sourceId: string
  readonly what: (typeof SCOPES)[number]
  readonly partId: string | null
  readonly zoneId: string | null
  readonly intoZoneId: string | null
  readonly leftOut: ReadonlySet<string>
  readonly quantities: ReadonlyMap<string, number>
  readonly times: ReadonlyMap<string, Times>
  /** Operations whose logged hours take the place of the estimate. */
  readonly logged: ReadonlySet<string>
  readonly isLoggedForAll: boolean
}

/** Refuses what names records that are not of these builds. Throws FieldProblems. */
export function checkWanted(wanted: Wanted, source: Rows, target: Pick<Target, 'zones'>): void {
  const { what, partId, zoneId, intoZoneId } = wanted
  if (what === 'made part' && !source.fabricatedPart.some(({ id }) => id === partId)) throw invalid('part', 'Which made part? Choose one of that build.')
  if (what === 'removal order' && !source.zone.some(({ id }) => id === zoneId)) throw invalid('zone', 'Which zone’s order of removal? Choose one of that build.')
  if (intoZoneId !== null && what === 'whole scope') throw invalid('into', 'A whole scope brings its zones along. Leave the zone empty.')
  if (intoZoneId !== null && !target.zones.some(({ id }) => id === intoZoneId)) throw invalid('into', 'That zone is not one of this build. Choose one from the list.')
  const known = new Set(Object.values(source).flatMap((rows) => rows.map(({ id }) => id)))
  const strange = (field: string, ids: Iterable<string>): FieldProblem[] =>
    [...ids].filter((id) => !known.has(id)).slice(0, 1).map((id) => ({ field, message: `${id.slice(0, 40)} is no record in use of that build. Open the preview again: it may have changed.` }))
  const problems = [
    ...strange('leftOut', wanted.leftOut), ...strange('quantities', wanted.quantities.keys()), ...strange('operations', [...wanted.times.keys(), ...wanted.logged]),
  ]
  if (problems.length > 0) throw new FieldProblems(problems)
}

/** With the times that the logged hours of the earlier build come to; a time that was typed stands before those taken for all. */
export function toChoice(wanted: Wanted, source: Rows, costings: readonly OperationCosting[], piecesOf: (operationId: string) => number): Choice {
  const costing = new Map(costings.map((each) => [each.operation.id, each]))
  const times = new Map<string, Times>()
  for (const operation of source.operation) {
    const typed = wanted.times.get(operation.id)
    const takesLogged = wanted.logged.has(operation.id) || (wanted.isLoggedForAll && typed === undefined)
    const found = costing.get(operation.id)
    if (takesLogged && found) times.set(operation.id, loggedTimes(found, piecesOf(operation.id)))
    else if (typed) times.set(operation.id, typed)
  }
  const { what, partId, zoneId, intoZoneId, leftOut, quantities } = wanted
  return { what, partId, zoneId, intoZoneId, leftOut, quantities, times }
}

function loggedTimes({ operation, figures, plainS }: OperationCosting, pieces: number): Times {
  const { setUpS, runS, spread, crew } = operation
  const took = { estimatedS: plainS, workS: figures.workS, crew, pieces }
  const { setUpS: setUp, runS: run, bestS, worstS } = toLoggedTimes({ setUpS, runS, bestS: spread?.bestS ?? null, worstS: spread?.worstS ?? null }, took)
  return { setUp, run, runBest: bestS, runWorst: worstS }
}
