import type { AlterationRow, AlterationsData } from '../../web/restoration/alterations.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { formatMoney } from '../calc/money.ts'
import { toReversalSteps } from '../calc/restoration/reversal.ts'
import { label } from '../shared/records/kind.ts'
import { BENCH, MANAGERS } from '../shared/roles.ts'
import type { StoredAlterations } from './alterationStore.ts'

type Stored = StoredAlterations['build']['alterations'][number]

/** What is missing of an alteration, most telling first; nothing of one that was reversed. */
export function listMissing({ consentBy, consentOn, whereAt, why, reversedOn }: Pick<Stored, 'consentBy' | 'consentOn' | 'whereAt' | 'why' | 'reversedOn'>, photos: number): string[] {
  if (reversedOn !== null) return []
  return [
    consentBy === '' ? 'nobody’s consent' : consentOn === null ? 'date of the consent' : '', photos === 0 ? 'photo' : '',
    whereAt === '' ? 'where exactly' : '', why === '' ? 'why' : '',
  ].filter((words) => words !== '')
}

/** The alterations of a build with what is missing of each; prices for managers alone. */
export function alterationsData({ build, photos }: StoredAlterations, viewer: Viewer): AlterationsData {
  const { make, model, year } = build.vehicle
  const rows = build.alterations.map((row) => toRow(row, photos.filter(({ subjectId }) => subjectId === row.id), viewer))
  return {
    buildId: build.id, buildNumber: label('B', build.number), title: build.title, vehicle: [make, model, year ?? ''].filter(Boolean).join(' '),
    rows, openCount: rows.filter(({ missing }) => missing.length > 0).length,
    lost: build.factoryParts.map(({ id, number, name, zone }) => ({ number: label('F', number), name, zone: `${zone.number} ${zone.name}`, href: `/factory-parts/${id}` })),
    addHref: BENCH.includes(viewer.role) ? `/alterations/new?build=${build.id}` : undefined,
  }
}

function toRow(row: Stored, photos: StoredAlterations['photos'], viewer: Viewer): AlterationRow {
  const seesMoney = MANAGERS.includes(viewer.role)
  const price = (minor: number | null): string => (!seesMoney ? '' : minor === null ? 'no price known' : formatMoney(minor, viewer.currency))
  const joined = (...words: string[]): string => words.filter((word) => word !== '').join(', ')
  const days = (count: number): string => (count === 0 ? '' : `${count} working ${count === 1 ? 'day' : 'days'}`)
  return {
    number: label('X', row.number), href: `/alterations/${row.id}`, kind: row.kind, what: row.what, where: joined(`${row.zone.number} ${row.zone.name}`, row.whereAt),
    part: row.factoryPart ? `${label('F', row.factoryPart.number)} ${row.factoryPart.name}` : '', why: row.why,
    consent: row.consentBy === '' ? '' : joined(row.consentBy, row.consentOn === null ? '' : writeDay(row.consentOn)),
    way: row.reversedOn !== null ? 'reversed' : row.isReversible ? 'reversible' : 'cannot be reversed', reversedOn: row.reversedOn === null ? '' : writeDay(row.reversedOn),
    steps: toReversalSteps(row.reversal), seconds: row.reverse,
    buys: [
      ...(row.partToBuy === '' ? [] : [joined(row.partToBuy, price(row.partCost), days(row.leadDays))]),
      ...row.furtherParts.map(({ name, count, cost, leadDays }) => joined(count > 1 ? `${count} × ${name}` : name, count > 1 && cost !== null && seesMoney ? `${price(cost)} each` : price(cost), days(leadDays))),
    ],
    outside: row.outsideWork === '' ? '' : joined(row.outsideWork, price(row.outsideCost), days(row.outsideDays)),
    photos: photos.map(({ id, caption }) => ({ id, caption })),
    missing: listMissing(row, photos.length),
  }
}
