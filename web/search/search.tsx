import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import { Table } from '../shared/table.tsx'
import { counted, escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface SearchRow {
  readonly href: string
  readonly number: string
  readonly name: string
  readonly build: { readonly id: string, readonly name: string } | null
  readonly foundIn: readonly { readonly field: string, readonly text: string }[]
}

export interface SearchGroup {
  /** Made parts, serial swaps … */
  readonly title: string
  readonly count: string
  readonly rows: readonly SearchRow[]
  /** The place of the first row shown among all that fit. */
  readonly first: number
  readonly moreHref: string | null
  readonly backHref: string | null
}

export interface SearchData {
  readonly find: string
  /** Why nothing is shown. */
  readonly note: string
  readonly groups: readonly SearchGroup[]
  /** Where only one kind is shown: all that fits. */
  readonly allHref: string | null
}

/** What fits the words in the top line, kind by kind. */
export function SearchPage({ viewer, data }: { viewer: Viewer, data: SearchData }): JSX.Element {
  return (
    <Frame title="Search" place={null} viewer={viewer} find={data.find}>
      <Strip>
        <TitleCell label="Search" title={data.find === '' ? 'Everything' : data.find.slice(0, 120)} />
        <TextCell label="Found in" text={data.groups.length === 0 ? 'nothing' : counted(data.groups.length, 'kind of record', 'kinds of records')} />
      </Strip>
      {data.note === '' ? '' : <Nothing note={data.note} />}
      {data.groups.map((group) => <Group group={group} />)}
      {data.allHref === null ? '' : <div class="deed"><a class="link" href={at(data.allHref)}>All kinds of records</a></div>}
    </Frame>
  )
}

function Nothing({ note }: { note: string }): JSX.Element {
  return (
    <section class="block">
      <p class="lead" safe>{note}</p>
      <p class="quiet">For example <i>B-0147</i>, <i>F-021</i>, <i>A-003</i>, the last six of a VIN, part of a serial number, “door midbass”, or “<i>B-0147</i> midbass” within one build.</p>
    </section>
  )
}

function Group({ group }: { group: SearchGroup }): JSX.Element {
  const last = group.first + group.rows.length - 1
  const hasBuilds = group.rows.some(({ build }) => build !== null)
  const hasNumbers = group.rows.some(({ number }) => number !== '')
  const hasOthers = group.rows.some(({ foundIn }) => foundIn.length > 0)
  const named = [hasNumbers && 'Number', 'Name', hasOthers && 'Found in', hasBuilds && 'Build'].filter((name) => name !== false)
  return (
    <section class="block">
      <h2>{escapeHtml(group.title)} <span class="quiet" safe>{group.rows.length === Number(group.count) ? group.count : `${group.first} to ${last} of ${group.count}`}</span></h2>
      <Table columns={named.map((name) => ({ name }))} caption={group.title}>
        {group.rows.map((row) => <Row row={row} shows={named} />)}
      </Table>
      {group.backHref === null && group.moreHref === null ? '' : (
        <p class="row">
          {group.backHref === null ? '' : <a class="link" href={at(group.backHref)}>Those before</a>}
          {group.moreHref === null ? '' : <a class="link" href={at(group.moreHref)}>{escapeHtml(`More ${group.title.toLowerCase()}`)}</a>}
        </p>
      )}
    </section>
  )
}

function Row({ row, shows }: { row: SearchRow, shows: readonly string[] }): JSX.Element {
  return (
    <tr>
      {shows.includes('Number') ? <td class="no" safe>{row.number}</td> : ''}
      <th scope="row"><a href={at(row.href)} safe>{row.name}</a></th>
      {shows.includes('Found in') ? <td class="quiet" safe>{row.foundIn.map(({ field, text }) => `${field}: ${text}`).join(' · ')}</td> : ''}
      {shows.includes('Build') ? <td>{row.build === null ? '' : <a href={at(`/builds/${row.build.id}`)} safe>{row.build.name}</a>}</td> : ''}
    </tr>
  )
}
