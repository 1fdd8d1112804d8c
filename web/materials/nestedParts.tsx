import { at } from '../shared/asset.ts'
import { FigureCell, Table } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'

export interface NestedPart {
  readonly number: string
  readonly name: string
  readonly href?: string | undefined
  /** 0 for what goes straight into the vehicle. */
  readonly level: number
  /** In one of the part above. */
  readonly each: number
  /** Over the whole build. */
  readonly count: number
}

/** What is made, assembly by assembly: a dot for each level down. */
export function NestedParts({ parts }: { parts: readonly NestedPart[] }): JSX.Element {
  if (parts.length === 0) return ''
  return (
    <section>
      <h2>Made here</h2>
      <Table columns={[{ name: 'Part' }, { name: 'In one above', isFigure: true }, { name: 'In all', isFigure: true }]} caption="Made parts">
        {parts.map((part) => <Row part={part} />)}
      </Table>
    </section>
  )
}

function Row({ part: { number, name, href, level, each, count } }: { part: NestedPart }): JSX.Element {
  return (
    <tr>
      <th scope="row">
        {level === 0 ? '' : <><span class="quiet" aria-hidden="true" safe>{'· '.repeat(level)}</span><span class="unseen">level {level + 1}: </span></>}
        <span class="no" safe>{number}</span> {href === undefined ? escapeHtml(name) : <a href={at(href)} safe>{name}</a>}
      </th>
      <FigureCell is="in one above" text={level === 0 ? '' : String(each)} how="recorded" />
      <FigureCell is="in all" text={String(count)} how={number} />
    </tr>
  )
}
