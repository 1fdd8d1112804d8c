import type { Working } from '../amounts.ts'
import { Refusal } from '../refusal.ts'
import { roundHalfAway } from '../rounding.ts'

const AT_ZERO = 331.3
const ZERO_K = 273.15
const COLDEST = -60
const HOTTEST = 80

/**
 * Speed of sound in dry air, m/s, at a temperature in °C from −60 to 80. Throws a Refusal beyond.
 * Source: 331.3·√(1 + T/273.15), as textbooks print it; 20 °C gives 343.2 m/s.
 *
 * @example Math.round(speedOfSound(20) * 1000) // 343215
 */
export function speedOfSound(celsius: number): number {
  if (!(celsius >= COLDEST && celsius <= HOTTEST)) throw new Refusal(`The temperature is from ${COLDEST} to ${HOTTEST} °C.`)
  return AT_ZERO * Math.sqrt(1 + celsius / ZERO_K)
}

/**
 * By how much a speaker's sound comes before that of the farthest one, µs; distances in µm. The farthest has 0.
 * Source: path difference over speed of sound; 1.5 m and 0.9 m at 20 °C give 1.74818 ms.
 *
 * @example arrivalOffset(900_000, 1_500_000, 20) // 1748
 */
export function arrivalOffset(distanceUm: number, farthestUm: number, celsius: number): number {
  return roundHalfAway((farthestUm - distanceUm) / speedOfSound(celsius))
}

interface Heard {
  readonly label: string
  readonly distanceUm: number
}

/** How the offset of one speaker comes about. */
export function arrivalWorking(own: Heard, farthest: Heard, celsius: number): Working {
  return {
    title: `Arrives earlier: ${own.label}`,
    inputs: [
      { label: `Distance of the farthest, ${farthest.label}`, source: 'measured', amount: { kind: 'length', value: farthest.distanceUm } },
      { label: `Distance of ${own.label}`, source: 'measured', amount: { kind: 'length', value: own.distanceUm } },
    ],
    result: { kind: 'delay', value: arrivalOffset(own.distanceUm, farthest.distanceUm, celsius) },
    formula: `(farthest − own) ÷ ${speedOfSound(celsius).toFixed(1)} m/s`,
    assumed: `Air of ${celsius} °C, straight paths from the speaker to the head of whoever sits there. To see whether what is set elsewhere can be right, not to set it by.`,
    source: 'Speed of sound 331.3·√(1 + T/273.15) m/s, as textbooks print it',
  }
}
