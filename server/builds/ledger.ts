import { triggersOfVehicle, cautionsFor } from '../calc/removal/cautions.ts'
import { formatQuantity } from '../calc/figures.ts'
import { formatMoney } from '../calc/money.ts'
import type { CautionProps } from '../../web/shared/caution.tsx'
import type { LedgerData, LedgerZone, ZoneHours } from '../../web/builds/ledgerData.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { kindInWords } from '../../web/shared/buildKinds.ts'
import { writeDay } from '../../web/shared/day.ts'
import { placesOf, type Body, type ZonePlace } from '../../web/shared/zonePlaces.ts'
import { label } from '../shared/records/kind.ts'
import { BENCH, COUNTER, MANAGERS } from '../shared/roles.ts'
import { toAfterDelivery } from './afterDelivery.ts'
import type { BuildFigures } from './figures.ts'
import { seesMoney } from './figures.ts'
import type { GoingBack } from './goingBack.ts'
import { goesBack } from './ledgerBack.ts'
import { cameOut, goesIn, stateOfJob } from './ledgerColumns.ts'
import { madeHere } from './ledgerParts.ts'
import { addHref } from './links.ts'
import { listOpenPoints } from './openPoints.ts'
import { STAGES } from './records.ts'
import { sheetsOf } from './sheets.ts'
import type { StoredBuild } from './store.ts'
import { loggedWorking, priceWorking, remainingWorking } from './workings.ts'

export interface LedgerSources {
  readonly stored: StoredBuild
  readonly figures: BuildFigures
  readonly back: GoingBack
}

/** All that the ledger shows to this viewer; money and contacts stay out of it for those who do not see them. */
export function toLedger({ stored, figures, back }: LedgerSources, viewer: Viewer): Omit<LedgerData, 'history' | 'saved' | 'sinceDelivery'> {
  const { head } = stored
  const { costing } = figures
  const sheets = sheetsOf(head.id, viewer.role, head.kind)
  return {
    number: label('B', head.number), title: head.title, kind: kindInWords(head.kind),
    ...vehicleWords(head, viewer),
    body: head.vehicle.body as Body,
    stage: stageOf(head.stage),
    promisedOn: head.promisedOn ?? '', wantedBy: head.deadline ?? '',
    ...(seesMoney(viewer) ? { price: priceWorking(costing, figures.bill), consent: consentWords(head, viewer) } : {}),
    restoration: {
      verdict: back.words, hours: back.hours, cost: seesMoney(viewer) ? back.cost : undefined, href: `/builds/${head.id}/return-to-stock`,
    },
    hours: {
      estimate: costing.estimate.total.workings.labor, logged: loggedWorking(costing.labor, costing.byDepartment),
      remaining: remainingWorking(costing.labor, costing.byDepartment), forecast: costing.labor.workings.forecast,
      afterDelivery: toAfterDelivery(stored)?.hours,
    },
    alarm: costing.alarm && costing.alarm.state !== 'inside' && head.stage !== 'delivered' ? costing.alarm.words : '',
    cautions: vehicleCautions(head.vehicle),
    intakeHref: isLookedAt(head) ? undefined : `/builds/${head.id}/intake`,
    zones: toZones({ stored, figures, back }, viewer),
    sheets,
    job: toJob(stored, viewer),
    editHref: MANAGERS.includes(viewer.role) ? `/builds/${head.id}/form` : undefined,
    addZoneHref: addHref(viewer.role, 'zone', head.id),
  }
}

/** What only a counter job shows: the way to the timer, and a word when it has grown beyond one. */
function toJob(stored: StoredBuild, { role }: Viewer): LedgerData['job'] {
  const { head, lines, parts } = stored
  if (head.kind !== 'counter job') return undefined
  const hasGrown = lines.length > MOST_LINES_OF_A_COUNTER_JOB || parts.length > 0
  return {
    startHref: BENCH.includes(role) && head.stage !== 'delivered' ? `/now?find=${label('B', head.number)}` : undefined,
    state: stateOfJob(stored), grown: hasGrown ? 'More than three lines, or something made here: this is a build, no counter job. Change its kind and go on, nothing is lost.' : '',
  }
}

