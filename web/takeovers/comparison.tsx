import type { Working } from '../../server/calc/amounts.ts'
import { writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { Explained, RowFigure } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Saved } from '../shared/saved.tsx'
import { Cell, Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { FigureCell, Table } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import type { HoursThere } from './previewData.ts'

interface NamedLink {
  readonly name: string
  readonly href: string
}

export interface HoursBeside {
  readonly there: HoursThere | null
  readonly here: HoursThere | null
}

export interface ComparedRow {
  readonly there: { readonly name: string } | null
  readonly here: NamedLink | null
  /** In words; empty where both are alike. */
  readonly differences: string
  readonly hours?: HoursBeside
}

interface Totals {
  readonly estimate: Working
  readonly loggedS: number
}

export interface ComparisonData {
  readonly build: NamedLink
  readonly source: NamedLink
  readonly others: readonly NamedLink[]
  readonly isSaved: boolean
  readonly templatesHref: string
  readonly totals: { readonly there: Totals, readonly here: Totals }
  /** Back to all, where only the operations of a zone are shown. */
  readonly wholeHref?: string | undefined
  readonly parts: readonly ComparedRow[]
  readonly lines: readonly ComparedRow[]
  readonly factoryParts: readonly ComparedRow[]
  /** Where there are many operations, one zone at a time. */
  readonly zones: readonly (NamedLink & { readonly isChosen: boolean })[]
  readonly operations: readonly ComparedRow[]
}

/** A build beside the earlier one it was taken from: what is alike, what differs, and the hours of both. */
export function ComparisonPage({ viewer, data }: { viewer: Viewer, data: ComparisonData }): JSX.Element {
  return (
    <Frame title={`${data.build.name} beside ${data.source.name}`} place="builds" viewer={viewer}>
      {data.isSaved ? <Saved what={`copied from ${data.source.name}`} csrfToken={viewer.csrfToken} next={{ href: data.build.href, name: 'Open the build' }} /> : ''}
      <Trail steps={[data.build, { name: 'Comparison' }]} />
      <Strip>
        <TitleCell label="Comparison" title={`Beside ${data.source.name}`} />
        <TextCell label="Here" text={data.build.name} />
        <Cell label="Estimate here"><Explained working={data.totals.here.estimate} reader={viewer} /></Cell>
        <Cell label="Estimate there"><Explained working={data.totals.there.estimate} reader={viewer} /></Cell>
        <Cell label="Logged here, there">
          <span class="figure"><RowFigure text={`${writeHours(data.totals.here.loggedS)} h`} how="l" of={data.build.href} byHand /></span>, <span class="figure"><RowFigure text={`${writeHours(data.totals.there.loggedS)} h`} how="l" of={data.source.href} byHand /></span>
        </Cell>
        <Cell label="Elsewhere">
          {data.wholeHref === undefined ? '' : <><a href={at(data.wholeHref)}>Parts, equipment and factory parts</a> · </>}
          <a href={at(data.source.href)}>That build</a> · <a href={at(data.templatesHref)}>Copy more</a>
          {data.others.map(({ name, href }) => <> · <a href={at(href)} safe>{`Beside ${name}`}</a></>)}
        </Cell>
      </Strip>
      <Compared name="Made parts" rows={data.parts} />
      <Compared name="Equipment" rows={data.lines} />
      <Compared name="Factory parts" rows={data.factoryParts} />
      <section class="block" id="operations">
        <h2>Operations</h2>
        {data.zones.length === 0 ? '' : <p class="quiet">One zone at a time:</p>}
        {data.zones.length === 0 ? '' : <ul class="plainlist">{data.zones.map(({ name, href, isChosen }) => <li><a class="link" href={at(href)} aria-current={isChosen ? 'true' : false} safe>{name}</a></li>)}</ul>}
        {data.operations.length === 0 ? <p class="quiet">{data.zones.length === 0 ? 'None.' : 'Choose a zone.'}</p> : <Rows name="Operations" rows={data.operations} />}
      </section>
    </Frame>
  )
}

function Compared({ name, rows }: { name: string, rows: readonly ComparedRow[] }): JSX.Element {
  if (rows.length === 0) return ''
  const differing = rows.filter(({ differences }) => differences !== '').length
  return (
    <section class="block">
      <h2 safe>{name}</h2>
      <p class="quiet" safe>{differing === 0 ? `All ${rows.length} are as there.` : `${differing} of ${rows.length} differ.`}</p>
      <Rows name={name} rows={rows} />
    </section>
  )
}

function Rows({ name, rows }: { name: string, rows: readonly ComparedRow[] }): JSX.Element {
  const hasHours = rows.some(({ hours }) => hours?.there || hours?.here)
  const columns = [
    { name: 'There' }, { name: 'Here' }, { name: 'Differs in' },
    ...(hasHours ? ['Est. h there', 'Work there', 'Rework there', 'Est. h here', 'Work here', 'Rework here'].map((column) => ({ name: column, isFigure: true })) : []),
  ]
  return (
    <Table columns={columns} caption={name}>
      {rows.map(({ there, here, differences, hours }) => (
        <tr>
          <th scope="row">{there ? escapeHtml(there.name) : <span class="quiet">–</span>}</th>
          <td>{here ? <a href={at(here.href)} safe>{here.name}</a> : <span class="quiet">–</span>}</td>
          <td>{differences === '' ? '' : <strong class="recorded">{escapeHtml(differences)}</strong>}</td>
          {hasHours && !hours?.there && !hours?.here ? <td colspan={6}></td> : ''}
          {hasHours && (hours?.there || hours?.here) ? <><Hours where="there" hours={hours.there} /><Hours where="here" hours={hours.here} /></> : ''}
        </tr>
      ))}
    </Table>
  )
}

function Hours({ where, hours }: { where: 'there' | 'here', hours: HoursThere | null }): JSX.Element {
  const shown = (seconds = 0): string => (seconds === 0 ? '' : writeHours(seconds, 2))
  return (
    <>
      <FigureCell is={`est. ${where}`} text={shown(hours?.estimate)} how={`${hours?.how ?? ''}e`} />
      <FigureCell is={`work ${where}`} text={shown(hours?.work)} byHand how={`${hours?.how ?? ''}w`} />
      <FigureCell is={`rework ${where}`} text={shown(hours?.rework)} byHand how={`${hours?.how ?? ''}x`} />
    </>
  )
}
