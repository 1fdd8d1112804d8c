import { writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { Cautions } from '../shared/caution.tsx'
import type { CautionProps } from '../shared/caution.tsx'
import { RowFigure } from '../shared/figure.tsx'
import type { How } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import type { MarkName } from '../shared/marks.tsx'
import { Saved } from '../shared/saved.tsx'
import type { SavedProps } from '../shared/saved.tsx'
import { Cell, NumberCell, Strip, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import type { NamedLink } from '../builds/ledgerData.ts'
import type { Viewer } from '../shared/viewer.ts'
import { counted, escapeProse } from '../shared/text.ts'
import { EarlierOrdersBlock } from './earlierOrders.tsx'
import type { EarlierOrders } from './earlierOrders.tsx'
import { NextOut } from './nextOut.tsx'
import type { ReadyPart } from './nextOut.tsx'
import { OrderSection } from './orderList.tsx'
import type { OrderGraph, OrderStep } from './orderList.tsx'
import { OrderRules } from './orderRules.tsx'
import type { OrderRulesData } from './orderRules.tsx'
import { StandsQuestions } from './standsQuestions.tsx'
import type { StandsQuestionData } from './standsQuestions.tsx'
import { Ways } from './waysTable.tsx'
import type { WaysTable } from './waysTable.tsx'

export type { OrderGraph, OrderStep, ReadyPart }

export interface RemovalData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  /** As "Cab vent", or the title of the build for all that comes out. */
  readonly title: string
  /** As "what must come out before". */
  readonly question: string
  readonly cautions: readonly CautionProps[]
  /** Nothing stands in front of these any more. */
  readonly ready: readonly ReadyPart[]
  readonly asFound: OrderGraph
  readonly asBuilt: OrderGraph
  /** In words, as "E-08 now stands in front of F-050". */
  readonly differences: readonly string[]
  /** Alterations without consent, parts that lie nobody knows where; in sentences. */
  readonly open?: readonly string[]
  readonly zones?: readonly (NamedLink & { readonly isCurrent: boolean })[]
  readonly others: readonly NamedLink[]
  /** Of which part, as in the address of the page; empty for all that comes out. */
  readonly address: string
  /** Where nothing is recorded yet. */
  readonly earlier?: EarlierOrders | undefined
  /** Asked of those who may answer. */
  readonly questions?: readonly StandsQuestionData[]
  readonly ways?: readonly WaysTable[]
  readonly rules?: OrderRulesData | undefined
  readonly restoreHref?: string | undefined
  /** Where it is put down with a photo and a bin, for those who may. */
  readonly teardownHref?: string | undefined
  readonly saved?: SavedProps | undefined
}

/** What stands in front of what: what can come out next, and both orders side by side. */
export function RemovalPage({ viewer, data }: { viewer: Viewer, data: RemovalData }): JSX.Element {
  return (
    <Frame title={`Order of removal: ${data.title}`} place="builds" viewer={viewer}>
      {data.saved === undefined ? '' : <Saved {...data.saved} />}
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Of" number={data.number} />
        <TitleCell label={data.question} title={data.title} />
        <GraphCell label="As found" graph={data.asFound} how="found" on={data.address} />
        <GraphCell label="As built" graph={data.asBuilt} how="built" on={data.address} />
        <Turn />
        <Cell label="Look at another" width="w7">
          <div class="row">
            {data.others.map(({ name, href }) => <a href={at(href)} safe>{name}</a>)}
            {data.teardownHref === undefined ? '' : <a href={at(data.teardownHref)}>Teardown on the phone</a>}
            {data.restoreHref === undefined ? '' : <a href={at(data.restoreHref)}>Restore from here</a>}
          </div>
        </Cell>
        <Zones zones={data.zones ?? []} />
      </Strip>
      <Cautions cautions={data.cautions} />
      <Open points={data.open ?? []} />
      <NextOut ready={data.ready} csrfToken={viewer.csrfToken} />
      {data.earlier === undefined ? '' : <EarlierOrdersBlock earlier={data.earlier} />}
      <StandsQuestions questions={data.questions ?? []} csrfToken={viewer.csrfToken} />
      <OrderSection name="As built" explained="The order as the vehicle stands now, with what is installed in it." graph={data.asBuilt}>{''}</OrderSection>
      <OrderSection name="As found" explained="The order a teardown of the unaltered vehicle needs." graph={data.asFound}>
        <Differences differences={data.differences} />
      </OrderSection>
      <Ways tables={data.ways ?? []} on={data.address} />
      {data.rules === undefined ? '' : <OrderRules data={data.rules} csrfToken={viewer.csrfToken} />}
    </Frame>
  )
}

function Zones({ zones }: { zones: NonNullable<RemovalData['zones']> }): JSX.Element {
  if (zones.length === 0) return ''
  return (
    <Cell label="By zone" width="w7">
      <div class="row">{zones.map(({ name, href, isCurrent }) => <a href={at(href)} aria-current={isCurrent ? 'page' : false} safe>{name}</a>)}</div>
    </Cell>
  )
}

/** What has to be settled before the vehicle can go back. */
function Open({ points }: { points: readonly string[] }): JSX.Element {
  if (points.length === 0) return ''
  return (
    <section class="block">
      <h2>Not settled</h2>
      <ul class="plainlist">{points.map((point) => <Sentence text={point} mark="point" />)}</ul>
    </section>
  )
}

function GraphCell({ label, graph, how, on }: { label: string, graph: OrderGraph, how: How, on: string }): JSX.Element {
  if (graph.refused !== undefined) return <Cell label={label} width="w3"><strong>no order possible</strong></Cell>
  return (
    <Cell label={label} width="w3">
      <span safe>{counted(graph.steps.length, 'thing', 'things')}</span>{' · '}<RowFigure text={`${writeHours(graph.seconds)} h`} how={how} on={on} /> to take out
    </Cell>
  )
}

function Differences({ differences }: { differences: readonly string[] }): JSX.Element {
  return (
    <section>
      <h3 class="heading">What differs as built</h3>
      {differences.length === 0 ? <p>Nothing: both orders are the same.</p> : <ul>{differences.map((difference) => <Sentence text={difference} />)}</ul>}
    </section>
  )
}

/** Free text in which numbers of things do not break. */
function Sentence({ text, mark }: { text: string, mark?: MarkName }): JSX.Element {
  const safeText = escapeProse(text)
  return <li>{mark === undefined ? '' : <><Mark name={mark} />{' '}</>}{safeText}</li>
}
