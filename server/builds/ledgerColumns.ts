import type { LedgerItem } from '../../web/builds/ledgerData.ts'
import type { StateName } from '../../web/shared/marks.tsx'
import { writeDay } from '../../web/shared/day.ts'
import { counted } from '../../web/shared/text.ts'
import { placeOf } from '../restoration/toInput.ts'
import { label } from '../shared/records/kind.ts'
import type { StoredBuild } from './store.ts'

type StoredLine = StoredBuild['lines'][number]

/** The states that need a second look; that a part is out or still fitted the word alone says. */
const STATE_OF_FACTORY_PART: Readonly<Record<string, StateName>> = {
  'loosened': 'running', 'altered': 'altered', 'damaged': 'rework', 'missing': 'rework',
}

/** What came out of a zone, or is to come out. */
export function cameOut({ factoryParts }: StoredBuild, zoneId: string): LedgerItem[] {
  return factoryParts.filter((part) => part.zoneId === zoneId).map((part) => ({
    number: label('F', part.number), name: part.name, href: `/factory-parts/${part.id}`,
    detail: [part.state === 'out and stored' ? 'out' : part.state, part.stays ? 'stays' : '', placeOf(part)].filter((word) => word !== '').join(', '),
    state: STATE_OF_FACTORY_PART[part.state],
  }))
}

/** What goes in. */
export function goesIn({ lines }: StoredBuild, zoneId: string): LedgerItem[] {
  return lines.filter((line) => line.zoneId === zoneId).map((line) => ({
    number: label('E', line.number), name: line.quantity > 1 ? `${line.quantity} × ${line.name}` : line.name,
    href: `/equipment-lines/${line.id}`, ...whereIsIt(line),
  }))
}

function whereIsIt({ isFitted, receivedOn, expectedOn, suppliedBy }: StoredLine): Pick<LedgerItem, 'detail' | 'state'> {
  const from = suppliedBy === 'customer' ? ', the customer’s' : ''
  if (isFitted) return { detail: `fitted${from}` }
  if (receivedOn !== null) return { detail: `here${from}` }
  if (expectedOn !== null) return { state: 'waiting', detail: `expected ${writeDay(expectedOn)}${from}` }
  return { detail: `not here yet${from}` }
}

/** The state of a made part by its operations: the one that stands farthest from idle speaks for all. */
export function stateOfPart(operations: readonly { readonly state: string }[]): { state: StateName, words: string } {
  if (operations.length === 0) return { state: 'not started', words: 'no operation yet' }
  const done = operations.filter(({ state }) => state === 'done').length
  if (done === operations.length) return { state: 'done', words: 'done' }
  const has = (state: string): boolean => operations.some((operation) => operation.state === state)
  const words = `${done} of ${counted(operations.length, 'operation', 'operations')} done`
  if (has('running')) return { state: 'running', words }
  if (has('waiting')) return { state: 'waiting', words: `waiting, ${words}` }
  return done > 0 ? { state: 'running', words } : { state: 'not started', words: 'not started' }
}

/** What a counter job is told by, in the list as on its page: the states of its operations. */
export function stateOfJob({ head, operations }: StoredBuild): StateName {
  if (head.stage === 'delivered') return 'done'
  return stateOfPart(operations.filter(({ removedAt }) => removedAt === null)).state
}
