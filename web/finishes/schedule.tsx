import { at } from '../shared/asset.ts'
import { Paper, Signatures } from '../shared/printSheet.tsx'
import type { TitleBlockFields } from '../shared/printSheet.tsx'
import { GroupRow, Table } from '../shared/table.tsx'
import { counted, escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface FinishRow {
  readonly number: string
  readonly href: string
  readonly kind: string
  readonly material: string
  readonly color: string
  readonly code: string
  readonly grain: string
  readonly thread: string
  readonly supplier: string
  readonly batch: string
  /** The state of the sample. */
  readonly sample: string
  /** By whom and when, and why not. */
  readonly decided: string
  readonly note: string
  /** The operations that lay it on, with their states. */
  readonly laidOnBy: string
  /** Those that cannot start; empty once it is approved. */
  readonly holds: string
}

export interface SchedulePart {
  readonly name: string
  readonly href: string
  readonly zone: string
  readonly finishes: readonly FinishRow[]
}

export interface ScheduleData {
  readonly titleBlock: TitleBlockFields
  readonly parts: readonly SchedulePart[]
  /** Parts that are to be finished and have no finish recorded. */
  readonly without: readonly { readonly name: string, readonly href: string, readonly addHref?: string | undefined, readonly operations: string }[]
  /** Finishes not approved, and operations that stand still for them. */
  readonly waiting: number
  readonly stopped: number
  readonly addHref?: string | undefined
  readonly backHref: string
}

const COLUMNS = [{ name: 'Finish' }, { name: 'Color and code' }, { name: 'Grain, thread' }, { name: 'Supplier, batch' }, { name: 'Sample' }, { name: 'Laid on by' }] as const

/** Every finish of a build, part by part; on the screen and on paper. */
export function FinishSchedulePage({ viewer, data }: { viewer: Viewer, data: ScheduleData }): JSX.Element {
  return (
    <Paper viewer={viewer} titleBlock={data.titleBlock} backHref={data.backHref}>
      <section>
        <h2>Finishes, part by part</h2>
        <p safe>{standing(data)}</p>
        {data.parts.length === 0 ? <p class="quiet">None recorded yet. For example: door card, leather, tan, thread 40 sand.</p> : (
          <Table columns={COLUMNS} caption="Finishes by made part" class="finishes">
            {data.parts.map((part) => <Part part={part} />)}
          </Table>
        )}
        {data.addHref === undefined ? '' : <p class="deed"><a class="link" href={at(data.addHref)}>Add a finish</a></p>}
        <p class="note">No operation that lays a finish on starts before its sample is approved. Primer, filler and foam may go ahead: they lie under every color alike. Which operations lay a finish on: common practice, no source.</p>
      </section>
      <Without without={data.without} />
      <section class="on-paper together"><Signatures fields={[{ label: 'Samples seen by', wide: true }, { label: 'Date' }, { label: 'For the shop' }]} /></section>
    </Paper>
  )
}

function standing({ waiting, stopped, parts }: ScheduleData): string {
  if (parts.length === 0) return ''
  if (waiting === 0) return 'All samples are approved.'
  return `${counted(waiting, 'finish is', 'finishes are')} not approved; ${counted(stopped, 'operation stands', 'operations stand')} still.`
}

function Part({ part }: { part: SchedulePart }): JSX.Element {
  return (
    <>
      <GroupRow name={`${part.name}${part.zone === '' ? '' : `, ${part.zone}`}`} span={COLUMNS.length} />
      {part.finishes.map((finish) => <Row finish={finish} />)}
    </>
  )
}

function Row({ finish }: { finish: FinishRow }): JSX.Element {
  return (
    <tr>
      <th scope="row">
        <a href={at(finish.href)} safe>{`${finish.number} ${finish.kind}`}</a>
        {finish.material === '' ? '' : <small safe>{finish.material}</small>}
        {finish.note === '' ? '' : <small safe>{finish.note}</small>}
      </th>
      <Words is="color and code" words={[finish.color, finish.code]} />
      <Words is="grain, thread" words={[finish.grain, finish.thread]} />
      <Words is="supplier, batch" words={[finish.supplier, finish.batch]} />
      <td data-is="sample">{finish.sample === 'approved' ? 'approved' : <strong safe>{finish.sample}</strong>}{finish.decided === '' ? '' : <small safe>{finish.decided}</small>}</td>
      <td data-is="laid on by">
        <span safe>{finish.laidOnBy === '' ? 'no operation' : finish.laidOnBy}</span>
        {finish.holds === '' ? '' : <small><strong>cannot start:</strong> {escapeHtml(finish.holds)}</small>}
      </td>
    </tr>
  )
}

function Words({ is, words: [first, second] }: { is: string, words: readonly [string, string] }): JSX.Element {
  return <td data-is={is}><span safe>{first}</span>{second === '' ? '' : <small safe>{second}</small>}</td>
}

function Without({ without }: { without: ScheduleData['without'] }): JSX.Element {
  if (without.length === 0) return ''
  return (
    <section>
      <h2>To be finished, and no finish recorded</h2>
      <ul class="plainlist">
        {without.map(({ name, href, addHref, operations }) => (
          <li>
            <a class="link" href={at(href)} safe>{name}</a> <span class="quiet" safe>{operations}</span>
            {addHref === undefined ? '' : <>{' '}<a class="link" href={at(addHref)} aria-label={`Add a finish to ${name}`}>Add a finish</a></>}
          </li>
        ))}
      </ul>
    </section>
  )
}
