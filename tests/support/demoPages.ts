import type { Role } from '../../web/shared/viewer.ts'
import { createLink } from '../../server/links/store.ts'
import type { Database } from '../../server/shared/database/database.ts'

export interface DemoPage {
  readonly name: string
  readonly path: string
  readonly role: Role | 'nobody'
}

/** Every kind of page with an address in the demo shop, and who looks at it. */
export async function listDemoPages({ reads, write: writing }: Database): Promise<DemoPage[]> {
  const show = await reads.build.findFirstOrThrow({ where: { kind: 'show build' } })
  const leased = await reads.build.findFirstOrThrow({ where: { holding: 'leased', stage: 'delivered' } })
  const visit = await reads.serviceVisit.findFirstOrThrow({ where: { swaps: { some: {} } } })
  const counter = await reads.build.findFirstOrThrow({ where: { kind: 'counter job' } })
  const van = await reads.build.findFirstOrThrow({ where: { vehicle: { body: 'van' }, intake: { isNot: null } } })
  const mark = await reads.conditionMark.findFirstOrThrow({ where: { buildId: show.id } })
  const part = await reads.fabricatedPart.findFirstOrThrow({ where: { buildId: show.id, madeOf: { some: {} }, operations: { some: {} } } })
  const factoryPart = await reads.factoryPart.findFirstOrThrow({ where: { buildId: leased.id, fasteners: { some: {} } } })
  const line = await reads.equipmentLine.findFirstOrThrow({ where: { buildId: show.id } })
  const operation = await reads.operation.findFirstOrThrow({ where: { buildId: show.id, partId: part.id } })
  const planned = await reads.operation.findFirstOrThrow({ where: { buildId: show.id, state: 'not started', removedAt: null }, orderBy: { id: 'asc' } })
  const copied = await reads.build.findFirstOrThrow({ where: { copiedFromId: { not: null } } })
  const photo = await reads.photo.findFirstOrThrow({ where: { removedAt: null } })
  const finish = await reads.finish.findFirstOrThrow({ where: { buildId: show.id, sampleState: { not: 'approved' } } })
  const kit = await reads.kit.findFirstOrThrow({ where: { lines: { some: {} } } })
  const fitted = await reads.equipmentLine.findFirstOrThrow({ where: { kitId: { not: null }, placeId: { not: null } } })
  const customer = await reads.customer.findFirstOrThrow({})
  const vehicle = await reads.vehicle.findFirstOrThrow({})
  const person = await reads.person.findFirstOrThrow({ where: { role: 'technician' } })
  const entry = await reads.timeEntry.findFirstOrThrow({ where: { buildId: show.id, correctedBy: null } })
  const frozen = await reads.restorationSheet.findFirstOrThrow({ where: { buildId: leased.id } })
  const handed = await reads.custodyMove.findFirstOrThrow({ where: { buildId: leased.id, kind: 'handed to the customer' } })
  const bin = await reads.bin.findFirstOrThrow({ where: { buildId: show.id, factoryParts: { some: {} } }, orderBy: { number: 'asc' } })
  const newest = await reads.quoteRevision.findFirstOrThrow({ where: { buildId: van.id, kind: 'quote' }, orderBy: { number: 'desc' } })
  const older = await reads.quoteRevision.findFirstOrThrow({ where: { buildId: van.id, kind: 'quote', number: newest.number - 1 } })
  const agreed = await reads.quoteRevision.findFirstOrThrow({ where: { buildId: show.id, kind: 'quote' } })
  const invoice = await reads.invoice.findFirstOrThrow({ where: { kind: 'invoice' } })
  const paid = await reads.payment.findFirstOrThrow({ where: { buildId: show.id } })
  const order = await reads.changeOrder.findFirstOrThrow({})
  const linkTo = (revision: { id: string, buildId: string }): Promise<string> => writing(async (write) => {
    const order = { buildId: revision.buildId, subjectKind: 'quote', subjectId: revision.id, subjectName: 'a quote', note: 'the customer', days: 30 }
    const { secret } = await createLink(write, order, { personId: null, personName: '', requestId: 'demo pages', now: new Date() })
    return `/l/${secret}`
  })
  const byLink = async (name: string, revision: { id: string, buildId: string }): Promise<DemoPage> => ({ name, path: await linkTo(revision), role: 'nobody' })
  const unquoted = await reads.build.findFirstOrThrow({ where: { quote: null, stage: { not: 'delivered' }, kind: { not: 'counter job' } } })
  const option = await reads.quoteOption.findFirstOrThrow({ where: { buildId: van.id } })
  const manager = (name: string, path: string): DemoPage => ({ name, path, role: 'manager' })
  return [
    { name: 'sign-in', path: '/sign-in', role: 'nobody' },
    { name: 'now', path: '/now', role: 'technician' },
    { name: 'hours', path: '/hours', role: 'technician' },
    { name: 'hours-new', path: `/hours/new?operationId=${operation.id}`, role: 'technician' },
    { name: 'hours-correction', path: `/hours/${entry.id}/correction`, role: 'manager' },
    { name: 'ledger-technician', path: `/builds/${show.id}`, role: 'technician' },
    { name: 'sheet-delivery', path: `/builds/${leased.id}/return-to-stock`, role: 'delivery' },
    manager('builds', '/builds'),
    manager('search', '/search?find=door'),
    manager('search-empty', '/search'),
    manager('ledger-show', `/builds/${show.id}`),
    manager('ledger-leased', `/builds/${leased.id}`),
    manager('ledger-counter', `/builds/${counter.id}`),
    manager('build-form', `/builds/${show.id}/form`),
    manager('part', `/parts/${part.id}`),
    manager('part-form', `/parts/${part.id}/form`),
    manager('materials-bill', `/builds/${show.id}/materials`),
    manager('templates', `/builds/${leased.id}/templates`),
    manager('template-preview', `/builds/${leased.id}/templates/preview?${new URLSearchParams({ source: show.id, what: 'made part', part: part.id }).toString()}`),
    manager('template-scope', `/builds/${leased.id}/templates/preview?${new URLSearchParams({ source: show.id, what: 'whole scope' }).toString()}`),
    manager('comparison', `/builds/${copied.id}/comparison`),
    manager('finish-schedule', `/builds/${show.id}/finishes`),
    manager('finish', `/finishes/${finish.id}`),
    manager('finish-form', `/finishes/${finish.id}/form`),
    manager('estimate', `/builds/${show.id}/estimate`),
    manager('estimate-parts', `/builds/${show.id}/estimate?by=part`),
    manager('estimate-equipment', `/builds/${show.id}/estimate?by=equipment`),
    manager('quote', `/builds/${van.id}/quote`),
    manager('quote-accepted', `/builds/${show.id}/quote`),
    manager('quote-first', `/builds/${unquoted.id}/quote`),
    manager('quote-option', `/quote-options/${option.id}`),
    manager('quote-line-new', `/quote-lines/new?build=${van.id}`),
    manager('revision-open', `/revisions/${newest.id}`),
    manager('revision-superseded', `/revisions/${older.id}`),
    await byLink('link-quote-open', newest),
    await byLink('link-quote-superseded', older),
    await byLink('link-quote-accepted', agreed),
    manager('revision-accepted', `/revisions/${agreed.id}`),
    manager('revision-difference', `/revisions/${newest.id}/difference?from=${older.id}`),
    manager('quote-terms', `/quotes/${(await reads.quote.findFirstOrThrow({ where: { buildId: van.id } })).id}/form`),
    manager('intake', `/builds/${van.id}/intake`),
    manager('final-check-show', `/builds/${show.id}/final-check`),
    manager('final-check-delivered', `/builds/${leased.id}/final-check`),
    manager('delivery', `/builds/${leased.id}/delivery`),
    { name: 'delivery-show', path: `/builds/${show.id}/delivery`, role: 'delivery' },
    manager('story', `/builds/${leased.id}/story`),
    manager('story-preview', `/builds/${leased.id}/story/preview`),
    manager('story-card', `/builds/${leased.id}/story/card`),
    manager('check-gain', `/builds/${show.id}/final-check/gain.14?power=90&load=4`),
    manager('check-codes', `/builds/${show.id}/final-check/fault-codes`),
    { name: 'intake-signed-delivery', path: `/builds/${show.id}/intake`, role: 'delivery' },
    { name: 'mark-new-technician', path: `/builds/${show.id}/marks/new?x=300&y=400`, role: 'technician' },
    manager('mark-from-list', `/builds/${show.id}/marks/new`),
    manager('mark', `/condition-marks/${mark.id}`),
    manager('condition', `/builds/${show.id}/condition`),
    manager('photos', `/builds/${show.id}/photos`),
    manager('removal', `/builds/${show.id}/removal`),
    manager('alterations', `/builds/${show.id}/alterations`),
    { name: 'alterations-technician', path: `/builds/${leased.id}/alterations`, role: 'technician' },
    manager('removal-zone', `/builds/${show.id}/removal?zone=8`),
    manager('removal-leased', `/builds/${leased.id}/removal`),
    { name: 'removal-thing', path: `/builds/${leased.id}/removal?part=${factoryPart.id}`, role: 'technician' },
    { name: 'teardown', path: `/builds/${show.id}/teardown`, role: 'technician' },
    { name: 'teardown-part', path: `/builds/${leased.id}/teardown?part=${factoryPart.id}`, role: 'technician' },
    { name: 'photo-form', path: `/photos/${photo.id}/form`, role: 'technician' },
    manager('restoration', `/builds/${leased.id}/restoration`),
    manager('custody', `/builds/${show.id}/custody`),
    { name: 'kept-delivery', path: '/custody', role: 'delivery' },
    manager('part-moves', `/factory-parts/${handed.factoryPartId}/custody`),
    { name: 'receipt-delivery', path: `/custody-moves/${handed.id}/receipt`, role: 'delivery' },
    manager('move-hand-over', `/builds/${show.id}/moves/new?kind=handed+to+the+customer&parts=21+22`),
    manager('move-dispose', `/builds/${show.id}/moves/new?kind=disposed+with+consent&parts=21`),
    manager('labels', `/builds/${show.id}/labels?what=parts+out&start=5`),
    { name: 'scan-bin', path: `/scan/B-0231/A-${bin.number}`, role: 'technician' },
    { name: 'scan-part', path: '/scan/B-0231/F-053', role: 'technician' },
    manager('schedule', '/schedule'),
    manager('chances', '/schedule/chances?on=2031-03-04'),
    { name: 'late', path: `/schedule/late?operation=${planned.id}&by=3&unit=days`, role: 'technician' },
    manager('moving', `/schedule/operations/${planned.id}`),
    { name: 'day', path: '/day', role: 'technician' },
    manager('day-of-somebody', `/day?person=${person.id}`),
    manager('shop-week', `/schedule/week?build=${show.id}`),
    manager('load', '/schedule/load'),
    manager('build-plan', `/builds/${show.id}/schedule`),
    manager('can-we', `/builds/${van.id}/can-we`),
    manager('calendars', '/calendars'),
    { name: 'calendars-technician', path: '/calendars', role: 'technician' },
    manager('stock-takes', '/stock-takes'),
    manager('stock-take', '/stock-takes/1'),
    manager('stock-take-bin', `/stock-takes/1/bins/${bin.id}`),
    manager('stock-take-result', '/stock-takes/1/result'),
    manager('as-built', `/builds/${leased.id}/as-built`),
    manager('service-visits', `/service-visits?build=${leased.id}`),
    manager('service-visit', `/service-visits/${visit.id}`),
    manager('serial-swap-new', `/serial-swaps/new?build=${leased.id}&visitId=${visit.id}`),
    manager('search-serial', '/search?find=VS4-00127'),
    manager('return-to-stock', `/builds/${leased.id}/return-to-stock`),
    manager('frozen-sheets', `/builds/${leased.id}/restorations`),
    { name: 'frozen-sheet', path: `/restorations/${frozen.id}`, role: 'technician' },
    manager('frozen-sheet-cautions', `/restorations/${frozen.id}?part=1`),
    manager('frozen-sheet-paper', `/restorations/${frozen.id}/sheet`),
    manager('frozen-sheet-marks', `/restorations/${frozen.id}/history`),
    manager('frozen-sheet-closing', `/restorations/${frozen.id}/closings/new`),
    manager('links', `/builds/${leased.id}/links`),
    { name: 'link-gone', path: '/l/nowhere', role: 'nobody' },
    manager('zones', `/zones?build=${show.id}`),
    manager('equipment-lines', `/equipment-lines?build=${show.id}`),
    manager('equipment-line', `/equipment-lines/${line.id}`),
    manager('factory-part', `/factory-parts/${factoryPart.id}`),
    manager('factory-part-form', `/factory-parts/${factoryPart.id}/form`),
    manager('operation-form', `/operations/${operation.id}/form`),
    manager('order-edges', `/order-edges?build=${leased.id}`),
    manager('customers', '/customers'),
    manager('customer', `/customers/${customer.id}`),
    manager('customer-new', '/customers/new'),
    manager('vehicle', `/vehicles/${vehicle.id}`),
    manager('stock', '/stock'),
    manager('materials', '/materials'),
    manager('catalog', '/catalog'),
    manager('counter-job', '/counter-jobs/new'),
    manager('standard-fittings', '/standard-fittings'),
    manager('kits', '/kits'),
    manager('kit', `/kits/${kit.id}`),
    manager('line-kit', `/equipment-lines/${fitted.id}`),
    manager('fit', `/builds/${fitted.buildId}/fit`),
    manager('history', '/history'),
    manager('history-build', `/builds/${show.id}/history`),
    manager('after', '/after'),
    manager('after-build', `/builds/${leased.id}/after`),
    manager('after-show', `/builds/${show.id}/after`),
    manager('what-if', `/builds/${show.id}/what-if?margin=35`),
    manager('account', `/builds/${invoice.buildId}/account`),
    manager('account-deposit', `/builds/${show.id}/account`),
    manager('invoice', `/invoices/${invoice.id}`),
    manager('invoice-paper', `/invoices/${invoice.id}/paper`),
    manager('invoice-draft', `/builds/${fitted.buildId}/invoices/new`),
    manager('credit-note-new', `/invoices/${invoice.id}/credit-notes/new`),
    manager('payment-new', `/builds/${show.id}/payments/new`),
    manager('payment-taken-back', `/payments/${paid.id}/counter-entries/new`),
    manager('change-orders', `/builds/${order.buildId}/change-orders`),
    manager('change-order', `/builds/${order.buildId}/change-orders/${order.id}`),
    manager('spread', `/builds/${fitted.buildId}/spread`),
    manager('spread-show', `/builds/${show.id}/spread`),
    manager('spread-counter', `/builds/${counter.id}/spread`),
    manager('people', '/people'),
    manager('person', `/people/${person.id}`),
    manager('me', '/me'),
    manager('imports', '/imports'),
    manager('departments-usual', '/departments/usual'),
    manager('settings', '/settings'),
    manager('shop', '/shop/shop'),
    manager('departments', '/departments'),
    manager('not-here', '/nowhere'),
  ]
}

/** A sign-in name of the demo for each role. */
export async function demoSignIns({ reads }: Database): Promise<Record<Role, string>> {
  const people = await reads.person.findMany({ where: { isActive: true, removedAt: null }, orderBy: { signInName: 'asc' }, include: { timer: true } })
  const named = (role: Role): string => {
    const own = people.filter((person) => person.role === role)
    const found = own.find((person) => person.timer) ?? own[0]
    if (!found) throw new Error(`the demo has no ${role}`)
    return found.signInName
  }
  return { owner: named('owner'), manager: named('manager'), technician: named('technician'), delivery: named('delivery') }
}
