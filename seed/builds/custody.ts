import type { MoveKind } from '../../server/calc/removal/custody.ts'
import { label } from '../../server/shared/records/kind.ts'
import { SIGNATURE } from '../intake/signature.ts'
import { INTAKES } from '../intake/tables.ts'
import { get } from '../world.ts'
import type { Desk } from './addBuild.ts'
import type { FactoryGroup, FactoryRow } from './tables.ts'

interface Moved {
  readonly group: FactoryGroup
  readonly row: FactoryRow
  readonly binId: string | null
  momentOn(day: number): Date
}

/** Where a factory part went when it came out, and from there to where it is now. */
export function addCustody(desk: Desk, { group, row: [key, , , , , more = {}], binId, momentOn }: Moved): void {
  const state = more.state ?? group.state
  const place = more.place ?? ''
  const bin = binInWords(desk, binId)
  const isBack = group.backDay !== undefined && ['fitted', 'altered', 'damaged'].includes(state)
  const tell = (kind: MoveKind, at: Date, by: string, own: Readonly<Record<string, unknown>>): void => addMove(desk, key, kind, at, by, own)
  if (!isBack && ['fitted', 'loosened', 'altered'].includes(state)) return
  tell('stored', momentOn(group.day), group.by, { fromWords: 'in the vehicle', binId })
  if (isBack && group.backDay !== undefined) tell('back in the vehicle', momentOn(group.backDay), group.by, { fromWords: bin })
  const name = signerOf(desk)
  if (state === 'out with the customer') {
    tell('handed to the customer', momentOn(group.day + 1), 'n.corvane', { fromWords: bin, place, toWhom: name, signedName: name, signature: name === '' ? '' : SIGNATURE })
  }
  if (state === 'disposed with consent') tell('disposed with consent', momentOn(group.day + 1), 'c.oake', { fromWords: bin, toWhom: name, note: more.condition ?? '' })
}

function addMove({ world: { rows, people }, buildId, things }: Desk, key: string, kind: MoveKind, at: Date, by: string, own: Readonly<Record<string, unknown>>): void {
  rows.plain('custodyMove', { id: rows.newId(at), createdAt: at, buildId, factoryPartId: get(things, key), kind, at, personId: get(people, by).id, ...own })
}

function binInWords({ bins, tables }: Desk, binId: string | null): string {
  const index = bins.findIndex((id) => id === binId)
  return binId === null ? 'out, no place recorded' : `bin ${label('A', index + 1)}, ${tables.bins[index] ?? ''}`
}

/** Who signs for the vehicle of this build; empty for the closed ones, of which no intake is kept. */
const signerOf = ({ tables }: Desk): string => INTAKES.find(({ build }) => build === tables.number)?.signedName ?? ''
