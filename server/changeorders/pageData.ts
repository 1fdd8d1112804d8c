import { randomUUID } from 'node:crypto'
import type { OrderData } from '../../web/changeorders/order.tsx'
import type { GuardData, OrdersData } from '../../web/changeorders/orders.tsx'
import { writeDay } from '../../web/shared/day.ts'
import { counted } from '../../web/shared/text.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { Amount, Working, WorkingInput } from '../calc/amounts.ts'
import { formatQuantity } from '../calc/figures.ts'
import { formatMoney, formatMoneyFigure } from '../calc/money.ts'
import { findAccepted, type AcceptedTotal } from '../quotes/acceptedStore.ts'
import { paperNumber } from '../quotes/content.ts'
import { listRevisions, standingAt, type StoredRevision } from '../quotes/revisionStore.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import type { Workings } from '../shared/workings.ts'
import { draw, type Drawn } from './drawing.ts'
import { guardOf, type Guard } from './preparing.ts'
import { getOrder, listOrders, type Order } from './store.ts'

const SOURCE = 'common practice, no source; local law decides about tax'
const money = (name: string, source: string, value: number): WorkingInput => ({ label: name, source, amount: { kind: 'money', value } })
const working = (title: string, inputs: readonly WorkingInput[], value: number, formula: string, assumed = ''): Working =>
  ({ title, inputs, result: { kind: 'money', value }, formula, assumed, source: SOURCE })

const orderNumber = (build: number, number: number): string => `C-${label('B', build).slice('B-'.length)}-${number}`
const laterInWords = (days: number | null): string => (days === null ? 'not said' : days === 0 ? 'not later' : counted(days, 'day', 'days'))

/** What is known of all change orders of a build. */
export interface LoadedOrders {
  readonly build: Awaited<ReturnType<typeof listOrders>>
  readonly drawn: ReadonlyMap<string, Drawn>
  readonly revisions: readonly StoredRevision[]
  readonly guard: Guard | null
}

export async function loadOrders(reads: Reads, buildId: string): Promise<LoadedOrders> {
  const build = await listOrders(reads, buildId)
  const drawn = await Promise.all(build.changeOrders.map(async (order): Promise<[string, Drawn]> => [order.id, await draw(reads, order)]))
  return { build, drawn: new Map(drawn), revisions: await listRevisions(reads, buildId, 'change order'), guard: await guardOf(reads, buildId) }
}

export function ordersPage({ build, drawn, revisions, guard }: LoadedOrders, { currency, today }: Viewer): OrdersData {
  const href = `/builds/${build.id}`
  return {
    trail: [{ name: `${label('B', build.number)} ${build.title}`, href }, { name: 'Change orders' }], number: label('B', build.number), title: build.title,
    guard: guard && guardData(guard, href, currency),
    orders: build.changeOrders.map(({ id, number, title, daysLater }) => ({
      number: orderNumber(build.number, number), title, href: `${href}/change-orders/${id}`, later: laterInWords(daysLater),
      standing: standingInWords(revisions.filter(({ changeOrderId }) => changeOrderId === id), today),
      net: { text: formatMoneyFigure(drawn.get(id)?.totals.netMinor ?? 0, currency), how: `n${number}` },
    })),
    newHref: `/change-orders/new?build=${build.id}`, links: [{ href: `${href}/quote`, name: 'Quote' }, { href: `${href}/account`, name: 'Account' }],
  }
}

const standingInWords = (revisions: readonly StoredRevision[], today: string): string => {
  const [newest] = revisions
  return newest ? `${newest.content.number}: ${standingAt(newest, today)}` : 'not frozen'
}

function guardData({ acceptedMinor, alarm, agreed, lines }: Guard, href: string, currency: string): GuardData {
  return {
    accepted: working('Accepted, without tax', [money('Accepted quote and change orders', 'consents', acceptedMinor)], acceptedMinor, 'accepted revision + accepted change orders'), forecast: agreed.working, left: alarm.working, words: alarm.words,
    leftOut: agreed.leftOut.map(({ number, name, sellMinor, loggedSellMinor }) => ({
      name: `Option ${number}, ${name}`, amount: formatMoney(sellMinor, currency), logged: loggedSellMinor === 0 ? '' : formatMoney(loggedSellMinor, currency),
    })),
    causes: lines.map(({ label: name, amountMinor }, index) => ({ label: name, amount: { text: formatMoneyFigure(amountMinor, currency), how: `m${index}` } })),
    prepare: { action: `${href}/change-orders`, idempotencyKey: randomUUID(), values: [['from', 'forecast']] },
  }
}

/** What the figures of the list open: n3 is the third change order, m0 the first cause of what is missing. */
export function ordersWorkings({ build, drawn, guard }: LoadedOrders): Workings {
  return new Map([
    ...build.changeOrders.flatMap(({ id, number }): [string, Working][] => {
      const own = drawn.get(id)
      return own ? [[`n${number}`, workingsOf(own).net]] : []
    }),
    ...(guard?.lines ?? []).map(({ label: name, amountMinor, isRest }, index): [string, Working] => [`m${index}`, working(`${name}: missing`, [
      money('Forecast at completion', 'costing', guard?.forecastMinor ?? 0), money('Accepted', 'consents', guard?.acceptedMinor ?? 0), money('Missing in all', 'forecast − accepted', guard?.missingMinor ?? 0), money('Of it here', isRest ? 'what no single part explains' : 'forecast over its own estimate', amountMinor),
    ], amountMinor, isRest ? 'missing − what single parts explain' : 'forecast − estimate of this, at most what is still missing', 'The largest first, until what is missing is reached. Tax is not in it.')]),
  ])
}

