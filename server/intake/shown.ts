import type { CodeShown, IntakeShown, MarkShown } from '../../web/intake/intakeData.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { placesOf, type Body } from '../../web/shared/zonePlaces.ts'
import { readFaultCode } from '../calc/faultCodes.ts'
import { formatQuantity } from '../calc/figures.ts'
import type { PhotoOfRow } from '../shared/photos/rows.ts'
import { shownOf } from '../shared/photos/shown.ts'
import { label } from '../shared/records/kind.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { isBefore } from './rules.ts'
import type { StoredIntake } from './store.ts'

/** What is known of how the vehicle came, as page and report show it. */
export function toShown(stored: StoredIntake, photos: readonly PhotoOfRow[], viewer: Viewer): IntakeShown {
  const { build, shop } = stored
  const { intake } = build
  const body = build.vehicle.body as Body
  const signedAt = intake?.signedAt ?? null
  return {
    body, facts: factsOf(stored, viewer), walked: walkedWords(stored),
    marks: build.marks.map((mark) => toMark(mark, signedAt, photos, shop.timeZone)),
    codes: build.faultCodes.filter(({ readAt }) => readAt === 'intake').map((code) => toCode(code, signedAt)),
    signed: intake && signedAt ? { name: intake.signedName, when: momentIn(shop.timeZone, signedAt), path: intake.signature } : null,
  }
}

export const momentIn = (timeZone: string, at: Date): string => `${writeDay(calendarDateIn(timeZone, at))} ${clockTimeIn(timeZone, at)}`

function factsOf({ build: { intake, vehicle } }: StoredIntake, { units }: Viewer): IntakeShown['facts'] {
  const odometer = intake?.odometer ?? null
  const lights = intake?.warningLights ?? ''
  return [
    { label: 'Odometer', text: odometer === null ? '' : formatQuantity(odometer, 'distance', units) },
    { label: 'Fuel or charge', text: intake?.energyLevel ?? '' },
    { label: 'Warning lights lit', text: lights.replaceAll(',', ', ') },
    { label: 'Keys handed over', text: String(intake?.keys ?? '') },
    { label: 'Belongings left inside', text: intake?.leftInside ?? '' },
    { label: 'Factory options, as kept with the vehicle now', text: vehicle.factoryOptions },
    { label: 'Note', text: intake?.note ?? '' },
  ]
}

function walkedWords({ build: { intake, vehicle }, walkedBy }: StoredIntake): string {
  const places: readonly string[] = placesOf(vehicle.body as Body)
  const looked = (intake?.walkedZones ?? '').split(',').filter((place) => places.includes(place)).length
  if (looked === 0) return 'nobody has looked yet'
  const by = [walkedBy, intake?.walkedOn ? writeDay(intake.walkedOn) : ''].filter((word) => word !== '').join(', ')
  return `${looked} of ${places.length} places looked at${by === '' ? '' : `, ${by}`}`
}

type Stored = StoredIntake['build']

function toMark(mark: Stored['marks'][number], signedAt: Date | null, photos: readonly PhotoOfRow[], timeZone: string): MarkShown {
  const { id, number, x, y, place, kind, size, note, createdAt } = mark
  const named = label('D', number)
  const own = photos.filter(({ subjectKind, subjectId }) => subjectKind === 'condition mark' && subjectId === id)
  return {
    label: named, number, x, y, place, kind, size, note, href: `/condition-marks/${id}`,
    isLate: signedAt !== null && !isBefore(createdAt, signedAt), photos: own.map((photo) => shownOf(photo, `${named} ${kind}, ${place}`, timeZone)),
  }
}

function toCode({ id, code, unit, words, readOn, clearedOn, createdAt }: Stored['faultCodes'][number], signedAt: Date | null): CodeShown {
  return {
    code, says: readFaultCode(code).says, unit, words, readOn, clearedOn: clearedOn ?? '', href: `/fault-codes/${id}`,
    isLate: signedAt !== null && !isBefore(createdAt, signedAt),
  }
}
