import type { Fastener } from './factoryParts.ts'
import { sparesOf } from '../parts/pegs.ts'

/** A torque as the sheet prints it. Only ever read from the record: nothing here computes one. */
export type SheetTorque =
  | { readonly mNm: number, readonly source: string }
  | 'maker\'s manual'
  | 'none applies'
  | 'not used again'
  | 'when refitting'

export interface SheetFastener {
  readonly text: string
  readonly torque: SheetTorque
  /** Holds a belt, a seat or an airbag: what is applied to it is for the maker's manual to judge. */
  readonly isSafety?: boolean
}

const KINDS_WITHOUT_TORQUE = /\b(clip|pin|rivet|tape|hook|strap|plug|tie|tab|magnet|adhesive|quarter-turn)s?\b/i

/** @example toFastenerName(bolt) // 'M6 × 20 bolt, hexalobular no. 30' */
export function toFastenerName({ size, kind, drive }: Pick<Fastener, 'size' | 'kind' | 'drive'>): string {
  const name = size === '' ? kind : `${size} ${kind}`
  return drive === '' ? name : `${name}, ${drive}`
}

/** @example toFastenerText(bolt) // '4 × M6 × 20 bolt, hexalobular no. 30' */
export function toFastenerText(fastener: Fastener): string {
  return `${fastener.count} × ${toFastenerName(fastener)}`
}

/**
 * The torque noted for a fastener with its source, else a request to look it up where one applies.
 * What holds a belt, a seat or an airbag shows a noted torque only when its source is stated.
 */
export function toSheetTorque(fastener: Fastener): SheetTorque {
  const { torqueMnm, torqueSource, isSafety, kind } = fastener
  const isKnown = torqueMnm !== null && torqueMnm > 0
  if (isKnown && torqueSource !== '') return { mNm: torqueMnm, source: torqueSource }
  if (isSafety) return 'maker\'s manual'
  if (isKnown) return { mNm: torqueMnm, source: 'source not recorded' }
  return KINDS_WITHOUT_TORQUE.test(kind) ? 'none applies' : 'maker\'s manual'
}

/** Fasteners of built things are noted in free words. */
export function toFreeFasteners(text: string): SheetFastener[] {
  if (text === '') return []
  return [{ text, torque: /\b(bolt|screw|nut|stud)s?\b|\bM\d/i.test(text) ? 'maker\'s manual' : 'none applies' }]
}

/**
 * How many new ones to have at hand: all that are used once, and spares for the share that breaks, rounded up.
 * Common practice, no source. @example toNewCount({ ...clip, count: 9, breakThousandths: 200 }) // 2
 */
export function toNewCount({ count, isSingleUse, breakThousandths }: Pick<Fastener, 'count' | 'isSingleUse' | 'breakThousandths'>): number {
  return (isSingleUse ? count : 0) + sparesOf(count, breakThousandths)
}

/** @example toBreakText(200) // 'one in 5 breaks' */
export function toBreakText(breakThousandths: number): string {
  return 1000 % breakThousandths === 0 ? `one in ${1000 / breakThousandths} breaks` : `${breakThousandths / 10} in 100 break`
}
