import { writeDay } from '../../web/shared/day.ts'
import { label } from '../shared/records/kind.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import type { StoredDelivery } from './store.ts'

export interface KeptPart {
  readonly number: string
  readonly name: string
  readonly partNumber: string
  readonly zone: string
  readonly state: string
  readonly where: string
  readonly condition: string
}

const IN_THE_VEHICLE = ['fitted', 'loosened', 'altered']

/** Factory parts that are not in the vehicle: kept, handed over or gone, by what is recorded and by the newest move. */
export function keptParts({ build, shop: { timeZone } }: StoredDelivery): KeptPart[] {
  return build.factoryParts.filter(({ state }) => !IN_THE_VEHICLE.includes(state)).map((part) => {
    const [move] = part.moves
    const place = part.bin ? `bin ${label('A', part.bin.number)}, ${part.bin.place}` : part.place
    const moved = move ? [move.kind, move.toWhom === '' ? '' : `to ${move.toWhom}`, writeDay(calendarDateIn(timeZone, move.at)), move.signedName === '' ? '' : `signed by ${move.signedName}`] : []
    const where = [part.state === 'out and stored' ? place : '', ...moved].filter((word) => word !== '').join(', ')
    return {
      number: label('F', part.number), name: part.name, partNumber: part.partNumber, zone: `${part.zone.number} ${part.zone.name}`, state: part.state, condition: part.condition,
      where: where === '' ? (part.state === 'out and stored' ? 'not recorded' : place) : where,
    }
  })
}
