import type { Working, WorkingInput } from './amounts.ts'

export const FIT_CHECKS = ['mounting depth', 'window drop', 'seat travel', 'lid hinges', 'grille clearance', 'cutout'] as const
export type FitCheckKind = typeof FIT_CHECKS[number]

/** Sizes of a piece of equipment in µm; null where nobody recorded it. */
export interface FitItem {
  /** Behind the face it is mounted on. */
  readonly mountingDepth: number | null
  /** In front of that face. */
  readonly projection: number | null
  readonly length: number | null
  readonly width: number | null
  readonly height: number | null
}

/** Room of a mounting place in µm, and which limits it has. */
export interface FitPlace {
  readonly checks: readonly FitCheckKind[]
  /** Behind the mounting face, to whatever stands there. */
  readonly depth: number | null
  /** From the mounting face to the lowered glass. */
  readonly windowDrop: number | null
  /** Free height under the seat over its whole travel. */
  readonly seatTravel: number | null
  /** Free height under the path of lid and hinges. */
  readonly lidHinges: number | null
  /** From the mounting face to the grille in front. */
  readonly grille: number | null
  readonly length: number | null
  readonly width: number | null
  readonly largestSpacer: number
  /** What has to stay free. */
  readonly clearance: number
}

export interface FitCheck {
  readonly kind: FitCheckKind
  readonly state: 'open' | 'fits' | 'does not fit'
  /** What is not recorded, in words. */
  readonly missing: readonly string[]
  /** Room left with this spacer, clearance taken off; negative where it is short; null where it is open. */
  readonly left: number | null
  readonly working: Working | null
}

export interface FitAnswer {
  readonly state: 'open' | 'fits' | 'fits with a spacer' | 'does not fit'
  /** Smallest spacer with which every check holds; null where there is none or it is open. */
  readonly leastSpacer: number | null
  readonly checks: readonly FitCheck[]
  readonly words: string
}

interface Rule {
  readonly kind: FitCheckKind
  readonly item: keyof FitItem
  readonly itemWords: string
  readonly room: 'depth' | 'windowDrop' | 'seatTravel' | 'lidHinges' | 'grille'
  readonly roomWords: string
  /** A spacer gives room behind the face, and takes it in front and above. */
  readonly spacer: 1 | -1
}

const RULES: readonly Rule[] = [
  { kind: 'mounting depth', item: 'mountingDepth', itemWords: 'mounting depth of the equipment', room: 'depth', roomWords: 'depth behind the mounting face', spacer: 1 },
  { kind: 'window drop', item: 'mountingDepth', itemWords: 'mounting depth of the equipment', room: 'windowDrop', roomWords: 'depth to the lowered glass', spacer: 1 },
  { kind: 'seat travel', item: 'height', itemWords: 'height of the equipment', room: 'seatTravel', roomWords: 'free height under the seat over its travel', spacer: -1 },
  { kind: 'lid hinges', item: 'height', itemWords: 'height of the equipment', room: 'lidHinges', roomWords: 'free height under the path of the lid', spacer: -1 },
  { kind: 'grille clearance', item: 'projection', itemWords: 'projection in front of the mounting face', room: 'grille', roomWords: 'room to the grille in front', spacer: -1 },
]

const SOURCE = 'common practice, no source'

/**
 * Whether equipment fits its mounting place, each limit by itself and all together; every length in µm.
 *
 * A spacer adds its thickness to the room behind the mounting face and takes it from the room in front of
 * it or above. With `spacer` null none is used yet, and the smallest that satisfies all is looked for, up to the
 * place's largest. What is not recorded leaves an answer open, unless something recorded already does not fit.
 * Source: common practice, no source.
 */
export function fitCheck(item: FitItem, place: FitPlace, spacer: number | null): FitAnswer {
  const rules = RULES.filter(({ kind }) => place.checks.includes(kind))
  const withSpacer = (thickness: number): FitCheck[] => [
    ...rules.map((rule) => checkRoom(rule, item, place, thickness)), ...(place.checks.includes('cutout') ? [checkCutout(item, place)] : []),
  ]
  const checks = withSpacer(spacer ?? 0)
  const least = leastSpacer(withSpacer, place)
  const isOpen = checks.length === 0 || checks.some(({ state }) => state === 'open')
  const state = stateOf(checks, least, spacer, place)
  const result = { state, checks, leastSpacer: isOpen || state === 'does not fit' && spacer === null ? null : least }
  return { ...result, words: inWords(result, spacer, place) }
}

