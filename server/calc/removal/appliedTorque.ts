import type { SheetFastener } from './fastenerText.ts'

const SMALL_MNM = 10_000
const LEAST_SHARE = 60
const SHARE = 40

/**
 * How far a hand torque tool itself may be off, in thousandths: 6 % up to 10 N·m, 4 % above
 * (ISO 6789-1:2017, from memory). @example toolShare(9000) // 60
 */
export function toolShare(noted: number): number {
  return noted <= SMALL_MNM ? LEAST_SHARE : SHARE
}

export type TorqueFinding = 'as noted' | 'too little' | 'too much' | 'look it up'

/**
 * A torque as applied (mN·m) against the one noted for the fastener. Where none is noted, and for what holds a
 * belt, a seat or an airbag, there is no finding: the maker's manual judges.
 *
 * @example findTorque({ text: '4 × M6', torque: { mNm: 9000, source: 'manual' } }, 9600) // 'too much'
 */
export function findTorque({ torque, isSafety }: SheetFastener, appliedMnm: number): TorqueFinding {
  if (typeof torque === 'string' || isSafety === true) return 'look it up'
  // Whole numbers: applied and noted in mN·m, the share in thousandths.
  const off = Math.abs(appliedMnm - torque.mNm) * 1000
  if (off <= torque.mNm * toolShare(torque.mNm)) return 'as noted'
  return appliedMnm < torque.mNm ? 'too little' : 'too much'
}

/** Whether somebody who fastens this is asked what was applied. */
export function asksTorque({ torque }: SheetFastener): boolean {
  return typeof torque !== 'string' || torque === 'maker\'s manual'
}
