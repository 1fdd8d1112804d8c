import { FigureCell, Table } from '../shared/table.tsx'

export interface SideRow extends Record<'how' | 'name' | 'estimate' | 'took' | 'over' | 'rework' | 'note', string> {}

/** Estimate and hours by one thing: department, kind, part. */
export interface Side {
  readonly name: string
  /** Head of the first column. */
  readonly of: string
  readonly rows: readonly SideRow[]
  readonly whole?: SideRow
}

/** Hours; above 0 in "over" it took more than estimated. */
export function SideTable({ side, id }: { side: Side, id: string }): JSX.Element {
  if (side.rows.length === 0) return ''
  return (
    <section class="block" aria-labelledby={id}>
      <h2 id={id} safe>{side.name}</h2>
      <Table columns={[{ name: side.of }, { name: 'Est. h', isFigure: true }, { name: 'Logged', isFigure: true }, { name: 'Over', isFigure: true }, { name: 'Rework', isFigure: true }]} caption={`${side.name}: hours estimated and logged`}>
        {side.rows.map((row) => <Row row={row} />)}
        {side.whole === undefined ? '' : <Row row={side.whole} isTotal />}
      </Table>
    </section>
  )
}

function Row({ row: { how, name, estimate, took, over, rework, note }, isTotal }: { row: SideRow, isTotal?: boolean }): JSX.Element {
  return (
    <tr class={[isTotal === true && 'total']}>
      <th scope="row"><span safe>{name}</span>{note === '' ? '' : <span class="sub" safe>{note}</span>}</th>
      <FigureCell is="estimate" text={estimate} how={`${how}e`} />
      <FigureCell is="logged" text={took} byHand how={`${how}l`} />
      <FigureCell is="over" text={over} how={`${how}d`} />
      <FigureCell is="rework" text={rework} byHand how={`${how}r`} />
    </tr>
  )
}
