import { randomUUID } from 'node:crypto'
import type { ClosureStep, RestorationData, RestorationResult, ZoneChoice } from '../../web/restoration/restoration.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { secondsAt } from '../calc/removal/loosening.ts'
import { listOutOfUse } from '../calc/restoration/outOfUse.ts'
import type { RestorationPlan } from '../calc/restoration/restoration.ts'
import { label } from '../shared/records/kind.ts'
import { namer, nameThings } from './naming.ts'
import { mayShowMoney, toRestoration, withoutMoney, type Basis, type Restoration, type RestorationAsked } from './result.ts'
import type { VehicleState } from './store.ts'
import { basisInWords, listOpenPoints } from './unsettled.ts'

/** What can be chosen to go back, and what the choice takes. Nothing chosen yet: no result. */
export function restorationData(state: VehicleState, viewer: Viewer, { parts, basis }: RestorationAsked): RestorationData {
  const { build } = state
  const page = `/builds/${build.id}`
  const isChosen = parts === 'all' || parts.length > 0
  const found = toRestoration(state, { parts, basis })
  const other: Basis = found.basis === 'planned' ? 'recorded' : 'planned'
  const hrefOf = (path: string, as: Basis): string => `${page}/${path}?${addressOf({ parts, basis: as })}`
  return {
    trail: [{ name: `${label('B', build.number)} ${build.title}`, href: page }, { name: 'Restore' }],
    number: label('B', build.number), title: build.title, action: `${page}/restoration`, address: shortAddressOf({ parts, basis }, state), zones: toZones(state, parts),
    result: isChosen && 'plan' in found ? toResult(found, state, viewer, { sheetHref: hrefOf('return-to-stock', found.basis), freeze: freezing(state, { parts, basis: found.basis }) }) : null,
    refused: isChosen && 'sentence' in found ? found.sentence : '',
    showsMoney: mayShowMoney(viewer.role, state), isAll: parts === 'all',
    basis: {
      words: basisInWords(found.basis), value: found.basis,
      other: { name: other === 'planned' ? 'Look at it as planned' : 'Look at it as recorded now', href: hrefOf('restoration', other) },
    },
  }
}

/** The choice as it stands in an address. */
export function addressOf({ parts, basis }: RestorationAsked): string {
  const address = new URLSearchParams(parts === 'all' ? { scope: 'all' } : {})
  if (parts !== 'all') for (const id of parts) address.append('part', id)
  if (basis) address.append('as', basis)
  return address.toString()
}

/** The same with numbers and ranges of them for ids: it stands behind every figure of the page. */
export function shortAddressOf({ parts, basis }: RestorationAsked, { input }: VehicleState): string {
  const numbers = parts === 'all' ? [] : input.factoryParts.filter(({ id }) => parts.includes(id)).map(({ number }) => number).toSorted((a, b) => a - b)
  const ranges = numbers.filter((number, index) => numbers[index - 1] !== number - 1)
    .map((first) => ({ first, last: first + numbers.slice(numbers.indexOf(first)).findIndex((number, index, rest) => rest[index + 1] !== number + 1) }))
  const chosen = parts === 'all' ? 'scope=all' : `f=${ranges.map(({ first, last }) => (first === last ? String(first) : `${first}-${last}`)).join(',')}`
  return basis ? `${chosen}&as=${basis}` : chosen
}

/** The ids of the factory parts that a short address names. */
export function partsNumbered(text: string, { input }: VehicleState): string[] {
  const ranges = text.split(',').map((range) => range.split('-').map(Number))
  return input.factoryParts.filter(({ number }) => ranges.some(([first = 0, last = first]) => number >= first && number <= last)).map(({ id }) => id)
}

/** One press freezes what is shown. */
function freezing(state: VehicleState, asked: RestorationAsked): RestorationResult['freeze'] {
  return { action: `/builds/${state.build.id}/restorations`, idempotencyKey: randomUUID(), values: [...new URLSearchParams(shortAddressOf(asked, state))] }
}

function toZones({ zones, input }: VehicleState, parts: RestorationAsked['parts']): ZoneChoice[] {
  return zones.map(({ id, number, name }) => ({
    number, name,
    parts: input.factoryParts.filter((part) => part.zoneId === id).map((part) => ({
      id: part.id, number: label('F', part.number), name: part.name, state: part.state, isChosen: parts !== 'all' && parts.includes(part.id),
    })),
  }))
}

function toResult(found: Restoration, state: VehicleState, viewer: Viewer, ways: Pick<RestorationResult, 'sheetHref' | 'freeze'>): RestorationResult {
  const { verdict, checklist } = found
  return {
    verdict: mayShowMoney(viewer.role, state) ? verdict : withoutMoney(verdict), checklist, ...ways,
    closure: toClosure(found, state), outOfUse: listOutOfUse(found.input, found.plan), openPoints: listOpenPoints(found, state, viewer.role),
  }
}

function toClosure({ plan, input }: Restoration, state: VehicleState): ClosureStep[] {
  const things = nameThings(state)
  const timed = new Map([...input.factoryParts, ...input.installedItems].map((thing) => [thing.id, thing.takeOutS]))
  const isChosen = (id: string): boolean => input.choice !== 'all' && input.choice.factoryPartIds.includes(id)
  return plan.takeOut.map(({ id, depth, clearsIds }) => {
    const { number = id, name = '', href = '#' } = things.get(id) ?? {}
    const behind = clearsIds.map((other) => things.get(other)?.number ?? other)
    return {
      number, name, href, depth, seconds: secondsAt(timed.get(id) ?? 0, depth), goesBack: goesBackOn(plan, id),
      why: isChosen(id) ? 'chosen' : behind.length > 0 ? `in front of ${behind.join(', ')}` : plan.staysOutIds.includes(id) ? 'installed by the shop' : 'goes back to stock',
    }
  })
}

const goesBackOn = ({ putBack }: RestorationPlan, id: string): boolean => putBack.some((step) => step.id === id && step.how !== 'fit new')

/** What goes back, in words for a sheet. */
export function scopeInWords({ parts }: RestorationAsked, state: VehicleState): string {
  if (parts === 'all') return 'the whole vehicle'
  const name = namer(nameThings(state))
  return parts.map(name).join(', ')
}
