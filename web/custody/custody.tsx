import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Saved } from '../shared/saved.tsx'
import { NumberCell, Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { GroupRow, Table, WordCell } from '../shared/table.tsx'
import { counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface CustodyRow {
  /** 21 */
  readonly number: number
  /** F-021 */
  readonly label: string
  readonly name: string
  readonly zone: string
  readonly href: string
  /** Since when, by whom, and who has it. */
  readonly since: string
  readonly condition: string
}

export interface CustodyGroup {
  readonly name: string
  /** Out, and nobody knows where. */
  readonly isOpen: boolean
  readonly mayMove: boolean
  readonly rows: readonly CustodyRow[]
}

export interface CustodyData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly title: string
  readonly counts: readonly { readonly label: string, readonly text: string }[]
  readonly groups: readonly CustodyGroup[]
  readonly action: string
  readonly links: readonly { readonly href: string, readonly name: string }[]
  readonly saved: { readonly what: string, readonly receiptHref: string | null } | null
}

/** Where the factory parts of a build are, place by place, and what is done with those that are ticked. */
export function CustodyPage({ viewer, data }: { viewer: Viewer, data: CustodyData }): JSX.Element {
  const movable = data.groups.some(({ mayMove, rows }) => mayMove && rows.length > 0)
  return (
    <Frame title={`Factory parts of ${data.number}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      {data.saved === null ? '' : (
        <Saved what={data.saved.what} csrfToken={viewer.csrfToken} {...(data.saved.receiptHref === null ? {} : { next: { href: data.saved.receiptHref, name: 'Receipt to print' } })} />
      )}
      <Strip>
        <NumberCell label="Build" number={data.number} />
        <TitleCell label={data.title} title="Where the factory parts are" />
        {data.counts.map(({ label, text }) => <TextCell label={label} width="w2" text={text} />)}
      </Strip>
      <form class="block" method="get" action={at(data.action)}>
        {data.groups.length === 0 ? <p class="quiet">All factory parts are in the vehicle. What comes out is recorded as a removal, and stands here from then on.</p> : (
          <Table columns={[{ name: 'Chosen', isUnseen: true }, { name: 'No.' }, { name: 'Factory part' }, { name: 'Zone' }, { name: 'Since' }]} caption="Factory parts by where they are" class="kept">
            {data.groups.map((group) => <Group group={group} />)}
          </Table>
        )}
        {movable ? <Deeds /> : ''}
      </form>
      <div class="deed">{data.links.map(({ href, name }) => <a class="link" href={at(href)} safe>{name}</a>)}</div>
    </Frame>
  )
}

function Group({ group }: { group: CustodyGroup }): JSX.Element {
  return (
    <>
      <GroupRow name={`${group.name}: ${counted(group.rows.length, 'part', 'parts')}`} span={5} />
      {group.rows.map((row) => (
        <tr>
          <td class="choose">{group.mayMove ? <input type="checkbox" name="parts" value={String(row.number)} aria-label={`${row.label} ${row.name}`} /> : ''}</td>
          <td class="no"><a href={at(row.href)} safe>{row.label}</a></td>
          <th scope="row">{group.isOpen ? <><Mark name="point" />{' '}</> : ''}<span safe>{row.name}</span>{row.condition === '' ? '' : <span class="sub" safe>{row.condition}</span>}</th>
          <WordCell text={row.zone} quiet />
          <WordCell text={row.since} />
        </tr>
      ))}
    </>
  )
}

const DEEDS = [
  ['stored', 'Move to a bin or place'], ['handed to the customer', 'Hand to the customer'], ['brought back', 'Brought back'],
  ['found again', 'Found again'], ['missing', 'Missing'], ['disposed with consent', 'Disposed of, with consent'],
] as const

function Deeds(): JSX.Element {
  return (
    <div class="deed">
      <span class="quiet">With those that are ticked:</span>
      {DEEDS.map(([kind, name]) => <button class="button" type="submit" name="kind" value={kind}>{name}</button>)}
    </div>
  )
}