function workingsOf({ lines, totals }: Drawn): OrderData['figures'] {
  const net = working('Without tax', lines.map(({ text, amountMinor }) => money(text, 'line', amountMinor)), totals.netMinor, 'sum of the lines')
  const tax = working('Tax', totals.taxes.map(({ code, rateThousandthsOfPercent, taxMinor }) => money(`${code}, ${rateThousandthsOfPercent / 1000} %`, 'by code on the sum of its lines', taxMinor)), totals.taxMinor, 'sum over the tax codes')
  return { net, tax, total: working('With tax', [money('Without tax', 'lines', totals.netMinor), money('Tax', 'by code', totals.taxMinor)], totals.totalMinor, 'net + tax') }
}

export interface LoadedOrder {
  readonly order: Order
  readonly drawn: Drawn
  readonly revisions: readonly StoredRevision[]
  readonly accepted: AcceptedTotal | null
  readonly timeZone: string
}

export async function loadOrder(reads: Reads, id: string): Promise<LoadedOrder> {
  const order = await getOrder(reads, id)
  const [drawn, revisions, accepted, { timeZone }] = await Promise.all([draw(reads, order), listRevisions(reads, order.buildId, 'change order'), findAccepted(reads, order.buildId), shopOf(reads)])
  return { order, drawn, revisions: revisions.filter(({ changeOrderId }) => changeOrderId === id), accepted, timeZone }
}

export const orderTrail = ({ order: { buildId, build, number } }: LoadedOrder): { name: string, href: string }[] => [
  { name: `${label('B', build.number)} ${build.title}`, href: `/builds/${buildId}` }, { name: 'Change orders', href: `/builds/${buildId}/change-orders` }, { name: orderNumber(build.number, number), href: '' },
]

/** `saved`: what has just been saved, by what the address says: the id of a line, or that it was frozen. */
export function orderPage(loaded: LoadedOrder, { currency, today }: Viewer, saved?: string): OrderData {
  const { order, drawn: { lines, totals }, revisions, accepted, timeZone } = loaded
  const isAnswered = revisions.some(({ consent }) => consent?.decision === 'accepted')
  const next = paperNumber('change order', order.build.number, (revisions[0]?.number ?? 0) + 1, order.number)
  const href = `/builds/${order.buildId}/change-orders/${order.id}`
  const savedLine = order.lines.find(({ id }) => id === saved)
  const [newest] = revisions
  return {
    saved: savedLine ? `line “${savedLine.text}”` : saved === 'frozen' && newest ? `${newest.content.number}, frozen` : null,
    trail: orderTrail(loaded).map(({ name, href: to }) => (to === '' ? { name } : { name, href: to })), number: orderNumber(order.build.number, order.number),
    build: `${label('B', order.build.number)} ${order.build.title}`, title: order.title, reason: order.reason, later: laterInWords(order.daysLater), good: counted(order.validDays, 'day', 'days'),
    figures: workingsOf({ lines, totals }),
    accepted: accepted && working('Accepted so far, with tax', [money('Without tax', 'consents', accepted.netMinor), money('Tax', 'consents', accepted.taxMinor)], accepted.netMinor + accepted.taxMinor, 'accepted revision + accepted change orders, with tax'),
    lines: lines.map((line, index) => ({
      text: line.text, href: `/quote-lines/${order.lines[index]?.id ?? ''}`, quantity: formatQuantity(line.quantity, 'times', 'metric').replace(/ ?×$/, ''), each: formatMoneyFigure(line.eachMinor, currency),
      code: line.taxCode?.code ?? '', amount: { text: formatMoneyFigure(line.amountMinor, currency), how: `a${index}` },
    })),
    revisions: revisions.map((revision) => ({
      number: revision.content.number, href: `/revisions/${revision.id}`, frozen: writeDay(calendarDateIn(timeZone, revision.createdAt)), standing: standingAt(revision, today), total: formatMoneyFigure(revision.content.totals.totalMinor, currency),
    })),
    draft: isAnswered ? null : {
      formHref: `/change-orders/${order.id}/form`, addHref: `/quote-lines/new?build=${order.buildId}&changeOrderId=${order.id}`, next,
      freeze: { action: `${href}/revisions`, idempotencyKey: randomUUID() },
    },
    links: [{ href: `/change-orders/${order.id}`, name: 'Record and history' }, { href: `/builds/${order.buildId}/account`, name: 'Account' }],
  }
}

/** What the lines open: a0 is the first. */
export function orderWorkings({ drawn: { lines } }: LoadedOrder): Workings {
  const times = (value: number): Amount => ({ kind: 'times', value })
  return new Map(lines.map(({ text, quantity, eachMinor, amountMinor }, index): [string, Working] => [`a${index}`, {
    ...working(text, [{ label: 'Quantity', source: 'line', amount: times(quantity) }, money('Price each', 'line', eachMinor)], amountMinor, 'quantity × price each'), source: 'common practice, no source',
  }]))
}
