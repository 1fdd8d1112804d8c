import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import { GroupRow, Table, WordCell } from '../shared/table.tsx'
import { counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface KeptRow {
  readonly label: string
  readonly name: string
  readonly href: string
  readonly where: string
  readonly isOpen: boolean
  readonly since: string
}

export interface KeptData {
  readonly find: string
  readonly where: string
  readonly cuts: readonly { readonly href: string, readonly name: string, readonly isCurrent: boolean }[]
  readonly total: number
  readonly shown: number
  readonly groups: readonly { readonly name: string, readonly href: string, readonly rows: readonly KeptRow[] }[]
  readonly moreHref: string | null
  readonly links: readonly { readonly href: string, readonly name: string }[]
}

/** Everything that is kept, handed out or gone, of all vehicles. */
export function KeptPage({ viewer, data }: { viewer: Viewer, data: KeptData }): JSX.Element {
  return (
    <Frame title="Factory parts kept" place="builds" viewer={viewer}>
      <Strip>
        <TitleCell label={viewer.shopName} title="Factory parts kept" />
        <TextCell label="Found" text={counted(data.total, 'part', 'parts')} more={data.shown < data.total ? `${data.shown} shown` : ''} />
      </Strip>
      <nav class="cut" aria-label="Which parts">
        {data.cuts.map(({ href, name, isCurrent }) => <a href={at(href)} aria-current={isCurrent ? 'true' : false} safe>{name}</a>)}
        <form role="search" aria-label="Kept parts" action={at('/custody')}>
          <input type="hidden" name="where" value={data.where} />
          <label class="unseen" for="kept">Customer, build, vehicle or part</label>
          <div class="entry"><input id="kept" name="find" type="search" value={data.find} maxlength="100" placeholder="Customer, build, part" /></div>
          <button class="button">Find</button>
        </form>
      </nav>
      <section class="block">
        {data.groups.length === 0 ? <p class="quiet">{data.find === '' ? 'Nothing is out of any vehicle.' : 'Nothing fits. Try fewer words, or a part of one.'}</p> : (
          <Table columns={[{ name: 'No.' }, { name: 'Factory part' }, { name: 'Where' }, { name: 'Since' }]} caption="Kept parts by build" class="kept">
            {data.groups.map((group) => (
              <>
                <GroupRow name={group.name} span={4} />
                {group.rows.map((row) => <Row row={row} />)}
              </>
            ))}
          </Table>
        )}
        {data.moreHref === null ? '' : <p><a class="link" href={at(data.moreHref)}>The next ones</a></p>}
      </section>
      <div class="deed">{data.links.map(({ href, name }) => <a class="link" href={at(href)} safe>{name}</a>)}</div>
    </Frame>
  )
}

function Row({ row }: { row: KeptRow }): JSX.Element {
  return (
    <tr>
      <td class="no"><a href={at(row.href)} safe>{row.label}</a></td>
      <th scope="row" safe>{row.name}</th>
      <td>{row.isOpen ? <><Mark name="point" />{' '}</> : ''}<span safe>{row.where}</span></td>
      <WordCell text={row.since} quiet />
    </tr>
  )
}
