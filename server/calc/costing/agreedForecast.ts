import type { Working, WorkingInput } from '../amounts.ts'
import { besideEstimate, type MeasuredOrder } from './besideEstimate.ts'
import type { CostFigures } from './costSums.ts'
import type { Owner } from '../parts/owners.ts'
import type { Overrunning } from './overrun.ts'
import type { RequiredParts } from '../parts/partTree.ts'
import { placePrices, type PlacedPrice } from '../quotes/placedPrices.ts'
import { suppliesOf, type SuppliesRule } from '../quotes/quoteLines.ts'
import { addExactly } from '../rounding.ts'

/** An option of the accepted quote, and the things of the build that stand in it. */
export interface AgreedOption {
  readonly number: number
  readonly name: string
  readonly isChosen: boolean
  readonly partIds: readonly string[]
  readonly equipmentIds: readonly string[]
}

/** What stands on the accepted papers and is not in the estimate: without it the forecast would be of less than was accepted. */
export interface AgreedPapers {
  readonly supplies: SuppliesRule | null
  /** Further lines of the accepted quote, with the options said yes to. Minor units, below zero for a discount. */
  readonly furtherMinor: number
  readonly options: readonly AgreedOption[]
  /** Price of the estimate on the accepted quote, all options included. */
  readonly quotedMinor: number
  /** Accepted change orders in the order they were frozen. */
  readonly orders: readonly MeasuredOrder[]
}

/** What belongs to an option that was said no to. Minor units. */
export interface LeftOut {
  readonly number: number
  readonly name: string
  /** Price at completion: labor and what is bought. */
  readonly sellMinor: number
  /** Of it what is logged already. */
  readonly loggedSellMinor: number
  /** Cost that does not come: labor still to do and what would be bought. Hours logged stay a cost. */
  readonly costMinor: number
}

export interface AgreedForecast {
  readonly forecastMinor: number
  /** Charged by now if all stopped. */
  readonly reachedMinor: number
  readonly leftOut: readonly LeftOut[]
  /** Things that may run over: estimate and forecast, without what was said no to. */
  readonly things: readonly Overrunning[]
  readonly working: Working
}

export interface OwnedFigures {
  readonly owner: Owner
  readonly figures: CostFigures
}

const NO_PAPERS: AgreedPapers = { supplies: null, furtherMinor: 0, options: [], quotedMinor: 0, orders: [] }

/**
 * The price at completion of just what the accepted papers carry, so that both can be compared: labor logged and
 * remaining at the departments' prices, what is bought, shop supplies on that labor by the rule of the accepted quote,
 * and its further lines as they stand there, and what accepted change orders bring beside the estimate; without what belongs to options that were said no to. With nothing logged
 * and nothing changed it comes to the accepted quote exactly. Without papers (agreed by hand) it is labor and what is
 * bought. Minor units, without tax.
 *
 * Source: common practice, no source; local law decides.
 * @example 950.00 of labor, 391.90 bought, 3 % supplies, a line of 120.00: 1490.40
 */
