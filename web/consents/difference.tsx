import { Frame } from '../shared/frame.tsx'
import { NumberCell, Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

export interface DifferenceRow {
  readonly what: string
  readonly text: string
  readonly more: string
  readonly before: string
  readonly after: string
  readonly by: string
}

export interface DifferenceData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly from: string
  readonly currency: string
  readonly lines: readonly DifferenceRow[]
  readonly totals: readonly DifferenceRow[]
  /** Terms whose words differ. */
  readonly words: readonly { readonly name: string, readonly before: string, readonly after: string }[]
}

/** What two revisions say differently: lines added, taken out and changed, totals, and words. */
export function DifferencePage({ viewer, data }: { viewer: Viewer, data: DifferenceData }): JSX.Element {
  return (
    <Frame title={`${data.number} against ${data.from}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip><NumberCell label="Revision" number={data.number} /><TitleCell label={`Against ${data.from}`} title="What changed" /><TextCell label="Amounts" width="w2" text={data.currency} /></Strip>
      <section class="block" aria-labelledby="lines">
        <h2 id="lines">Lines</h2>
        {data.lines.length === 0 ? <p>No line differs.</p> : <Rows rows={data.lines} data={data} caption="Lines that differ" />}
      </section>
      <section class="block" aria-labelledby="totals"><h2 id="totals">Totals, without options</h2><Rows rows={data.totals} data={data} caption="Totals" /></section>
      {data.words.length === 0 ? '' : (
        <section class="block" aria-labelledby="words">
          <h2 id="words">Words</h2>
          <Table columns={[{ name: 'What' }, { name: data.from }, { name: data.number }]} caption="Words that differ">
            {data.words.map(({ name, before, after }) => <tr><th scope="row" safe>{name}</th><WordCell is="before" text={before} /><WordCell is="now" text={after} /></tr>)}
          </Table>
        </section>
      )}
    </Frame>
  )
}

function Rows({ rows, data, caption }: { rows: readonly DifferenceRow[], data: DifferenceData, caption: string }): JSX.Element {
  return (
    <Table class="money" columns={[{ name: 'What' }, { name: 'How it differs' }, { name: data.from, isFigure: true }, { name: data.number, isFigure: true }, { name: 'By', isFigure: true }]} caption={caption}>
      {rows.map(({ what, text, more, before, after, by }) => (
        <tr>
          <th scope="row"><span safe>{text}</span>{more === '' ? '' : <small class="quiet" safe>{` ${more}`}</small>}</th>
          <WordCell is="how it differs" text={what} />
          <FigureCell is="before" text={before} how="recorded" /><FigureCell is="now" text={after} how="recorded" /><FigureCell is="by" text={by} how="recorded" />
        </tr>
      ))}
    </Table>
  )
}
