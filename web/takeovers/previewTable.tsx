import { writeHours } from '../shared/amount.ts'
import { FigureCell, GroupRow, Table } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { HoursThere, PreviewGroup, PreviewOperation, PreviewRow } from './previewData.ts'

/** Rows of one kind with their boxes, zone by zone. */
export function Group({ group, figuresAt }: { group: PreviewGroup, figuresAt: string | undefined }): JSX.Element {
  const hasHours = group.rows.some(({ count }) => count > 0)
  const columns = [
    { name: 'Take' }, ...(group.hasQuantity ? [{ name: 'Quantity' }] : []),
    ...(hasHours ? [{ name: 'Est. h there', isFigure: true }, { name: 'Work', isFigure: true }, { name: 'Rework', isFigure: true }, { name: 'Operations' }] : []),
  ]
  return (
    <section class="block">
      <h2 safe>{group.name}</h2>
      <Table columns={columns} caption={group.name} class="takeover">
        {group.rows.map((row) => <Row row={row} hasQuantity={group.hasQuantity} hasHours={hasHours} width={columns.length} figuresAt={figuresAt} />)}
      </Table>
    </section>
  )
}

interface RowProps {
  readonly row: PreviewRow
  readonly hasQuantity: boolean
  readonly hasHours: boolean
  readonly width: number
  /** Where the hours open, if not at the address of the page: that of a form that came back. */
  readonly figuresAt: string | undefined
}

function Row({ row, hasQuantity, hasHours, width, figuresAt }: RowProps): JSX.Element {
  return (
    <>
      {row.zone === '' ? '' : <GroupRow name={row.zone} span={width} />}
      <tr>
        <th scope="row"><label><input type="checkbox" name="take" value={row.key} checked={row.isTaken} /> {escapeHtml(`${row.key} ${row.name}`)}</label></th>
        {!hasQuantity ? '' : <td><input name={`quantity ${row.key}`} value={row.quantity ?? ''} aria-label={`Quantity ${row.key}`} size="4" /></td>}
        {hasHours && row.count === 0 ? <td colspan={4}></td> : ''}
        {hasHours && row.count > 0 ? <><Hours there={row} figuresAt={figuresAt} /><td>{row.operations.length > 0 ? '' : <Unfold row={row} />}</td></> : ''}
      </tr>
      {row.operations.map((operation) => <Operation operation={operation} hasQuantity={hasQuantity} figuresAt={figuresAt} />)}
    </>
  )
}

function Hours({ there: { estimate, work, rework, how }, figuresAt }: { there: HoursThere, figuresAt: string | undefined }): JSX.Element {
  const shown = (seconds: number): string => (seconds === 0 ? '' : writeHours(seconds, 2))
  return <><FigureCell is="est." text={shown(estimate)} how={`${how}e`} of={figuresAt} /><FigureCell is="work" text={shown(work)} byHand how={`${how}w`} of={figuresAt} /><FigureCell is="rework" text={shown(rework)} byHand how={`${how}x`} of={figuresAt} /></>
}

function Unfold({ row }: { row: PreviewRow }): JSX.Element {
  const words = row.edited === 0 ? String(row.count) : `${row.count}, ${row.edited} edited`
  return <button class="button" name="open" value={row.key} aria-label={`${words}: operations of ${row.key}`}>{escapeHtml(words)}</button>
}

function Operation({ operation, hasQuantity, figuresAt }: { operation: PreviewOperation, hasQuantity: boolean, figuresAt: string | undefined }): JSX.Element {
  const { key, name, workName, isTaken, isLogged, setUp, run, work } = operation
  return (
    <tr class="step">
      <th scope="row">
        <label><input type="checkbox" name="take" value={key} checked={isTaken} /> {escapeHtml(name)}</label>
        {workName === '' ? '' : <> <span class="quiet" safe>{workName}</span></>}
      </th>
      {hasQuantity ? <td></td> : ''}
      <Hours there={operation} figuresAt={figuresAt} />
      <td>
        <Time field="setUp" label="Set-up" operationKey={key} value={setUp} /> <Time field="run" label="Run" operationKey={key} value={run} />
        {work === 0 ? '' : <label><input type="checkbox" name="logged" value={key} checked={isLogged} aria-label={`Logged work of ${key} as its estimate`} /> as logged</label>}
      </td>
    </tr>
  )
}

function Time({ field, label, operationKey, value }: { field: 'setUp' | 'run', label: string, operationKey: string, value: string }): JSX.Element {
  return <label>{escapeHtml(label)} <input name={`${field} ${operationKey}`} value={value} aria-label={`${label} ${operationKey}`} size="7" autocomplete="off" /></label>
}
