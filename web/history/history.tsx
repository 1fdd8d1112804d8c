import { at } from '../shared/asset.ts'
import { RowFigure } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Cell, Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import { counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

interface Figure {
  readonly text: string
  readonly how: string
}

export interface HistoryRow extends Record<'kind' | 'department' | 'how' | 'ratio' | 'records' | 'low' | 'high' | 'rework' | 'worth', string> {}

export interface HistoryData {
  readonly records: number
  readonly builds: number
  readonly shop: Figure | null
  readonly rows: readonly HistoryRow[]
  readonly measures: readonly { readonly how: string, readonly name: string, readonly text: string }[]
  /** What so few builds are worth, in words. */
  readonly worth: string
  readonly together: { readonly set: string, readonly found: Figure | null }
  readonly leftOut: string
}

/** How hours run beside their estimates, by operation kind and department, and how well the estimates held. */
export function HistoryPage({ viewer, data }: { viewer: Viewer, data: HistoryData }): JSX.Element {
  return (
    <Frame title="How our hours run" place="builds" viewer={viewer}>
      <Strip>
        <TitleCell label="Shop" title="How our hours run" />
        <TextCell label="Learned from" width="w4" text={counted(data.records, 'closed operation', 'closed operations')} more={counted(data.builds, 'build', 'builds')} />
        {data.shop === null ? '' : <Cell label="The shop as a whole" width="w3"><RowFigure text={data.shop.text} how={data.shop.how} /> × the estimate</Cell>}
      </Strip>
      {data.rows.length === 0 ? <Nothing /> : <Ratios data={data} />}
      {data.measures.length === 0 ? '' : <Coverage data={data} />}
      {data.leftOut === '' ? '' : <section class="block"><p safe>{data.leftOut}</p></section>}
    </Frame>
  )
}

function Nothing(): JSX.Element {
  return (
    <section class="block" aria-label="Nothing learned yet">
      <p>No operation is done yet that has an estimate and hours. For example: sanding a corner box, estimated 2.0 h, logged 2.6 h, done.</p>
      <p>Each such operation is one record here. A manager then decides, build by build, whether the estimate follows.</p>
    </section>
  )
}

function Ratios({ data }: { data: HistoryData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="ratios">
      <h2 id="ratios">Hours logged, as a multiple of the estimate</h2>
      <Table columns={[{ name: 'Operation' }, { name: 'Department' }, { name: 'Runs at', isFigure: true }, { name: 'Records', isFigure: true }, { name: 'From', isFigure: true }, { name: 'To', isFigure: true }, { name: 'Rework', isFigure: true }]} caption="Ratios by operation kind and department">
        {data.rows.map((row) => (
          <tr>
            <th scope="row"><span safe>{row.kind}</span>{row.worth === '' ? '' : <span class="sub" safe>{row.worth}</span>}</th>
            <WordCell is="department" text={row.department} />
            <FigureCell is="runs at" text={`${row.ratio} ×`} how={row.how} />
            <FigureCell is="records" text={row.records} how={`${row.how}n`} />
            <FigureCell is="from" text={row.low} how={`${row.how}l`} />
            <FigureCell is="to" text={row.high} how={`${row.how}h`} />
            <FigureCell is="rework" text={row.rework} how={`${row.how}w`} />
          </tr>
        ))}
      </Table>
      <p>1.3 × means that work took 1.3 times its estimate. The fewer records a kind has, the nearer its ratio stands to the shop’s. 80 of 100 such ratios lie between From and To. Rework stands apart, as a share of the work.</p>
      <p class="quiet">Nothing here changes an estimate. On a build, under <strong>What our hours say</strong>, a manager accepts a ratio or leaves it.</p>
    </section>
  )
}

function Coverage({ data }: { data: HistoryData }): JSX.Element {
  const { set, found } = data.together
  return (
    <section class="block" aria-labelledby="held">
      <h2 id="held">How well it would have held</h2>
      <Table columns={[{ name: 'What' }, { name: 'Ended inside', isFigure: true }]} caption="How many ended inside">
        {data.measures.map(({ how, name, text }) => (
          <tr><th scope="row" safe>{name}</th><FigureCell is="inside" text={text} how={how} /></tr>
        ))}
      </Table>
      {data.worth === '' ? '' : <p safe>{data.worth}</p>}
      <p>Each delivered build is foretold from all the others and then compared with what it took. One that ends exactly on the value counts as inside. Far more than 80 inside means that the hours are quoted wider than need be, far fewer that they are hoped for.</p>
      <p>
        <span safe>{`The shop has set that things go wrong together in ${set} of 100.`}</span>{' '}
        {found === null ? 'There are too few builds to tell how far they really did.' : <>Its own builds say <RowFigure text={`${found.text} %`} how={found.how} />. <a class="link" href={at('/shop/shop')}>To the shop settings</a></>}
      </p>
    </section>
  )
}
