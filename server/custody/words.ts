import { writeDay } from '../../web/shared/day.ts'
import { needsPlace, type MoveKind } from '../calc/removal/custody.ts'
import { label } from '../shared/records/kind.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'

export const whenInWords = (timeZone: string, at: Date): string => `${writeDay(calendarDateIn(timeZone, at))} ${clockTimeIn(timeZone, at)}`

export const binInWords = ({ number, place }: { readonly number: number, readonly place: string }): string => `bin ${label('A', number)}, ${place}`

interface Arrived {
  readonly kind: string
  readonly bin: { readonly number: number, readonly place: string } | null
  readonly place: string
  readonly toWhom: string
}

/** Where a move led. */
export function toInWords({ kind, bin, place, toWhom }: Arrived): string {
  if (needsPlace(kind as MoveKind)) return bin ? binInWords(bin) : place || 'no place recorded'
  if (kind === 'handed to the customer') return [toWhom || 'the customer', place].filter((word) => word !== '').join(': ')
  if (kind === 'disposed with consent') return toWhom === '' ? 'disposed of' : `disposed of, consent of ${toWhom}`
  return kind === 'missing' ? 'not known' : 'the vehicle'
}
