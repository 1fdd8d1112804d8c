import type { AsBuiltData, AsBuiltLine } from '../../web/service/asBuilt.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { warrantyOf, type Warranty } from '../calc/warranty.ts'
import { toWhatAndWhere } from '../calc/restoration/reversal.ts'
import { changesInWords, listChangesSince, stateInWords, type VehicleChange } from '../restoration/changesStore.ts'
import { loadShopHead } from '../restoration/store.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import { listSerials } from './serials.ts'
import { findAsBuilt, type StoredAsBuilt } from './store.ts'

/** The record of what the vehicle carries now. Throws a 404 where there is no such build. */
export async function asBuiltData(reads: Reads, buildId: string, viewer: Viewer): Promise<AsBuiltData> {
  const [build, shop, { timeZone }] = await Promise.all([findAsBuilt(reads, buildId), loadShopHead(reads), shopOf(reads)])
  if (!build) throw notFound('build')
  const changes = await listChangesSince(reads, { buildId, deliveredOn: build.deliveredOn, timeZone })
  const dayOf = (at: Date): string => calendarDateIn(timeZone, at)
  const state = build.deliveredOn === null ? 'not delivered yet' : stateInWords(changes, dayOf)
  return {
    titleBlock: {
      owner: shop.name === '' ? 'shop not named yet' : shop.name, ownerMore: [shop.address, shop.phone].filter((text) => text !== '').join(', '),
      title: 'As-built record', subtitle: subtitleOf(build), documentType: 'As-built record', number: `Y-${label('B', build.number).slice('B-'.length)}`,
      revision: 'not frozen', status: state, dateOfIssue: viewer.today, language: 'en', createdBy: viewer.name, approvedBy: '', build: label('B', build.number), replaces: '',
    },
    standing: standingOf(build, changes, dayOf),
    lines: build.lines.map((line) => toLine(line, build.deliveredOn)),
    parts: build.parts.map(({ number, name, quantity, removable, zone }) => ({
      number: label('P', number), name: quantity > 1 ? `${quantity} × ${name}` : name, zone: `${zone.number} ${zone.name}`, removable,
    })),
    alterations: build.alterations.map((each) => ({
      number: label('X', each.number), what: `${each.kind}: ${toWhatAndWhere(each)}`, zone: `${each.zone.number} ${each.zone.name}`,
      consent: each.consentBy === '' ? 'nobody’s consent is recorded' : [each.consentBy, each.consentOn === null ? '' : writeDay(each.consentOn)].filter((text) => text !== '').join(', '),
      way: each.reversedOn !== null ? `reversed ${writeDay(each.reversedOn)}` : each.isReversible ? each.reversal : 'cannot be reversed',
    })),
    kept: build.factoryParts.filter(({ state: is }) => !['fitted', 'loosened', 'altered'].includes(is)).map((part) => ({
      number: label('F', part.number), name: part.name, state: part.state, condition: part.condition,
      where: part.bin ? `bin ${label('A', part.bin.number)}, ${part.bin.place}` : part.place,
    })),
    visits: build.visits.map((visit) => ({
      number: label('W', visit.number), href: `/service-visits/${visit.id}`, complaint: visit.complaint, cause: visit.cause, found: visit.found, paidBy: visit.paidBy,
      when: [writeDay(visit.cameOn), visit.leftOn === null ? 'still here' : `to ${writeDay(visit.leftOn)}`].join(' '),
    })),
    changes: changesInWords(changes, dayOf),
    backHref: `/builds/${build.id}`,
  }
}

function subtitleOf({ title, vehicle: { make, model, year, vin } }: StoredAsBuilt): string {
  return [title, [make, model, year].filter(Boolean).join(' '), vin === '' ? '' : `VIN ${vin}`].filter((text) => text !== '').join(', ')
}

function standingOf({ deliveredOn }: StoredAsBuilt, [latest]: readonly VehicleChange[], dayOf: (at: Date) => string): string {
  if (deliveredOn === null) return 'Not delivered yet: this is what is recorded as fitted now.'
  const delivered = `As delivered on ${writeDay(deliveredOn)}`
  return latest ? `${delivered}; last changed on ${writeDay(dayOf(latest.at))}.` : `${delivered}; nothing was changed since.`
}

type StoredLine = StoredAsBuilt['lines'][number]

function toLine(line: StoredLine, deliveredOn: string | null): AsBuiltLine {
  const warranty = warrantyOf({ deliveredOn, months: line.item?.warrantyMonths ?? null, replacementUntil: null })
  const owns = line.swaps.filter(({ warrantyUntil }) => warrantyUntil !== null)
  return {
    number: label('E', line.number), name: line.quantity > 1 ? `${line.quantity} × ${line.name}` : line.name, zone: `${line.zone.number} ${line.zone.name}`,
    serials: listSerials(line.serialNumbers),
    before: line.swaps.map(({ oldSerial, newSerial, swappedOn, visit, note }) =>
      `${oldSerial} until ${writeDay(swappedOn)}, then ${newSerial} (${label('W', visit.number)})${note === '' ? '' : `; old unit: ${note}`}`),
    warranty: [
      inWords('', warranty),
      ...owns.map(({ newSerial, warrantyUntil }) => inWords(`${newSerial}: `, warrantyOf({ deliveredOn, months: null, replacementUntil: warrantyUntil }))),
    ],
  }
}

const inWords = (whose: string, { until, how }: Warranty): string => `${whose}${until === null ? how : `${writeDay(until)} (${how})`}`
