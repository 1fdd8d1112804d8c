import { randomUUID } from 'node:crypto'
import type { DeliveryData, DeliveryForm } from '../../web/delivery/deliveryData.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { formatQuantity } from '../calc/figures.ts'
import { defaultUnit } from '../calc/units.ts'
import type { Checked } from '../checks/checked.ts'
import type { Row } from '../shared/database/delegate.ts'
import { entryText } from '../shared/records/display.ts'
import { label } from '../shared/records/kind.ts'
import type { Body } from '../shared/records/submission.ts'
import { COUNTER, MANAGERS } from '../shared/roles.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { keptParts } from './kept.ts'
import { loadOf } from './load.ts'
import { delivery } from './records.ts'
import type { StoredDelivery } from './store.ts'
import { suggestBeforeSale, suggestCare } from './suggestions.ts'

interface Again {
  readonly saved?: string | undefined
  readonly typed?: Body
  readonly problems?: readonly FieldProblem[]
}

const SAVED: Readonly<Record<string, string>> = { delivery: 'the delivery', receipt: 'the signature' }

/** The delivery as its page shows it. */
export function deliveryData(stored: StoredDelivery, checked: Checked, viewer: Viewer, again: Again = {}): DeliveryData {
  const { build, shop, explainedBy } = stored
  const page = `/builds/${build.id}`
  const { added, remaining } = loadOf(build)
  const own = build.delivery
  const receivedAt = own?.receivedAt ?? null
  const mayWrite = COUNTER.includes(viewer.role)
  return {
    trail: [{ name: `${label('B', build.number)} ${build.title}`, href: page }, { name: 'Delivery' }], number: label('B', build.number), title: build.title,
    vehicle: [build.vehicle.make, build.vehicle.model, build.vehicle.year].filter(Boolean).join(' '), customer: build.vehicle.customer.name,
    stage: build.deliveredOn === null ? build.stage : `${build.stage}, ${writeDay(build.deliveredOn)}`, saved: SAVED[again.saved ?? ''] ?? null,
    checkWords: checkWords(checked), checkHref: `${page}/final-check`,
    added: added.working, remaining, unknown: added.unknown,
    facts: [
      { label: 'Odometer', text: own?.odometer == null ? '' : formatQuantity(own.odometer, 'distance', viewer.units) },
      { label: 'Occupants and cargo by the tire placard', text: own?.placardLoad == null ? '' : formatQuantity(own.placardLoad, 'mass', viewer.units) },
      { label: 'Care and use', text: own?.careAndUse ?? '' }, { label: 'Before a sale, a lease return or a dealer visit', text: own?.beforeSale ?? '' },
      { label: 'Explained by', text: explainedBy }, { label: 'Note', text: own?.note ?? '' },
    ],
    form: receivedAt || !mayWrite ? null : formOf(stored, viewer, again),
    receive: own === null || receivedAt || !mayWrite ? null : { action: `${page}/receipts`, key: randomUUID(), version: own.version },
    received: own && receivedAt ? { name: own.receivedBy, path: own.signature, when: `${writeDay(calendarDateIn(shop.timeZone, receivedAt))} ${clockTimeIn(shop.timeZone, receivedAt)}` } : null,
    kept: keptParts(stored),
    files: [
      { name: 'As PDF, A4', href: `${page}/delivery-pack.pdf` }, { name: 'As PDF, Letter', href: `${page}/delivery-pack.pdf?paper=Letter` }, { name: 'As an archive', href: `${page}/delivery-pack.zip` },
      ...(MANAGERS.includes(viewer.role) ? [{ name: 'As an archive, with prices', href: `${page}/delivery-pack.zip?money=yes` }] : []),
    ],
  }
}

function checkWords({ points, unsettled, stored: { build }, signedAt }: Checked): string {
  if (build.stage === 'delivered') {
    if (build.finalCheck === null) return 'Delivered; no final check is recorded.'
    return `Delivered with its final check${signedAt ? ` signed by ${build.finalCheck.signedName}` : ''}.${unsettled.length === 0 ? '' : ` By what is recorded now ${unsettled.length} of ${points.length} points would be open.`}`
  }
  if (unsettled.length > 0) return `${unsettled.length} of ${points.length} points are open: the vehicle cannot leave.`
  return signedAt ? `All ${points.length} points are settled; signed by ${build.finalCheck?.signedName ?? ''}.` : `All ${points.length} points are settled; nobody has signed yet.`
}

function formOf({ build, people }: StoredDelivery, viewer: Viewer, { typed, problems = [] }: Again): DeliveryForm {
  const row = (build.delivery ?? { id: '', version: 0, removedAt: null, entered: '{}' }) as unknown as Row
  const value = (name: string, suggested = ''): string => {
    const field = delivery.fields[name]
    if (typed) return String(typed[name] ?? '')
    if (build.delivery === null) return suggested
    return field ? String(entryText(name, field, row, viewer)) : ''
  }
  return {
    action: `/builds/${build.id}/delivery`, key: randomUUID(), version: build.delivery?.version ?? 0, problems, isSuggested: build.delivery === null && !typed,
    people: people.map(({ id, name }) => ({ value: id, label: name })), distanceUnit: defaultUnit('distance', viewer.units), massUnit: defaultUnit('mass', viewer.units),
    values: {
      odometer: value('odometer'), placardLoad: value('placardLoad'), careAndUse: value('careAndUse', suggestCare(build)), beforeSale: value('beforeSale', suggestBeforeSale(build)),
      explainedById: value('explainedById', viewer.personId), note: value('note'),
    },
  }
}
