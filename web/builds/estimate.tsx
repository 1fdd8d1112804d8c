import type { Working } from '../../server/calc/amounts.ts'
import { at } from '../shared/asset.ts'
import { Explained } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Cell, NumberCell, Strip, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import type { Viewer } from '../shared/viewer.ts'
import { EstimateTable } from './estimateTable.tsx'
import type { EstimateLine } from './estimateTable.tsx'

export type { EstimateLine, LineMoney, LineHours } from './estimateTable.tsx'

export interface EstimateData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly title: string
  readonly hours: { readonly estimate: Working, readonly logged: Working, readonly remaining: Working, readonly forecast: Working }
  /** What service visits took, in none of the figures here; left out where there is none. */
  readonly afterDelivery?: { readonly hours: Working, readonly cost?: Working | undefined } | undefined
  /** Left out for those who see no money; then no line shows any. */
  readonly money?: {
    readonly laborCost: Working
    readonly laborPrice: Working
    readonly margin: Working
    /** Costs at completion. */
    readonly forecastCost: Working
    /** Cost when finished by earned value; left out before anything is earned. */
    readonly earned?: Working | undefined
    /** What the customer's consent leaves; left out where no limit was agreed. */
    readonly consentLeft?: Working | undefined
  } | undefined
  /** One sentence before the consent is reached, or empty. */
  readonly alarm: string
  /** The tree of made parts, equipment and factory parts, each with all that goes into it. */
  readonly byItem: readonly EstimateLine[]
  readonly byZone: readonly EstimateLine[]
  readonly byDepartment: readonly EstimateLine[]
  /** Other hours on the build that belong to no operation, in words; empty for most. */
  readonly notes: readonly string[]
  readonly ledgerHref: string
}

/** What a build was estimated at, has taken and will come to, seen from three sides that sum to the same. */
export function EstimatePage({ viewer, data }: { viewer: Viewer, data: EstimateData }): JSX.Element {
  const showsMoney = data.money !== undefined
  return (
    <Frame title={`${data.number} Estimate and costing`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <EstimateStrip viewer={viewer} data={data} />
      {data.alarm === '' ? '' : <section class="block"><p><Mark name="point" />{' '}<strong safe>{data.alarm}</strong></p></section>}
      <EstimateTable name="By zone" of="Zone" lines={data.byZone} showsMoney={showsMoney} reader={viewer} />
      <EstimateTable name="By department" of="Department" lines={data.byDepartment} showsMoney={showsMoney} reader={viewer} />
      <EstimateTable name="By part, equipment and factory part" of="Item" lines={data.byItem} showsMoney={showsMoney} reader={viewer}
        note="An assembly counts what goes into it; only the outermost lines are summed." />
      <section class="block">
        {data.notes.map((note) => <p safe>{note}</p>)}
        <p class="quiet">Person-hours. Remaining is the technician’s own figure where there is one, else estimate less logged, never below 0, and 0 when done.</p>
        <p><a href={at(data.ledgerHref)}>Back to the ledger</a></p>
      </section>
    </Frame>
  )
}

function EstimateStrip({ viewer, data: { number, title, hours, money, afterDelivery } }: { viewer: Viewer, data: EstimateData }): JSX.Element {
  return (
    <Strip>
      <NumberCell label="Build" number={number} />
      <TitleCell label={title} title="Estimate and costing" />
      <Turn />
      <Cell label="Estimate" width="w2"><Explained working={hours.estimate} reader={viewer} /></Cell>
      <Cell label="Logged" width="w2"><Explained working={hours.logged} reader={viewer} byHand /></Cell>
      <Cell label="Remaining" width="w2"><Explained working={hours.remaining} reader={viewer} /></Cell>
      <Cell label="Forecast" width="w2"><Explained working={hours.forecast} reader={viewer} /></Cell>
      {afterDelivery === undefined ? '' : (
        <>
          <Cell label="After delivery, not in the build" width="w2"><Explained working={afterDelivery.hours} reader={viewer} byHand /></Cell>
          {afterDelivery.cost === undefined ? '' : <Cell label="Cost after delivery" width="w2"><Explained working={afterDelivery.cost} reader={viewer} /></Cell>}
        </>
      )}
      {money === undefined ? '' : (
        <>
          <Turn />
          <Cell label="Labor, cost" width="w2"><Explained working={money.laborCost} reader={viewer} /></Cell>
          <Cell label="Labor, price" width="w2"><Explained working={money.laborPrice} reader={viewer} /></Cell>
          <Cell label="Cost when finished" width="w2"><Explained working={money.forecastCost} reader={viewer} /></Cell>
          <Cell label="Margin" width="w2"><Explained working={money.margin} reader={viewer} /></Cell>
          {money.earned === undefined ? '' : <Cell label="Cost when finished, by what is done" width="w2"><Explained working={money.earned} reader={viewer} /></Cell>}
          {money.consentLeft === undefined ? '' : <Cell label="Left of consent" width="w2"><Explained working={money.consentLeft} reader={viewer} /></Cell>}
        </>
      )}
    </Strip>
  )
}
