import type { FitData, FitLine } from '../../web/fit/fit.tsx'
import { formatQuantity } from '../calc/figures.ts'
import type { FitCheck } from '../calc/fitCheck.ts'
import { cautionsFor } from '../calc/removal/cautions.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { fitsOf, type LineFit } from '../builds/fitChecks.ts'
import { addHref } from '../builds/links.ts'
import type { StoredBuild } from '../builds/store.ts'
import { label } from '../shared/records/kind.ts'
import type { Workings } from '../shared/workings.ts'

/** The fit of all lines of a build, for its page. */
export function toFitPage(stored: StoredBuild, viewer: Viewer): FitData {
  const { head, lines } = stored
  const fits = fitsOf(stored)
  return {
    build: `${label('B', head.number)} ${head.title}`, buildHref: `/builds/${head.id}`,
    lines: fits.map((fit) => toFitLine(fit, viewer)),
    unchecked: lines.filter(({ id }) => !fits.some(({ line }) => line.id === id))
      .map(({ id, number, name }) => ({ name: `${label('E', number)} ${name}`, href: `/equipment-lines/${id}` })),
    cautions: cautionsFor(['drilling', 'airbag'], { batteryWaitS: head.vehicle.airbagWait }).map(({ signalWord, title, text }) => ({ signal: signalWord, title, text })),
    addHref: addHref(viewer.role, 'mounting place', head.id), listHref: `/mounting-places?build=${head.id}`,
  }
}

/** One line with its place, check by check. */
export function toFitLine({ line, place, answer }: LineFit, viewer: Viewer): FitLine {
  const length = (value: number): string => formatQuantity(value, 'length', viewer.units)
  const least = answer.state === 'fits with a spacer' && answer.leastSpacer !== null ? ` At least ${length(answer.leastSpacer)}.` : ''
  return {
    line: `${label('E', line.number)} ${line.name}`, href: `/equipment-lines/${line.id}`,
    place: `${label('L', place.number)} ${place.name}`, placeHref: `/mounting-places/${place.id}`,
    spacer: line.spacer === null ? 'none noted' : length(line.spacer), state: answer.state, words: `${answer.words}${least}`,
    checks: answer.checks.map((check) => ({ kind: check.kind, words: inWords(check, length), how: check.working ? keyOf(line.number, check) : undefined })),
  }
}

function inWords({ state, missing, left }: FitCheck, length: (value: number) => string): string {
  if (left === null) return `open: ${missing.join(' and ')} not recorded`
  return state === 'fits' ? `${length(left)} to spare` : `short by ${length(-left)}`
}

const keyOf = (line: number, { kind }: FitCheck): string => `e${line}-${kind.replaceAll(' ', '-')}`

/** How the room left comes about, by the keys of the page. */
export function fitWorkings(stored: Pick<StoredBuild, 'lines' | 'mountingPlaces'>): Workings {
  return new Map(fitsOf(stored).flatMap(({ line, answer }) =>
    answer.checks.flatMap((check) => (check.working ? [[keyOf(line.number, check), { ...check.working, title: `${label('E', line.number)}: ${check.working.title.toLowerCase()}` }] as const] : []))))
}