const MOST_LINES_OF_A_COUNTER_JOB = 3

type Head = StoredBuild['head']

function vehicleWords({ vehicle, kind, holding, bay }: Head, viewer: Viewer): Pick<LedgerData, 'customer' | 'contact' | 'vehicle' | 'vehicleMore'> {
  const { customer, make, model, year, body, odometer } = vehicle
  const odometerWords = odometer === null ? '' : formatQuantity(odometer, 'distance', viewer.units)
  return {
    customer: customer.name,
    contact: COUNTER.includes(viewer.role) ? joined(customer.contact, customer.phone) : '',
    vehicle: joined([make, model].join(' '), body, String(year ?? '')),
    vehicleMore: [kindInWords(kind), holding, odometerWords, bay?.name ?? ''].filter((word) => word !== '').join(' · '),
  }
}

// A vehicle that is being worked on before anybody looked: an old scratch becomes the shop's.
function isLookedAt({ stage, intake, vehicle }: Head): boolean {
  const walked = (intake?.walkedZones ?? '').split(',')
  return stage === 'intake' || stage === 'delivered' || placesOf(vehicle.body as Body).every((place) => walked.includes(place))
}

const joined = (...words: string[]): string => words.filter((word) => word !== '').join(', ')

export function stageOf(stage: string): LedgerData['stage'] {
  const index = (STAGES as readonly string[]).indexOf(stage)
  return { name: stage.charAt(0).toUpperCase() + stage.slice(1), index: index + 1, count: STAGES.length }
}

function consentWords({ consent, consentBy, consentOn }: Head, { currency }: Viewer): string {
  if (consent === null) return 'no consent recorded'
  return `consent to ${joined(formatMoney(consent, currency), consentBy, consentOn === null ? '' : writeDay(consentOn))}`
}

export function vehicleCautions({ energy, airbagWait }: Head['vehicle']): CautionProps[] {
  return cautionsFor(triggersOfVehicle(energy), { batteryWaitS: airbagWait }).map(({ signalWord, title, text }) => ({ signal: signalWord, title, text }))
}

function toZones({ stored, figures, back }: LedgerSources, viewer: Viewer): LedgerZone[] {
  const buildId = stored.head.id
  const points = listOpenPoints(stored, figures.costing, viewer)
  const made = madeHere(stored, figures)
  const hours = zoneHours(figures)
  const all = stored.zones.map((zone): LedgerZone & { isRemoved: boolean } => ({
    number: zone.number, name: zone.name, place: zone.place as ZonePlace,
    href: MANAGERS.includes(viewer.role) ? `/zones/${zone.id}` : undefined,
    points: points.filter(({ zoneId }) => zoneId === zone.id).map(({ number, text, person, stopsWork, href }) => ({ number, text, person, stopsWork, href })),
    hours: hours(zone.id),
    cameOut: cameOut(stored, zone.id), goesIn: goesIn(stored, zone.id), madeHere: made(zone.id),
    goesBack: goesBack(back, zone),
    add: addsOf(viewer, buildId, zone.id),
    isRemoved: zone.removedAt !== null,
  }))
  const holds = (zone: LedgerZone): boolean => zone.points.length + zone.cameOut.length + zone.goesIn.length + zone.madeHere.length + zone.goesBack.length > 0
  return all.filter((zone) => !zone.isRemoved || holds(zone)).map(({ isRemoved: _, ...zone }) => zone)
}

function addsOf({ role }: Viewer, buildId: string, zoneId: string): LedgerZone['add'] {
  const add = (kind: string): string | undefined => addHref(role, kind, buildId, { zoneId })
  return {
    point: add('open point'), factoryPart: add('factory part'), equipmentLine: add('equipment line'), madePart: add('made part'), alteration: add('alteration'),
  }
}

function zoneHours({ costing }: BuildFigures): (zoneId: string) => ZoneHours {
  const byZone = new Map(costing.byZone.map(({ id, figures }) => [id, figures]))
  return (zoneId) => {
    const { estimatedS: estimate = 0, loggedS: logged = 0, forecastS: forecast = 0 } = byZone.get(zoneId) ?? {}
    return { estimate, logged, forecast }
  }
}
