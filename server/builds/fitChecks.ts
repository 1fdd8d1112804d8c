import { FIT_CHECKS, fitCheck, type FitAnswer, type FitCheckKind, type FitItem } from '../calc/fitCheck.ts'
import type { StoredBuild } from './store.ts'

export type StoredLine = StoredBuild['lines'][number]
export type StoredPlace = StoredBuild['mountingPlaces'][number]

/** An equipment line with its mounting place and whether it fits there. */
export interface LineFit {
  readonly line: StoredLine
  readonly place: StoredPlace
  readonly answer: FitAnswer
}

const UNKNOWN: FitItem = { mountingDepth: null, projection: null, length: null, width: null, height: null }

const isCheck = (word: string): word is FitCheckKind => (FIT_CHECKS as readonly string[]).includes(word)

/** The fit of each line that has a mounting place, in the order of the lines. */
export function fitsOf({ lines, mountingPlaces }: Pick<StoredBuild, 'lines' | 'mountingPlaces'>): LineFit[] {
  const places = new Map(mountingPlaces.map((place) => [place.id, place]))
  return lines.flatMap((line) => {
    const place = places.get(line.placeId ?? '')
    return place ? [{ line, place, answer: fitCheck(line.item ?? UNKNOWN, { ...place, checks: place.checks.split(',').filter(isCheck) }, line.spacer) }] : []
  })
}
