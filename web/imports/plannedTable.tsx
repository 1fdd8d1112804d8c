import { Mark } from '../shared/marks.tsx'
import { Table } from '../shared/table.tsx'

export interface PlannedLine {
  readonly line: number
  readonly action: 'create' | 'change' | 'skip' | 'error'
  readonly number: string
  readonly title: string
  readonly values: readonly { readonly label: string, readonly before: string | null, readonly after: string }[]
  readonly problems: readonly string[]
  readonly remark: string
}

const MARKS = { create: 'buy', change: 'change', skip: 'skip', error: 'point' } as const

/** What each row would do; a change with what stands now and what would. */
export function PlannedTable({ lines, name }: { lines: readonly PlannedLine[], name: string }): JSX.Element {
  const columns = [{ name: 'Line', isFigure: true }, { name: 'Would' }, { name }, { name: 'What' }]
  return (
    <Table columns={columns} caption="Row by row" class="planned">
      {lines.map((each) => (
        <tr id={`line-${each.line}`}>
          <td class="figure recorded" data-is="line">{each.line}</td>
          <td class="would"><Mark name={MARKS[each.action]} byHand={each.action === 'change'} />{' '}<span>{each.action}</span></td>
          <th scope="row" safe>{[each.number, each.title].filter((word) => word !== '').join(' ')}</th>
          <td>{each.problems.length > 0 ? <Problems problems={each.problems} /> : <Values line={each} />}</td>
        </tr>
      ))}
    </Table>
  )
}

function Problems({ problems }: { problems: readonly string[] }): JSX.Element {
  return <>{problems.map((problem) => <div><strong safe>{problem}</strong></div>)}</>
}

function Values({ line: { action, values, remark } }: { line: PlannedLine }): JSX.Element {
  if (action === 'skip') return <span class="quiet" safe>{remark}</span>
  if (action === 'create') return <span safe>{values.map(({ label, after }) => `${label.toLowerCase()} ${after}`).join(' · ')}</span>
  return (
    <>
      {values.map(({ label, before, after }) => (
        <div>
          <span safe>{label}</span>: <span class="was" safe>{before ?? 'nothing'}</span> <span class="hand" safe>{after === '' ? 'nothing' : after}</span>
        </div>
      ))}
    </>
  )
}
