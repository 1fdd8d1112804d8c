import type { Working } from '../../server/calc/amounts.ts'
import { at } from '../shared/asset.ts'
import { Explained } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Cell, NumberCell, Strip, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { counted, escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import { EstimateTable } from './estimateTable.tsx'
import type { EstimateLine } from './estimateTable.tsx'

export type { EstimateLine, LineMoney, LineHours } from './estimateTable.tsx'

/** How the page is cut: a large build does not fit on one. */
export type EstimateBy = 'zone' | 'part' | 'equipment'

export interface EstimateData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly title: string
  readonly hours: Readonly<Record<'estimate' | 'withoutRework' | 'rework' | 'elapsed' | 'logged' | 'remaining' | 'forecast', Working>> & {
    /** Left out where nobody is unsure of anything. */
    readonly giveOrTake?: Working | undefined
  }
  /** What service visits took, in none of the figures here; left out where there is none. */
  readonly afterDelivery?: { readonly hours: Working, readonly cost?: Working | undefined } | undefined
  /** Left out for those who see no money; then no line shows any. */
  readonly money?: {
    readonly laborCost: Working
    readonly laborPrice: Working
    /** Labor at completion. */
    readonly forecastCost: Working
    readonly laborMargin: Working
    /** Labor and what is bought. */
    readonly price: Working
    readonly cost: Working
    readonly margin: Working
    readonly earningRule: string
    /** Cost of labor when finished by earned value; left out before anything is earned, when it is not defined. */
    readonly earned?: Working | undefined
    /** What the customer's consent leaves; left out where no limit was agreed. */
    readonly consentLeft?: Working | undefined
  } | undefined
  /** One sentence before the consent is reached, or empty. */
  readonly alarm: string
  /** Operations over their estimate or nearly, while something can still be done. */
  readonly runningOver: readonly { readonly name: string, readonly words: string, readonly href: string }[]
  readonly by: EstimateBy
  /** The tables of this cut. */
  readonly sides: readonly { readonly name: string, readonly of: string, readonly how: string, readonly note?: string, readonly lines: readonly EstimateLine[] }[]
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
      {data.by === 'zone' ? <EstimateStrip viewer={viewer} data={data} /> : <Strip><NumberCell label="Build" number={data.number} /><TitleCell label={data.title} title="Estimate and costing" /></Strip>}
      {data.alarm === '' ? '' : <section class="block"><p><Mark name="point" />{' '}<strong safe>{data.alarm}</strong></p></section>}
      {data.by === 'zone' ? <RunningOver operations={data.runningOver} /> : ''}
      <Cuts data={data} />
      {data.sides.map((side) => <EstimateTable {...side} showsMoney={showsMoney} reader={viewer} />)}
      <section class="block">
        {data.notes.map((note) => <p safe>{note}</p>)}
        <p class="quiet">Person-hours, the allowance for rework in the estimate. Remaining is the technician’s own figure where there is one, else estimate less logged, never below 0, and 0 when done.</p>
        {showsMoney ? <p><a class="link" href={at(`${data.ledgerHref}/history`)}>What our hours say</a>{' '}<a class="link" href={at(`${data.ledgerHref}/spread`)}>What it may take</a>{' '}<a class="link" href={at(`${data.ledgerHref}/after`)}>After the build</a>{' '}<a class="link" href={at(`${data.ledgerHref}/what-if`)}>What if</a>{' '}<a class="link" href={at(`${data.ledgerHref}/hours.csv`)}>Hours as CSV</a></p> : ''}
        <p><a href={at(data.ledgerHref)}>Back to the ledger</a></p>
      </section>
    </Frame>
  )
}

const CUTS: readonly (readonly [by: EstimateBy, name: string])[] = [
  ['zone', 'By zone and department'], ['part', 'By made part'], ['equipment', 'By equipment and factory part'],
]

function Cuts({ data }: { data: EstimateData }): JSX.Element {
  const address = `${data.ledgerHref}/estimate`
  return (
    <nav class="cut" aria-label="Estimate">
      {CUTS.map(([by, name]) => <a href={at(by === 'zone' ? address : `${address}?by=${by}`)} aria-current={by === data.by ? 'true' : false} safe>{name}</a>)}
    </nav>
  )
}

