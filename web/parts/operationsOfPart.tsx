import type { Reader } from '../shared/amount.ts'
import { writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { WorkingSheet } from '../shared/figure.tsx'
import { Mark, State } from '../shared/marks.tsx'
import { BarKey, OperationBar, barScale, estimateOf } from '../shared/operationBar.tsx'
import { FigureCell, Table } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { PartOperation } from './partData.ts'

const COLUMNS = [
  { name: 'Op' }, { name: 'Work' }, { name: 'State' }, { name: 'Set-up', isFigure: true }, { name: 'Run', isFigure: true },
  { name: 'Est. h', isFigure: true }, { name: 'Logged', isFigure: true }, { name: 'Remaining', isFigure: true }, { name: 'Drawn' },
] as const

interface OperationsProps {
  readonly operations: readonly PartOperation[]
  readonly reader: Reader
  readonly addHref: string | undefined
}

/** What is done, in order, each with its bar on one scale, and the sum below. */
export function Operations({ operations, reader, addHref }: OperationsProps): JSX.Element {
  return (
    <section class="block">
      <h2>Operations</h2>
      {operations.length === 0 ? <p>None yet. For example: cut, 0.5 h set-up, 0.25 h a piece, wood room.</p> : <OperationTable operations={operations} />}
      {operations.length === 0 ? '' : <BarKey />}
      {operations.length === 0 ? '' : <Workings operations={operations} reader={reader} />}
      {addHref === undefined ? '' : <p><a href={at(addHref)}>Add an operation</a></p>}
    </section>
  )
}

function OperationTable({ operations }: { operations: readonly PartOperation[] }): JSX.Element {
  const scale = barScale(operations.map(({ hours }) => hours))
  const total = (of: (operation: PartOperation) => number): string => writeHours(operations.reduce((sum, each) => sum + of(each), 0), 2)
  return (
    <Table columns={COLUMNS} caption="Operations with hours" class="operations">
      {operations.map((operation, index) => <Row operation={operation} scale={scale} how={`o${index}`} />)}
      <tr class="total">
        <td></td><th scope="row">All operations</th><td></td>
        <FigureCell is="set-up" text={total(({ hours }) => hours.setUp)} how="ts" />
        <FigureCell is="run" text={total(({ hours }) => hours.run)} how="tr" />
        <FigureCell is="estimate" text={total(({ hours }) => estimateOf(hours))} how="te" />
        <FigureCell is="logged" text={total(({ hours }) => hours.logged)} byHand how="tl" />
        <FigureCell is="left" text={total(({ remaining }) => remaining)} how="td" />
        <td></td>
      </tr>
    </Table>
  )
}

function Row({ operation, scale, how }: { operation: PartOperation, scale: number, how: string }): JSX.Element {
  const { number, kind, work, department, state, stateWords, hours, curve, runningOver, remaining, href, heldBy, earlier } = operation
  const shown = (seconds: number): string => seconds === 0 ? '' : writeHours(seconds, 2)
  return (
    <tr>
      <td class="no">{number}</td>
      <th scope="row">
        <a href={at(href)} safe>{kind}</a>{work === '' ? '' : <> {escapeHtml(work)}</>} <span class="quiet" safe>{department}</span>
        {hours.wait === 0 ? '' : <span class="sub" safe>{`then waits ${writeHours(hours.wait)} h, needs nobody`}</span>}
        {earlier === undefined ? '' : <span class="sub" safe>{earlier}</span>}
        {heldBy === undefined ? '' : <span class="sub"><strong safe>{heldBy.words}</strong> <a href={at(heldBy.href)} safe>{`Open ${heldBy.name}`}</a></span>}
        {curve === '' ? '' : <span class="sub" safe>{curve}</span>}
        {hours.allowance === 0 ? '' : <span class="sub" safe>{`with ${writeHours(hours.allowance, 2)} h allowed for rework`}</span>}
        {runningOver === '' ? '' : <strong class="sub"><Mark name="point" /> {escapeHtml(runningOver)}</strong>}
      </th>
      <td><State name={state} words={stateWords ?? state} /></td>
      <FigureCell is="set-up" text={shown(hours.setUp)} how={`${how}s`} />
      <FigureCell is="run" text={shown(hours.run)} how={`${how}r`} />
      <FigureCell is="estimate" text={shown(estimateOf(hours))} how={`${how}e`} />
      <FigureCell is="logged" text={shown(hours.logged)} byHand how={`${how}l`} />
      <FigureCell is="left" text={shown(remaining)} how={`${how}d`} />
      <td class="bar-column"><OperationBar hours={hours} scale={scale} /></td>
    </tr>
  )
}

function Workings({ operations, reader }: { operations: readonly PartOperation[], reader: Reader }): JSX.Element {
  return (
    <details class="folded">
      <summary><span>How these hours come about</span></summary>
      {operations.map(({ number, kind, estimate }) => (
        <div>
          <h3 class="heading">Op {number} {escapeHtml(kind)}</h3>
          <WorkingSheet working={estimate} reader={reader} />
        </div>
      ))}
    </details>
  )
}
