import { at } from '../shared/asset.ts'
import { FirstSteps } from '../shared/empty.tsx'
import type { Place } from '../shared/frame.tsx'
import { Frame } from '../shared/frame.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import { counted, escapeHtml, withArticle } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface ListColumn {
  readonly name: string
  readonly isFigure: boolean
}

export interface ListRow {
  readonly href: string
  readonly number: string
  readonly title: string
  readonly cells: readonly string[]
}

export interface ListPageData {
  readonly place: Place
  readonly trail: readonly TrailStep[]
  readonly kindName: string
  readonly plural: string
  readonly columns: readonly ListColumn[]
  readonly rows: readonly ListRow[]
  readonly addHref: string | null
  /** What is begun here beside a new record. */
  readonly begin?: { readonly href: string, readonly name: string } | undefined
  readonly otherHref: string
  readonly isRemoved: boolean
  readonly neighbors: readonly { readonly href: string, readonly name: string }[]
  /** Where the list goes to a spreadsheet and comes from one; null where it does not. */
  readonly exchange?: { readonly exportHref: string, readonly importHref: string } | null | undefined
  readonly firstStep: { readonly why: string, readonly example: string }
}

/** All records of one kind; where there is none yet, what to enter first. */
export function ListPage({ viewer, data }: { viewer: Viewer, data: ListPageData }): JSX.Element {
  return (
    <Frame title={data.plural} place={data.place} viewer={viewer}>
      <Trail steps={[...data.trail, { name: data.plural }]} />
      <Strip>
        <TitleCell label={data.isRemoved ? 'Removed' : 'All'} title={data.plural} />
        <TextCell label="Count" text={counted(data.rows.length, data.kindName, data.plural)} />
      </Strip>
      {data.neighbors.length === 0 ? '' : (
        <nav class="block" aria-label="Beside this">
          <ul class="ways">{data.neighbors.map(({ href, name }) => <li><a class="link" href={at(href)} safe>{name}</a></li>)}</ul>
        </nav>
      )}
      <section class="block">
        {data.rows.length > 0 ? <Rows data={data} /> : <Nothing data={data} />}
        <div class="deed">
          {data.addHref === null || data.rows.length === 0 ? '' : <a class="button first" href={at(data.addHref)}>{escapeHtml(`Add ${withArticle(data.kindName)}`)}</a>}
          {data.begin === undefined ? '' : <a class="button" href={at(data.begin.href)} safe>{data.begin.name}</a>}
          <a class="link" href={at(data.otherHref)}>{data.isRemoved ? 'Show those in use' : 'Show removed ones'}</a>
          <Exchange data={data} />
        </div>
      </section>
    </Frame>
  )
}

function Exchange({ data: { exchange, rows, isRemoved } }: { data: ListPageData }): JSX.Element {
  if (!exchange || isRemoved) return ''
  return (
    <>
      <a class="link" href={at(exchange.importHref)}>Import a list</a>
      {rows.length === 0 ? '' : <a class="link" href={at(exchange.exportHref)}>Export as CSV</a>}
    </>
  )
}

function Nothing({ data }: { data: ListPageData }): JSX.Element {
  if (data.addHref === null || data.isRemoved) return <p class="quiet">There is none.</p>
  const step = { ...data.firstStep, title: `The first ${data.kindName}`, href: at(data.addHref), button: `Add ${withArticle(data.kindName)}` }
  return <FirstSteps steps={[step]} />
}

function Rows({ data }: { data: ListPageData }): JSX.Element {
  const columns = [{ name: 'Number' }, { name: 'Name' }, ...data.columns]
  const hasNumbers = data.rows.some((row) => row.number !== '')
  return (
    <Table columns={hasNumbers ? columns : columns.slice(1)} caption={data.plural}>
      {data.rows.map((row) => (
        <tr>
          {hasNumbers ? <td class="no" safe>{row.number}</td> : ''}
          <th scope="row"><a href={at(row.href)} safe>{row.title}</a></th>
          {row.cells.map((cell, index) => <Cell column={data.columns[index]} text={cell} />)}
        </tr>
      ))}
    </Table>
  )
}

function Cell({ column, text }: { column: ListColumn | undefined, text: string }): JSX.Element {
  const is = column?.name.toLowerCase() ?? ''
  return column?.isFigure === true ? <FigureCell is={is} text={text} how="recorded" /> : <WordCell is={is} text={text} />
}