function EstimateStrip({ viewer, data: { number, title, hours, money, afterDelivery, ledgerHref } }: { viewer: Viewer, data: EstimateData }): JSX.Element {
  return (
    <Strip>
      <NumberCell label="Build" number={number} />
      <TitleCell label={title} title="Estimate and costing" />
      <Turn />
      <Cell label="Without rework" width="w2"><Explained working={hours.withoutRework} reader={viewer} /></Cell>
      <Cell label="Allowed for rework" width="w2"><Explained working={hours.rework} reader={viewer} /></Cell>
      <Cell label="Estimate, with rework" width="w2"><Explained working={hours.estimate} reader={viewer} /></Cell>
      {hours.giveOrTake === undefined ? '' : <Cell label={`Give or take, ${counted(hours.giveOrTake.inputs.length, 'unsure operation', 'unsure operations')}`} width="w2"><Explained working={hours.giveOrTake} reader={viewer} /><a class="sub" href={at(`${ledgerHref}/spread`)}>What it may take</a></Cell>}
      <Cell label="Elapsed, one crew at a time" width="w2"><Explained working={hours.elapsed} reader={viewer} /></Cell>
      <Turn />
      <Cell label="Logged" width="w2"><Explained working={hours.logged} reader={viewer} byHand /></Cell>
      <Cell label="Remaining" width="w2"><Explained working={hours.remaining} reader={viewer} /></Cell>
      <Cell label="Forecast" width="w2"><Explained working={hours.forecast} reader={viewer} /></Cell>
      {afterDelivery === undefined ? '' : (
        <>
          <Cell label="After delivery, not in the build" width="w2"><Explained working={afterDelivery.hours} reader={viewer} byHand /></Cell>
          {afterDelivery.cost === undefined ? '' : <Cell label="Cost after delivery" width="w2"><Explained working={afterDelivery.cost} reader={viewer} /></Cell>}
        </>
      )}
      {money === undefined ? '' : <MoneyCells money={money} viewer={viewer} />}
    </Strip>
  )
}

function MoneyCells({ money, viewer }: { money: NonNullable<EstimateData['money']>, viewer: Viewer }): JSX.Element {
  return (
    <>
      <Turn />
      <Cell label="Labor, cost as estimated" width="w2"><Explained working={money.laborCost} reader={viewer} /></Cell>
      <Cell label="Labor, price" width="w2"><Explained working={money.laborPrice} reader={viewer} /></Cell>
      <Cell label="Labor, cost when finished" width="w2"><Explained working={money.forecastCost} reader={viewer} /></Cell>
      <Cell label="Margin on labor" width="w2"><Explained working={money.laborMargin} reader={viewer} /></Cell>
      <Cell label="Labor, cost when finished by what is done" width="w3">
        {money.earned === undefined ? <span class="quiet">not defined: nothing is earned yet, by the rule “{escapeHtml(money.earningRule)}”</span> : <Explained working={money.earned} reader={viewer} />}
      </Cell>
      <Turn />
      <Cell label="Price, labor and bought" width="w2"><Explained working={money.price} reader={viewer} /></Cell>
      <Cell label="Cost when finished" width="w2"><Explained working={money.cost} reader={viewer} /></Cell>
      <Cell label="Margin of the build" width="w2"><Explained working={money.margin} reader={viewer} /></Cell>
      {money.consentLeft === undefined ? '' : <Cell label="Left of consent" width="w2"><Explained working={money.consentLeft} reader={viewer} /><span class="sub">after the price at completion, as its figure says</span></Cell>}
    </>
  )
}

function RunningOver({ operations }: { operations: EstimateData['runningOver'] }): JSX.Element {
  if (operations.length === 0) return ''
  return (
    <section class="block">
      <h2>Over the estimate, or nearly</h2>
      <ul class="plainlist">{operations.map(({ name, words, href }) => <li><Mark name="point" />{' '}<a href={at(href)} safe>{name}</a>: <span safe>{words}</span></li>)}</ul>
    </section>
  )
}
