import type { CheckBuild } from '../calc/checks/checkBuild.ts'
import { isTrigger, triggersOfAlteration, triggersOfVehicle, triggersOfZone, type Trigger } from '../calc/removal/cautions.ts'
import { newCodes } from '../calc/checks/checkState.ts'
import { label } from '../shared/records/kind.ts'
import type { StoredCheck } from './store.ts'

type Stored = StoredCheck['build']

/** The build as the list of points is drawn from it. */
export function toCheckBuild(build: Stored): CheckBuild {
  const touched = build.factoryParts.filter(({ state, _count }) => state !== 'fitted' || _count.removals > 0)
  return {
    kind: build.kind, energy: build.vehicle.energy, triggers: triggersOf(build),
    lines: build.lines.map(({ id, number, name, quantity, item }) => ({
      id, number, label: label('E', number), name, quantity, itemKind: item?.kind ?? '', currentMa: item?.current ?? null, channels: item?.channels ?? null,
    })),
    opened: touched.flatMap(({ name, zone }) => [zone.place, name]),
    hasHolesInBody: build.alterations.some(({ kind, factoryPartId, reversedOn }) => factoryPartId === null && reversedOn === null && ['cut', 'drilled'].includes(kind)),
    has: {
      operations: build._count.operations > 0, finishes: build.finishes.length > 0, alterations: build.alterations.length > 0,
      factoryParts: build.factoryParts.some(({ state }) => state === 'out and stored'),
    },
  }
}

/** What can hurt somebody at this build. */
export function triggersOf({ vehicle, zones, lines, parts, factoryParts, alterations }: Stored): Set<Trigger> {
  const noted = [...lines, ...parts, ...factoryParts].flatMap(({ cautions }) => cautions.split(',')).filter(isTrigger)
  return new Set([
    ...noted, ...triggersOfVehicle(vehicle.energy), ...zones.flatMap(({ place }) => triggersOfZone(place)), ...alterations.flatMap(({ kind }) => triggersOfAlteration(kind)),
  ])
}

/** What the records leave open, by the key of the point. */
export function openOf(build: Stored): Readonly<Record<string, readonly string[]>> {
  const ownerOf = ownerNames(build)
  return {
    'equipment': build.lines.filter(({ isFitted }) => !isFitted).map(({ number, name }) => `${label('E', number)} ${name} is not fitted`),
    'operations': build.operations.map(({ number, kind, work, state, partId, lineId, factoryPartId }) =>
      [ownerOf(partId ?? lineId ?? factoryPartId ?? ''), `${number} ${kind}${work === '' ? '' : ` (${work})`}: ${state}`].filter((word) => word !== '').join(' ')),
    'finishes': build.finishes.filter(({ sampleState }) => sampleState !== 'approved').map(({ number, kind, sampleState }) => `${label('S', number)} ${kind}: ${sampleState}`),
    'alterations': build.alterations.filter(({ consentBy, reversedOn }) => consentBy === '' && reversedOn === null).map(({ number, what }) => `${label('X', number)} ${what}: nobody’s consent is recorded`),
    'factory-parts': build.factoryParts.filter(({ state, binId, place }) => state === 'out and stored' && binId === null && place === '').map(({ number, name }) => `${label('F', number)} ${name}: where it lies is not recorded`),
    'open-points': build.points.map(({ number, text, zone }) => `${zone.number}.${number} ${text}`),
    'fault-codes': newCodes(build.faultCodes).map((code) => `${code} is new since intake and not cleared`),
  }
}

function ownerNames({ parts, lines, factoryParts }: Stored): (id: string) => string {
  const named = (prefix: string, rows: readonly { id: string, number: number }[]): [string, string][] => rows.map(({ id, number }) => [id, label(prefix, number)])
  const names = new Map([...named('P', parts), ...named('E', lines), ...named('F', factoryParts)])
  return (id) => names.get(id) ?? ''
}
