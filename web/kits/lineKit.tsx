import { at } from '../shared/asset.ts'
import { Post } from '../shared/post.tsx'
import type { PostProps } from '../shared/post.tsx'
import { FigureCell, Table } from '../shared/table.tsx'
import { counted } from '../shared/text.ts'

export interface LineKitPart {
  readonly name: string
  readonly href?: string | undefined
  readonly how?: string | undefined
  readonly each: string
  readonly all: string
  /** as the kit, adjusted, left out … */
  readonly state: string
  /** What the kit has, where that differs. */
  readonly kitSays: string
  readonly changeHref?: string | undefined
  readonly leaveOut?: PostProps | undefined
  readonly takeBack?: PostProps | undefined
}

export interface LineKitData {
  readonly name: string
  readonly href: string
  readonly units: number
  readonly mayChange: boolean
  readonly parts: readonly LineKitPart[]
}

/** The kit of an equipment line: what it brings, and what this line has differently. */
export function LineKit({ data, csrfToken }: { data: LineKitData, csrfToken: string }): JSX.Element {
  const columns = [{ name: 'Part' }, { name: 'Each', isFigure: true }, { name: 'In all', isFigure: true }, { name: 'Against the kit' }]
  return (
    <section class="block" aria-labelledby="line-kit">
      <h2 id="line-kit">Kit: <a class="link" href={at(data.href)} safe>{data.name}</a></h2>
      <p class="quiet" safe>{`For ${counted(data.units, 'unit', 'units')}. It stands in the bill of materials by itself.`}</p>
      <Table columns={data.mayChange ? [...columns, { name: 'Change', isUnseen: true }] : columns} caption="Parts of the kit in this line">
        {data.parts.map((part) => <PartRow part={part} mayChange={data.mayChange} csrfToken={csrfToken} />)}
      </Table>
    </section>
  )
}

function PartRow({ part, mayChange, csrfToken }: { part: LineKitPart, mayChange: boolean, csrfToken: string }): JSX.Element {
  const { name, href, each, all, state, kitSays, how } = part
  return (
    <tr>
      <th scope="row">{href === undefined ? <span safe>{name}</span> : <a href={at(href)} safe>{name}</a>}</th>
      <FigureCell is="each" text={each} how="recorded" />
      <FigureCell is="in all" text={all} how={how} />
      <td class={[state === 'as the kit' && 'quiet']} safe>{kitSays === '' ? state : `${state}; the kit has ${kitSays}`}</td>
      {mayChange ? <td><Deeds part={part} csrfToken={csrfToken} /></td> : ''}
    </tr>
  )
}

function Deeds({ part: { name, changeHref, leaveOut, takeBack }, csrfToken }: { part: LineKitPart, csrfToken: string }): JSX.Element {
  return (
    <div class="row">
      {changeHref === undefined ? '' : <a class="button" href={at(changeHref)} aria-label={`Adjust ${name}`}>Adjust</a>}
      {leaveOut === undefined ? '' : <Post post={leaveOut} csrfToken={csrfToken} label={`Leave out ${name}`}>Leave out</Post>}
      {takeBack === undefined ? '' : <Post post={takeBack} csrfToken={csrfToken} label={`Back to the kit: ${name}`}>Back to the kit</Post>}
    </div>
  )
}
