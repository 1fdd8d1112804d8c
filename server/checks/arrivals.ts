import type { CheckData } from '../../web/checks/checkData.ts'
import type { Units } from '../../web/shared/viewer.ts'
import type { Working } from '../calc/amounts.ts'
import { arrivalWorking } from '../calc/parts/arrival.ts'
import { formatQuantity } from '../calc/figures.ts'
import { Refusal } from '../calc/refusal.ts'
import type { Checked } from './checked.ts'

const USUAL_CELSIUS = '20'

interface Heard {
  readonly key: string
  readonly label: string
  readonly distanceUm: number
}

/** What the measured distances imply; null where none was measured. */
export function arrivalsOf(checked: Checked, units: Units, typed: string | undefined, action: string): CheckData['arrivals'] {
  if (heardIn(checked).length === 0) return null
  const celsius = typed ?? USUAL_CELSIUS
  try {
    const rows = [...arrivalWorkings(checked, celsius)].map(([how, { working, heard }]) => ({
      how, name: heard.label, distance: formatQuantity(heard.distanceUm, 'length', units), earlier: formatQuantity(working.result.value, 'delay', units),
    }))
    return { celsius, action, problem: '', rows }
  } catch (error) {
    if (error instanceof Refusal) return { celsius, action, problem: error.message, rows: [] }
    throw error
  }
}

/** How each arrival comes about, by the key of its point. Throws a Refusal for a temperature that no cabin has. */
export function arrivalWorkings(checked: Checked, typed: string = USUAL_CELSIUS): Map<string, { working: Working, heard: Heard }> {
  const heard = heardIn(checked)
  const [farthest] = heard.toSorted((a, b) => b.distanceUm - a.distanceUm)
  const celsius = toCelsius(typed)
  if (!farthest) return new Map()
  return new Map(heard.map((own) => [own.key, { heard: own, working: arrivalWorking(own, farthest, celsius) }]))
}

function heardIn({ points }: Checked): Heard[] {
  return points.flatMap(({ key, title, answer }) => {
    const isDistance = key.startsWith('distance.') && answer?.outcome === 'right' && answer.value !== null
    return isDistance ? [{ key, label: title.replace(/^[^:]+: /, ''), distanceUm: answer.value ?? 0 }] : []
  })
}

function toCelsius(typed: string): number {
  const plain = typed.trim().replace('−', '-')
  if (!/^-?\d{1,3}(?:\.\d{1,2})?$/.test(plain)) throw new Refusal('Write the temperature as a number of degrees Celsius, as 20 or 17.5.')
  return Number(plain)
}