export function agreedForecast(owners: readonly OwnedFigures[], parts: RequiredParts, papers: AgreedPapers | null): AgreedForecast {
  const { supplies, furtherMinor, options, quotedMinor, orders } = papers ?? NO_PAPERS
  const declined = options.filter(({ isChosen }) => !isChosen)
  const place = placer(owners, parts, options)
  const [labor, logged, estimated, bought] = [place(({ forecastSellMinor }) => forecastSellMinor), place(({ loggedSellMinor }) => loggedSellMinor), place(({ estimatedSellMinor }) => estimatedSellMinor), place(({ boughtSellMinor }) => boughtSellMinor)]
  const unspent = declined.length === 0 ? [] : place(({ remainingCostMinor, boughtCostMinor }) => remainingCostMinor + boughtCostMinor)
  const besideMinor = besideEstimate(quotedMinor, orders, addExactly([sum(estimated), sum(bought)]))
  const isIn = ({ option }: PlacedPrice): boolean => !declined.some(({ number }) => number === option)
  const leftOut = declined.map(({ number, name }): LeftOut => {
    const own = (prices: readonly PlacedPrice[]): number => sum(prices.filter(({ option }) => option === number))
    return { number, name, sellMinor: own(labor) + own(bought), loggedSellMinor: own(logged), costMinor: own(unspent) }
  }).filter(({ sellMinor, loggedSellMinor, costMinor }) => sellMinor !== 0 || loggedSellMinor !== 0 || costMinor !== 0)
  const suppliesOn = (prices: readonly PlacedPrice[]): number => (supplies === null ? 0 : suppliesOf(sum(prices.filter(({ option }) => option === null)), supplies))
  const total = (prices: readonly PlacedPrice[]): number => addExactly([sum([...prices, ...bought].filter(isIn)), suppliesOn(prices), furtherMinor, besideMinor])
  const forecastMinor = total(labor)
  return {
    forecastMinor, reachedMinor: total(logged), leftOut,
    things: [
      ...thingsOf(owners, parts, estimated.filter(isIn), labor.filter(isIn)),
      ...(supplies === null ? [] : [{ label: 'Shop supplies', taxedAs: 'material' as const, estimatedMinor: suppliesOn(estimated), forecastMinor: suppliesOn(labor) }]),
    ],
    working: {
      title: 'Forecast at completion, without tax',
      inputs: [
        money('Labor at completion', 'hours logged and remaining, at the departments’ prices', sum(labor)), money('Equipment, material and single-use parts', 'bill of materials', sum(bought)),
        ...(supplies === null ? [] : [money('Shop supplies', 'on that labor outside options, by the rule of the accepted quote', suppliesOn(labor))]),
        ...(papers === null ? [] : [money('Further lines', 'as they stand on the accepted quote', furtherMinor)]),
        ...(besideMinor === 0 ? [] : [money('Accepted change orders', 'what of them the estimate does not hold yet', besideMinor)]),
        ...leftOut.map(({ number, name, sellMinor }) => money(`Option ${number}, ${name}: said no to`, 'left out', -sellMinor)),
      ],
      result: { kind: 'money', value: forecastMinor }, formula: 'labor + what is bought + shop supplies + further lines − what was said no to',
      assumed: assumedOf(papers === null, orders.length, leftOut), source: 'common practice, no source; local law decides',
    },
  }
}

function assumedOf(isByHand: boolean, orders: number, leftOut: readonly LeftOut[]): string {
  if (isByHand) return 'What is agreed was entered by hand: only what stands in the build counts here. Waiting is not charged.'
  return [
    'Waiting is not charged.',
    ...(orders === 0 ? [] : ['What a change order brings counts at its price until the estimate has grown by as much since, and then as the estimate has it.']),
    ...(leftOut.length === 0 ? [] : ['What was said no to is not charged, hours that were logged on it included. If it is wanted after all, take it out of the option and draw up a change order.']),
  ].join(' ')
}

type Placer = (of: (figures: CostFigures) => number) => PlacedPrice[]

function placer(owners: readonly OwnedFigures[], parts: RequiredParts, options: readonly AgreedOption[]): Placer {
  const numbers = {
    parts: new Map(options.flatMap(({ number, partIds }) => partIds.map((id) => [id, number] as const))),
    equipment: new Map(options.flatMap(({ number, equipmentIds }) => equipmentIds.map((id) => [id, number] as const))),
  }
  return (of) => placePrices(owners.map(({ owner: { kind, id }, figures }) => ({
    partId: kind === 'part' ? id : null, equipmentLineId: kind === 'equipment' ? id : null, factoryPartId: kind === 'factory part' ? id : null, what: 'labor', taxCodeId: null, sellMinor: of(figures),
  })), parts, numbers)
}

/** Estimate and forecast of the things that stand in the vehicle in the end, in the order of the estimate. */
function thingsOf(owners: readonly OwnedFigures[], parts: RequiredParts, estimated: readonly PlacedPrice[], forecast: readonly PlacedPrice[]): Overrunning[] {
  const keyOf = ({ partId, equipmentLineId, factoryPartId }: PlacedPrice): string => partId ?? equipmentLineId ?? factoryPartId ?? ''
  const labels = new Map([...owners.map(({ owner }) => [owner.id ?? '', owner.label] as const), ...[...parts.values()].map(({ part }) => [part.id, `${part.number} ${part.name}`] as const)])
  const of = (prices: readonly PlacedPrice[], key: string): number => sum(prices.filter((price) => keyOf(price) === key))
  return [...new Set([...estimated, ...forecast].map(keyOf))].map((key) => ({ label: labels.get(key) ?? '', estimatedMinor: of(estimated, key), forecastMinor: of(forecast, key) }))
}

const sum = (prices: readonly PlacedPrice[]): number => addExactly(prices.map(({ sellMinor }) => sellMinor))
const money = (label: string, source: string, value: number): WorkingInput => ({ label, source, amount: { kind: 'money', value } })
