import { randomUUID } from 'node:crypto'
import type { ConditionData } from '../../web/intake/condition.tsx'
import type { CounterForm, IntakeData } from '../../web/intake/intakeData.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { placesOf, type Body } from '../../web/shared/zonePlaces.ts'
import { defaultUnit } from '../calc/units.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { listPhotos } from '../shared/photos/rows.ts'
import { entryText } from '../shared/records/display.ts'
import { label } from '../shared/records/kind.ts'
import { BENCH } from '../shared/roles.ts'
import type { Body as Typed } from '../shared/records/submission.ts'
import { intake, WARNING_LIGHTS } from './records.ts'
import { missingForSignature } from './saving.ts'
import { toShown } from './shown.ts'
import { loadIntake, type StoredIntake } from './store.ts'

interface Again {
  readonly saved?: string | null
  readonly typed?: Typed
  readonly problems?: readonly FieldProblem[]
}

const SAVED: Readonly<Record<string, string>> = { intake: 'the intake', walk: 'what was looked at', mark: 'the mark', signature: 'the signature' }

export async function intakeData(reads: Reads, buildId: string, viewer: Viewer, again: Again = {}): Promise<IntakeData> {
  const stored = await loadIntake(reads, buildId)
  const { build } = stored
  const page = `/builds/${buildId}`
  const walked = (build.intake?.walkedZones ?? '').split(',')
  const isSigned = Boolean(build.intake?.signedAt)
  const body = build.vehicle.body as Body
  return {
    ...toShown(stored, await listPhotos(reads, { buildId }), viewer),
    trail: [{ name: `${label('B', build.number)} ${build.title}`, href: page }, { name: 'Intake' }],
    number: label('B', build.number), title: build.title, vehicle: vehicleWords(stored), saved: SAVED[again.saved ?? ''] ?? null,
    counter: isSigned ? null : counterOf(stored, viewer, again),
    walk: isSigned ? null : { action: `${page}/walks`, key: randomUUID(), places: placesOf(body).map((place) => ({ place, isTicked: walked.includes(place) })) },
    markHref: `${page}/marks/new`, codeHref: `/fault-codes/new?build=${buildId}&readAt=intake&readOn=${viewer.today}`,
    sign: isSigned ? null : { action: `${page}/signatures`, key: randomUUID(), version: build.intake?.version ?? 0, missing: missingForSignature(build.intake, body) },
    links: [
      { name: 'Condition report', href: `${page}/condition` }, { name: 'Photos', href: `${page}/photos` },
      ...(BENCH.includes(viewer.role) ? [{ name: 'Codes and keys', href: `${page}/secrets` }] : []),
    ],
  }
}

export const vehicleWords = ({ build: { vehicle: { make, model, year } } }: StoredIntake): string => [make, model, year].filter(Boolean).join(' ')

function counterOf({ build }: StoredIntake, viewer: Viewer, { typed, problems = [] }: Again): CounterForm {
  const row = (build.intake ?? { id: '', version: 0, removedAt: null, entered: '{}' }) as unknown as Row
  const value = (name: string): string => {
    const field = intake.fields[name]
    if (typed) return String(typed[name] ?? '')
    return field ? String(entryText(name, field, row, viewer)) : ''
  }
  const lights = typed ? [typed.warningLights ?? []].flat().map(String) : String(build.intake?.warningLights ?? '').split(',')
  return {
    action: `/builds/${build.id}/intake`, key: randomUUID(), version: build.intake?.version ?? 0,
    vehicleVersion: Number(typed?.vehicleVersion ?? build.vehicle.version), warningLights: lights, lights: WARNING_LIGHTS, distanceUnit: defaultUnit('distance', viewer.units), problems,
    values: {
      odometer: value('odometer'), energyLevel: value('energyLevel'), keys: value('keys'), leftInside: value('leftInside'), note: value('note'),
      factoryOptions: typed ? String(typed.factoryOptions ?? '') : build.vehicle.factoryOptions,
    },
  }
}

export async function conditionData(reads: Reads, buildId: string, viewer: Viewer): Promise<ConditionData> {
  const stored = await loadIntake(reads, buildId)
  const { build, shop } = stored
  const shown = toShown(stored, await listPhotos(reads, { buildId }), viewer)
  const number = label('B', build.number)
  return {
    ...shown, backHref: `/builds/${buildId}/intake`,
    titleBlock: {
      owner: shop.name === '' ? 'shop not named yet' : shop.name, ownerMore: [shop.address, shop.phone].filter((text) => text !== '').join(', '),
      title: 'Condition at intake',
      subtitle: [build.vehicle.customer.name, vehicleWords(stored), build.vehicle.vin === '' ? '' : `VIN ${build.vehicle.vin}`].filter((text) => text !== '').join(', '),
      documentType: 'Condition report', number: `C-${number.slice('B-'.length)}-1`, revision: shown.signed === null ? 'not signed' : 'as signed',
      dateOfIssue: viewer.today, language: 'en', createdBy: viewer.name, approvedBy: shown.signed?.name ?? '', build: number, replaces: '',
    },
  }
}