function checkRoom({ kind, item: size, itemWords, room, roomWords, spacer: sign }: Rule, item: FitItem, place: FitPlace, thickness: number): FitCheck {
  const [taken, free] = [item[size], place[room]]
  if (taken === null || free === null) {
    return { kind, state: 'open', missing: [...(taken === null ? [itemWords] : []), ...(free === null ? [roomWords] : [])], left: null, working: null }
  }
  const left = free + sign * thickness - taken - place.clearance
  return { kind, state: left < 0 ? 'does not fit' : 'fits', missing: [], left, working: workingOf(kind, left, sign, [
    { label: roomWords, source: 'mounting place', amount: { kind: 'length', value: free } },
    { label: 'spacer', source: 'equipment line', amount: { kind: 'length', value: thickness } },
    { label: itemWords, source: 'catalog item', amount: { kind: 'length', value: taken } },
    { label: 'has to stay free', source: 'mounting place', amount: { kind: 'length', value: place.clearance } },
  ]) }
}

function workingOf(kind: FitCheckKind, left: number, sign: 1 | -1, inputs: readonly WorkingInput[]): Working {
  return {
    title: `Room left, ${kind}`, inputs, result: { kind: 'length', value: left },
    formula: sign > 0 ? 'room + spacer − equipment − what has to stay free' : 'room − spacer − equipment − what has to stay free',
    assumed: sign > 0 ? 'A spacer moves the equipment forward by its thickness.' : 'A spacer takes its thickness from the room in front or above.', source: SOURCE,
  }
}

/** An opening is passed, not stood in: nothing has to stay free beside it. It may be turned by a quarter. */
function checkCutout(item: FitItem, place: FitPlace): FitCheck {
  const sizes = { 'length of the equipment': item.length, 'width of the equipment': item.width, 'length of the opening': place.length, 'width of the opening': place.width }
  const missing = Object.entries(sizes).flatMap(([words, value]) => (value === null ? [words] : []))
  if (missing.length > 0) return { kind: 'cutout', state: 'open', missing, left: null, working: null }
  const sorted = (...values: (number | null)[]): number[] => values.map(Number).toSorted((a, b) => b - a)
  const [taken, free] = [sorted(item.length, item.width), sorted(place.length, place.width)]
  const left = Math.min((free[0] ?? 0) - (taken[0] ?? 0), (free[1] ?? 0) - (taken[1] ?? 0))
  const inputs = Object.entries(sizes).map(([label, value]): WorkingInput =>
    ({ label, source: label.endsWith('opening') ? 'mounting place' : 'catalog item', amount: { kind: 'length', value: Number(value) } }))
  return { kind: 'cutout', state: left < 0 ? 'does not fit' : 'fits', missing: [], left, working: {
    title: 'Room left, cutout', inputs, result: { kind: 'length', value: left }, formula: 'the smaller of longer side − longer side and shorter side − shorter side',
    assumed: 'It may be turned by a quarter. Nothing has to stay free beside what passes an opening.', source: SOURCE,
  } }
}

/** Room behind grows and room in front shrinks with the spacer: the largest shortage behind is the least that can do. */
function leastSpacer(withSpacer: (thickness: number) => FitCheck[], { largestSpacer }: FitPlace): number | null {
  const least = Math.max(0, ...withSpacer(0).filter(isBehind).map(({ left }) => -(left ?? 0)))
  if (least > largestSpacer) return null
  return withSpacer(least).some(({ state }) => state === 'does not fit') ? null : least
}

const isBehind = ({ kind }: FitCheck): boolean => RULES.some((rule) => rule.kind === kind && rule.spacer > 0)

function stateOf(checks: readonly FitCheck[], least: number | null, spacer: number | null, { largestSpacer }: FitPlace): FitAnswer['state'] {
  const isShort = checks.some(({ state }) => state === 'does not fit')
  if (spacer === null ? least === null : isShort || spacer > largestSpacer) return 'does not fit'
  if (checks.length === 0 || checks.some(({ state }) => state === 'open')) return 'open'
  return spacer === null && isShort ? 'fits with a spacer' : 'fits'
}

function inWords({ state, checks, leastSpacer: least }: Omit<FitAnswer, 'words'>, spacer: number | null, { largestSpacer }: FitPlace): string {
  if (checks.length === 0) return 'The place names no limit to check.'
  const short = checks.filter((check) => check.state === 'does not fit').map(({ kind }) => kind)
  if (state === 'open') return `Open: not recorded is ${[...new Set(checks.flatMap(({ missing }) => missing))].join(', ')}.`
  if (state === 'fits') return spacer === null || spacer === 0 ? 'Fits.' : 'Fits with the spacer that is used.'
  if (state === 'fits with a spacer') return `Fits with a spacer: without one it is short in ${short.join(' and ')}.`
  if (spacer !== null && spacer > largestSpacer) return 'Does not fit: the spacer is thicker than this place takes.'
  if (spacer !== null && least !== null) return `Does not fit with the spacer that is used: short in ${short.join(' and ')}.`
  return short.length === 0 ? 'Does not fit.' : `Does not fit: short in ${short.join(' and ')}${largestSpacer > 0 ? ', and no spacer this place takes makes up for it' : ''}.`
}
