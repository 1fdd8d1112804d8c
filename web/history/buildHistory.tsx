import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Post, type PostProps } from '../shared/post.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import { counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface BuildHistoryRow {
  readonly key: string
  readonly kind: string
  readonly department: string
  /** How many operations of the build it is about, and what it would make of their hours. */
  readonly of: string
  /** Null where the shop has no records at all. */
  readonly learned: Readonly<Record<'ratio' | 'records' | 'low' | 'high' | 'worth' | 'rework', string>> | null
  /** What holds in the estimate now; empty where it stands as typed. */
  readonly accepted: string
  readonly accept: { readonly name: string, readonly post: PostProps } | undefined
  readonly takeBack: PostProps | undefined
}

export interface BuildHistoryData {
  readonly build: string
  readonly buildHref: string
  /** Delivered: nothing can be accepted any more. */
  readonly isSettled: boolean
  readonly rows: readonly BuildHistoryRow[]
  /** Who accepted what, in words. */
  readonly accepted: readonly string[]
}

/** What the shop's hours say of the operations of a build; a manager accepts a ratio or leaves it. */
export function BuildHistoryPage({ viewer, data }: { viewer: Viewer, data: BuildHistoryData }): JSX.Element {
  const title = 'What our hours say'
  return (
    <Frame title={`${title}, ${data.build}`} place="builds" viewer={viewer}>
      <Trail steps={[{ name: data.build, href: data.buildHref }, { name: 'Estimate', href: `${data.buildHref}/estimate` }, { name: title }]} />
      <Strip>
        <TitleCell label={data.build} title={title} />
        <TextCell label="In the estimate now" width="w4" text={data.accepted.length === 0 ? 'as typed' : counted(data.accepted.length, 'ratio accepted', 'ratios accepted')} />
      </Strip>
      {data.rows.length === 0 ? <Nothing data={data} /> : <Rows viewer={viewer} data={data} />}
      <section class="block">
        {data.accepted.map((words) => <p safe>{words}</p>)}
        <p>An accepted ratio multiplies set-up and run of every operation of its kind and department in this build, done ones too, so that an estimate does not move when something is ticked. Three values, learning over pieces and people stay as entered and are multiplied with it; the allowance for rework comes on top; waiting that needs nobody stays. Nothing changes until it is accepted here.</p>
        <p><a class="link" href={at('/history')}>How our hours run</a>{' '}<a class="link" href={at(`${data.buildHref}/spread`)}>What it may take</a></p>
      </section>
    </Frame>
  )
}

function Nothing({ data }: { data: BuildHistoryData }): JSX.Element {
  return (
    <section class="block" aria-label="Nothing to decide">
      <p>No operation of this build is open. Enter one first, for example: sand, 0.5 h set-up, 1.0 h a piece, paint room. <a class="link" href={at(data.buildHref)}>To the build</a></p>
    </section>
  )
}

const COLUMNS = [
  { name: 'Operation' }, { name: 'Runs at', isFigure: true }, { name: 'Records', isFigure: true }, { name: 'From', isFigure: true }, { name: 'To', isFigure: true },
  { name: 'Rework', isFigure: true }, { name: 'In the estimate' }, { name: 'Decide', isUnseen: true },
]

function Rows({ viewer, data }: { viewer: Viewer, data: BuildHistoryData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="say">
      <h2 id="say">By kind and department</h2>
      <Table columns={COLUMNS} caption="Ratios of the shop’s hours for this build">
        {data.rows.map((row) => <Row row={row} csrfToken={viewer.csrfToken} />)}
      </Table>
    </section>
  )
}

function Row({ row, csrfToken }: { row: BuildHistoryRow, csrfToken: string }): JSX.Element {
  const { key, kind, department, of, learned, accepted, accept, takeBack } = row
  return (
    <tr>
      <th scope="row">
        <span safe>{kind}</span>{' '}<span class="quiet" safe>{department}</span>
        <span class="sub" safe>{of}</span>
        {learned === null || learned.worth === '' ? '' : <span class="sub" safe>{learned.worth}</span>}
      </th>
      <FigureCell is="runs at" text={learned?.ratio ?? ''} how={key} />
      <FigureCell is="records" text={learned?.records ?? ''} how={`${key}n`} />
      <FigureCell is="from" text={learned?.low ?? ''} how={`${key}l`} />
      <FigureCell is="to" text={learned?.high ?? ''} how={`${key}h`} />
      <FigureCell is="rework" text={learned?.rework ?? ''} how={`${key}w`} />
      <WordCell is="in the estimate" text={accepted === '' ? 'as typed' : accepted} quiet={accepted === ''} />
      <td>
        {accept === undefined ? '' : <Post post={accept.post} csrfToken={csrfToken} label={`${accept.name} for ${kind}, ${department}`}><span safe>{accept.name}</span></Post>}
        {takeBack === undefined ? '' : <Post post={takeBack} csrfToken={csrfToken} class="button quiet" label={`Take back what was accepted for ${kind}, ${department}`}>Take back</Post>}
      </td>
    </tr>
  )
}
