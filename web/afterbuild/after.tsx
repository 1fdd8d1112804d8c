import type { Working } from '../../server/calc/amounts.ts'
import { at } from '../shared/asset.ts'
import { Explained } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Cell, Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { FigureCell, Table } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'
import { SideTable, type Side } from './sides.tsx'

export const PERSON_NEUTRAL = 'Nobody is named here. A department in which one person alone has worked is told together with others, so that no figure is a person’s; kinds of operation are told of the work, whoever did it.'

export interface AfterBuildData {
  readonly build: string
  readonly buildHref: string
  readonly isDelivered: boolean
  readonly money: readonly { readonly label: string, readonly working: Working }[]
  readonly sides: readonly Side[]
  readonly notes: readonly string[]
}

/** Estimate against hours of one build, its margin, and where rework came from. */
export function AfterBuildPage({ viewer, data }: { viewer: Viewer, data: AfterBuildData }): JSX.Element {
  return (
    <Frame title={`After the build, ${data.build}`} place="builds" viewer={viewer}>
      <Trail steps={[{ name: data.build, href: data.buildHref }, { name: 'Estimate', href: `${data.buildHref}/estimate` }, { name: 'After the build' }]} />
      <Strip>
        <TitleCell label={data.build} title="After the build" />
        {data.isDelivered ? '' : <TextCell label="State" width="w4" text="not delivered yet" more="hours so far" />}
        {data.money.map(({ label, working }) => <Cell label={label} width="w2"><Explained working={working} reader={viewer} /></Cell>)}
      </Strip>
      {data.sides.map((side, index) => <SideTable side={side} id={`side-${index}`} />)}
      <section class="block">
        {data.notes.map((note) => <p safe>{note}</p>)}
        <p class="quiet">{PERSON_NEUTRAL}</p>
        <p><a class="link" href={at(`${data.buildHref}/after/hours.csv`)}>Hours as CSV</a>{' '}<a class="link" href={at('/after')}>All closed builds</a>{' '}<a class="link" href={at('/history')}>How our hours run</a></p>
      </section>
    </Frame>
  )
}

interface BuildLine extends Record<'name' | 'href' | 'basis' | 'estimated' | 'estimate' | 'took' | 'over' | 'rework' | 'price' | 'cost' | 'margin' | 'share', string> {}

export interface AfterAllData {
  readonly count: number
  /** The newest of them. */
  readonly builds: readonly BuildLine[]
  readonly whole: { readonly estimate: string, readonly took: string, readonly over: string, readonly rework: string, readonly estimated: string, readonly price: string, readonly cost: string, readonly margin: string, readonly share: string }
  readonly sides: readonly Side[]
  /** What so few builds are worth, in words; empty where they are many. */
  readonly worth: string
  readonly notes: readonly string[]
}

const COLUMNS = [
  { name: 'Build' }, { name: 'Est. h', isFigure: true }, { name: 'Logged', isFigure: true }, { name: 'Over', isFigure: true }, { name: 'Rework', isFigure: true },
  { name: 'Est. price', isFigure: true }, { name: 'Price', isFigure: true }, { name: 'Cost', isFigure: true }, { name: 'Margin', isFigure: true }, { name: 'Of the price', isFigure: true },
]

/** The same over all closed builds. */
export function AfterAllPage({ viewer, data }: { viewer: Viewer, data: AfterAllData }): JSX.Element {
  return (
    <Frame title="After the builds" place="builds" viewer={viewer}>
      <Strip><TitleCell label="Shop" title="After the builds" /><TextCell label="Closed builds" width="w4" text={String(data.count)} /></Strip>
      {data.builds.length === 0 ? (
        <section class="block" aria-label="No closed build"><p>No build is delivered yet. The first one that is stands here, with its estimate beside what it took. For example: 22.0 h estimated, 25.5 h logged.</p></section>
      ) : <Builds data={data} />}
      {data.sides.map((side, index) => <SideTable side={side} id={`side-${index}`} />)}
      <section class="block">
        {data.notes.map((note) => <p safe>{note}</p>)}
        <p class="quiet">{PERSON_NEUTRAL}</p>
        <p><a class="link" href={at('/after/hours.csv')}>Hours as CSV</a>{' '}<a class="link" href={at('/history')}>How our hours run</a></p>
      </section>
    </Frame>
  )
}

function Builds({ data: { builds, whole, worth, count } }: { data: AfterAllData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="builds">
      <h2 id="builds">By build</h2>
      {worth === '' ? '' : <p safe>{worth}</p>}
      <Table columns={COLUMNS} caption="Closed builds: hours and money">
        {builds.map(({ name, href, basis, ...line }) => <tr><th scope="row"><a href={at(href)} safe>{name}</a><span class="sub" safe>{basis}</span></th><Figures line={line} of={href} money={{ estimated: 'me', price: 'mp', cost: 'mc', margin: 'mm', share: 'ms' }} /></tr>)}
        <tr class="total"><th scope="row">{count > builds.length ? `All ${count}, earlier ones too` : 'All of them'}</th><Figures line={whole} of={undefined} money={{ estimated: 'tq', price: 'tp', cost: 'tc', margin: 'tm', share: 'ts' }} /></tr>
      </Table>
    </section>
  )
}

interface FiguresProps {
  readonly line: AfterAllData['whole']
  readonly of: string | undefined
  readonly money: Readonly<Record<'estimated' | 'price' | 'cost' | 'margin' | 'share', string>>
}

function Figures({ line, of, money }: FiguresProps): JSX.Element {
  return (
    <>
      <FigureCell is="estimate" text={line.estimate} how="te" of={of} />
      <FigureCell is="logged" text={line.took} byHand how="tl" of={of} />
      <FigureCell is="over" text={line.over} how="td" of={of} />
      <FigureCell is="rework" text={line.rework} byHand how="tr" of={of} />
      <FigureCell is="price of the estimate" text={line.estimated} how={money.estimated} of={of} />
      <FigureCell is="price" text={line.price} how={money.price} of={of} />
      <FigureCell is="cost" text={line.cost} how={money.cost} of={of} />
      <FigureCell is="margin" text={line.margin} how={money.margin} of={of} />
      <FigureCell is="of the price" text={line.share} how={money.share} of={of} />
    </>
  )
}
