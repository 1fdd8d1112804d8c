import { randomUUID } from 'node:crypto'
import type { OrderRulesData, RestingRule, RuleRow } from '../../web/restoration/orderRules.tsx'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { namer, type NamedThing } from '../restoration/naming.ts'
import type { VehicleState } from '../restoration/store.ts'
import type { Body } from '../shared/records/submission.ts'
import { BENCH } from '../shared/roles.ts'
import { inView, type OrderView } from './orderView.ts'
import type { StoredRule } from './ruleStore.ts'

/** More rules than this are shown zone by zone: of the whole vehicle few, beside so much else. */
const MOST_LISTED = { whole: 24, zone: 60, thing: 60 } as const

/** What was typed into the form of a rule, and what is wrong with it. */
export interface TypedRule {
  readonly body: Body
  readonly problems: readonly FieldProblem[]
}

interface Sources {
  readonly state: VehicleState
  readonly rules: readonly StoredRule[]
  readonly things: ReadonlyMap<string, NamedThing>
  readonly view: OrderView
  readonly address: string
}

/** The rules of what is looked at in words, and the form for another one. */
export function rulesData({ state, rules, things, view, address }: Sources, viewer: Viewer, typed: TypedRule | null): OrderRulesData {
  const mayChange = BENCH.includes(viewer.role)
  const base = `/builds/${state.build.id}/order-rules`
  const back = [...new URLSearchParams(address)]
  const isSeen = inView(view, state)
  const inForce = rules.filter((rule) => reasonToRest(rule, state) === null)
  const own = inForce.filter(({ beforeId, afterId }) => isSeen(beforeId) || isSeen(afterId))
  const name = namer(things)
  const number = (id: string): string => things.get(id)?.number ?? ''
  const inShort = ({ beforeId, afterId }: StoredRule): string => `${number(beforeId)} before ${number(afterId)}`
  const isTooMany = own.length > MOST_LISTED[view.kind]
  return {
    groups: isTooMany ? [] : GRAPHS.map(([graph, heading]) => ({
      heading,
      rules: own.filter((rule) => rule.graph === graph).map((rule): RuleRow => ({
        id: rule.id, text: ruleInWords(rule, name), inShort: inShort(rule), note: rule.note,
        turnsTo: graph === 'going back' ? '' : rule.kind === 'out' ? 'only loosened' : 'all the way out',
      })),
    })).filter((group) => group.rules.length > 0),
    tooMany: isTooMany ? own.length : 0,
    resting: rules.flatMap((rule): RestingRule[] => {
      const why = reasonToRest(rule, state, name)
      return why === null || (view.kind !== 'whole' && !isSeen(rule.beforeId) && !isSeen(rule.afterId)) ? [] : [{ text: `${capitalGraph(rule.graph)}: ${ruleInWords(rule, name)}`, why, id: rule.id, inShort: inShort(rule) }]
    }),
    presses: mayChange ? { action: `${base}/presses`, idempotencyKey: randomUUID(), values: back } : undefined,
    form: mayChange && !(isTooMany && view.kind === 'whole' && typed === null) ? formOf(state, things, base, back, typed) : undefined,
  }
}

const GRAPHS = [['as found', 'As found'], ['as built', 'As built'], ['going back', 'Going back']] as const
const capitalGraph = (graph: string): string => GRAPHS.find(([name]) => name === graph)?.[1] ?? graph

/** @example 'F-021 Grille comes out before F-022 Door panel' */
export function ruleInWords({ graph, kind, beforeId, afterId, way }: StoredRule, name: (id: string) => string): string {
  const verb = graph === 'going back' ? 'goes back before' : kind === 'loosened' ? 'is loosened before' : 'comes out before'
  return `${name(beforeId)} ${verb} ${name(afterId)}${way === '' ? '' : `, by the way: ${way}`}`
}

/** Why a rule has no effect for now, in words; null while it has. */
function reasonToRest({ graph, beforeId, afterId }: StoredRule, { input }: VehicleState, name: (id: string) => string = String): string | null {
  const known = new Set([...input.factoryParts, ...input.installedItems].map(({ id }) => id))
  const gone = [beforeId, afterId].find((id) => !known.has(id))
  if (gone !== undefined) return `${name(gone)} is taken away from the build. The rule takes effect again when it is brought back.`
  const before = input.factoryParts.find(({ id }) => id === beforeId)
  if (graph !== 'as built' || !before || (before.state !== 'disposed with consent' && before.state !== 'missing')) return null
  return `${name(beforeId)} is ${before.state === 'missing' ? 'missing' : 'disposed of with consent'} and stands in front of nothing. The rule takes effect again when it is fitted.`
}

function formOf({ zones, input }: VehicleState, things: ReadonlyMap<string, NamedThing>, action: string, back: [string, string][], typed: TypedRule | null): OrderRulesData['form'] {
  const text = (name: string): string => (typeof typed?.body[name] === 'string' ? typed.body[name] : '')
  const all = [...input.factoryParts, ...input.installedItems]
  const isBuilt = input.installedItems.some(({ isFitted }) => isFitted)
  return {
    action, back, problems: typed?.problems ?? [],
    idempotencyKey: text('_key') === '' ? randomUUID() : text('_key'),
    values: {
      graph: text('graph') || (isBuilt ? 'as built' : 'as found'), kind: text('kind') || 'out',
      beforeId: text('beforeId'), afterId: text('afterId'), way: text('way'),
    },
    things: zones.map(({ id, number, name }) => ({
      zone: `${number} ${name}`,
      things: all.filter((thing) => thing.zoneId === id).map((thing) => ({ number: things.get(thing.id)?.number ?? '', name: thing.name })),
    })).filter((group) => group.things.length > 0),
  }
}
