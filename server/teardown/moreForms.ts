import { randomUUID } from 'node:crypto'
import type { MoreForm, MoreForms } from '../../web/teardown/teardownData.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { isInVehicle, toPartLabel, type FactoryPart } from '../calc/removal/factoryParts.ts'
import { defaultUnit } from '../calc/units.ts'
import type { VehicleState } from '../restoration/store.ts'
import { getKind } from '../shared/records/kind.ts'
import type { Body } from '../shared/records/submission.ts'

export const MORE = ['fastener', 'notes', 'part', 'edge'] as const

/** The form that was refused, with what was typed in it. */
export interface Refused {
  readonly form: typeof MORE[number]
  readonly typed: Body
  readonly problems: readonly FieldProblem[]
}

export const CHANGED_MEANWHILE = 'Somebody changed this part in the meantime.'

const ADDRESSES = { fastener: 'fasteners', notes: 'notes', part: 'parts', edge: 'edges' } as const

function choicesOf(kindName: string, field: string): readonly string[] {
  const entry = getKind(kindName).fields[field]?.entry
  return entry?.as === 'choice' ? entry.choices : []
}

interface Stored {
  readonly version: number
  readonly condition: string
}

/** The forms beside the two taps: what can follow about a part, and what nobody listed yet. */
export function toMoreForms(state: VehicleState, part: FactoryPart | null, stored: Stored, viewer: Viewer, refused?: Refused): MoreForms {
  const page = `/builds/${state.build.id}/teardown`
  const isSafety = part?.cautionTriggers.some((trigger) => trigger === 'airbag' || trigger === 'seat or belt') === true
  const form = (name: typeof MORE[number], values: MoreForm['values']): MoreForm => {
    const own = refused?.form === name ? refused : null
    const typed = Object.fromEntries(Object.entries(own?.typed ?? {}).map(([key, value]) => [key, String(value)]))
    // Once somebody has read what the others wrote, saving again means it.
    if (own?.problems.some(({ message }) => message.startsWith(CHANGED_MEANWHILE))) typed._version = String(stored.version)
    return { action: `${page}/${ADDRESSES[name]}`, key: typed._key ?? randomUUID(), values: own ? typed : values, problems: own?.problems ?? [] }
  }
  const present = state.input.factoryParts.filter(isInVehicle)
  return {
    fastener: form('fastener', { kind: 'screw', ...(isSafety ? { isSafety: 'true' } : {}) }),
    notes: form('notes', { connectors: part?.connectors ?? '', condition: stored.condition, note: part?.note ?? '', _version: String(stored.version) }),
    part: form('part', { zoneId: part?.zoneId ?? '', behind: '' }),
    edge: form('edge', { before: '', edgeKind: 'out', after: part ? String(part.number) : '' }),
    kinds: choicesOf('fastener', 'kind'), drives: choicesOf('fastener', 'drive'), torqueUnit: defaultUnit('torque', viewer.units),
    zones: state.zones.map(({ id, number, name }) => ({ value: id, label: `${number} ${name}` })),
    // Numbers, not ids: three lists of a large build would make the page heavy.
    things: present.map((one) => ({ value: String(one.number), label: toPartLabel(one) })),
  }
}
