import { randomUUID } from 'node:crypto'
import type { KitData, KitUse } from '../../web/kits/kit.tsx'
import type { LineKitData, LineKitPart } from '../../web/kits/lineKit.tsx'
import type { Amount, Working } from '../calc/amounts.ts'
import type { MaterialForm } from '../calc/parts/billInput.ts'
import { kindOfForm, kitCost } from '../calc/parts/kitCost.ts'
import { writeBought } from '../../web/shared/amount.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { BENCH, MANAGERS } from '../shared/roles.ts'
import type { Workings } from '../shared/workings.ts'
import { findLineKit, loadKit, type KitNeed, type StoredKit, type StoredLineKit } from './kitStore.ts'
import { stateOfNeed } from './states.ts'

/** What a kit's page shows beside its record. */
export async function kitData(reads: Reads, id: string, viewer: Viewer): Promise<KitData & { readonly workings: Workings }> {
  const stored = await loadKit(reads, id)
  const { parts, cost, sell } = kitCost(stored.parts.map(({ material, form, quantity }) => ({
    name: material.name, form: form as MaterialForm, quantity, packName: material.packName, packQuantity: material.packSize,
    packCostMinor: material.packCost, packPriceMinor: material.packPrice,
  })))
  const isManager = MANAGERS.includes(viewer.role)
  return {
    parts: stored.parts.map(({ id: partId, material, form, quantity, note }, index) => ({
      name: `${label('M', material.number)} ${material.name}`, href: `/kit-parts/${partId}`, quantity: amountOf(form, quantity), note,
      money: isManager ? moneyOf(parts[index]) : undefined,
    })),
    totals: isManager ? { cost, sell } : undefined,
    workings: new Map(isManager ? parts.flatMap((part, index) => [[`c${index}`, part.cost], [`p${index}`, part.sell]] as const) : []),
    addHref: isManager ? `/kit-parts/new?kitId=${id}` : undefined,
    bringers: [
      ...stored.items.map(({ id: itemId, number, maker, model }) => ({ name: `${label('K', number)} ${maker} ${model}`, href: `/catalog/${itemId}` })),
      ...(BENCH.includes(viewer.role) ? stored.fittings.map(({ id: fittingId, name }) => ({ name, href: `/standard-fittings/${fittingId}` })) : []),
    ],
    uses: stored.lines.map((line) => toUse(line, viewer)),
  }
}

const moneyOf = (priced: ReturnType<typeof kitCost>['parts'][number] | undefined) =>
  (priced ? { cost: priced.cost.result, sell: priced.sell.result } : undefined)

const amountOf = (form: string, value: number): Amount => ({ kind: kindOfForm(form), value })
const written = (form: string, value: number, viewer: Viewer): string => writeBought(amountOf(form, value), viewer)

function toUse({ id, number, name, quantity, build, needs }: StoredKit['lines'][number], viewer: Viewer): KitUse {
  return {
    line: `${label('E', number)} ${name}`, href: `/equipment-lines/${id}`, quantity, build: `${label('B', build.number)} ${build.title}`,
    isDelivered: build.stage === 'delivered',
    differs: needs.map((need) => inWords(need, viewer)).filter((words) => words !== ''),
  }
}

/** What of a need is not as its kit has it, or nothing. */
function inWords(need: KitNeed, viewer: Viewer): string {
  const { kitPart: part } = need
  const state = part ? stateOfNeed(need, part) : 'as the kit'
  if (!part || state === 'as the kit') return ''
  if (state === 'left out' || state === 'no longer in the kit') return `${need.material.name}: ${state}`
  return `${need.material.name}: ${state}, ${written(need.form, need.quantity, viewer)} for ${written(part.form, part.quantity, viewer)}`
}

/** The kit of an equipment line, part by part, or null where it has none. */
export async function lineKitData(reads: Reads, lineId: string, viewer: Viewer): Promise<LineKitData & { readonly workings: Workings } | null> {
  const stored = await findLineKit(reads, lineId)
  if (!stored) return null
  const brought = new Set(stored.needs.map(({ kitPartId }) => kitPartId))
  return {
    name: stored.kit.name, href: `/kits/${stored.kit.id}`, units: stored.quantity, mayChange: BENCH.includes(viewer.role),
    workings: new Map(stored.needs.map((need, index) => [`k${index}`, inAll(need, stored.quantity)] as const)),
    parts: [
      ...stored.needs.map((need, index) => toLinePart(need, `k${index}`, stored, viewer)),
      ...stored.kit.parts.filter(({ id }) => !brought.has(id)).map(({ material, form, quantity }) => ({
        name: material.name, each: written(form, 0, viewer), all: written(form, 0, viewer), state: 'came into the kit later', kitSays: written(form, quantity, viewer),
      })),
    ],
  }
}

const eachOf = ({ removedAt, quantity }: KitNeed): number => (removedAt === null ? quantity : 0)

function inAll(need: KitNeed, units: number): Working {
  return {
    title: `${need.material.name}: in all`,
    inputs: [
      { label: 'For one unit', source: 'material need', amount: amountOf(need.form, eachOf(need)) },
      { label: 'Units', source: 'equipment line', amount: { kind: 'count', value: units } },
    ],
    result: amountOf(need.form, eachOf(need) * units), formula: 'for one unit × units', assumed: 'Net: waste comes on top in the bill of materials.', source: 'common practice, no source',
  }
}

function toLinePart(need: KitNeed, how: string, { quantity: units, kit }: StoredLineKit, viewer: Viewer): LineKitPart {
  const { kitPart: part } = need
  const isOwn = kit.parts.some(({ id }) => id === part?.id)
  const state = part ? stateOfNeed(need, isOwn ? part : { ...part, removedAt: part.removedAt ?? new Date(0) }) : 'as the kit'
  const isOut = state === 'left out'
  return {
    name: need.material.name, href: `/material-needs/${need.id}`, how, each: written(need.form, eachOf(need), viewer), all: written(need.form, eachOf(need) * units, viewer), state,
    kitSays: part && ['adjusted', 'as it was built', 'left out'].includes(state) ? written(part.form, part.quantity, viewer) : '',
    changeHref: isOut ? undefined : `/material-needs/${need.id}/form`,
    leaveOut: isOut ? undefined : postOf(need.id, 'left out'),
    takeBack: state === 'as the kit' || state === 'no longer in the kit' ? undefined : postOf(need.id, 'as the kit'),
  }
}

const postOf = (needId: string, state: string) => ({ action: `/material-needs/${needId}/kit-states`, idempotencyKey: randomUUID(), values: [['state', state]] as const })
