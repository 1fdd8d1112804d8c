import { formatQuantity } from '../calc/figures.ts'
import { counted } from '../../web/shared/text.ts'

/** As 1.3, of the estimate. */
export const ratioText = (thousandths: number): string => formatQuantity(thousandths, 'times', 'metric')

const FEW = 5
const SOME = 15

/** What a number of records is worth, in honest words; empty where there is nothing to add. */
export function worthOf(records: number): string {
  if (records === 0) return 'no records of its own: taken to run like the shop'
  if (records < FEW) return `${counted(records, 'record says', 'records say')} next to nothing: nearly the shop’s ratio`
  return records < SOME ? 'few records: drawn well towards the shop’s ratio' : ''
}

/** The same for a number of builds. */
export function worthOfBuilds(builds: number): string {
  if (builds === 0) return ''
  if (builds < 10) return `Of ${counted(builds, 'build', 'builds')} one more or less changes everything: take this as a first look, not as a measure.`
  return builds < 40 ? `${counted(builds, 'build', 'builds')} still leave much to chance: 2 or 3 in 20 either way mean little.` : ''
}
