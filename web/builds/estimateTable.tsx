import type { Reader } from '../shared/amount.ts'
import { writeAmount, writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { HourBar } from '../shared/operationBar.tsx'
import { Table } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'

/** Person-seconds. */
export interface LineHours { readonly estimate: number, readonly logged: number, readonly remaining: number, readonly forecast: number }

/** Minor units. */
export interface LineMoney { readonly cost: number, readonly price: number }

export interface EstimateLine {
  /** What the page's address leads to, as "zone-4". */
  readonly anchor?: string | undefined
  readonly label: string
  readonly href?: string | undefined
  /** 0 for an outermost line; what lies deeper is within the lines above it and not summed again. */
  readonly level: number
  readonly hours: LineHours
  readonly money?: LineMoney | undefined
}

interface EstimateTableProps {
  readonly name: string
  readonly of: string
  readonly lines: readonly EstimateLine[]
  readonly showsMoney: boolean
  readonly reader: Reader
  readonly note?: string
}

/** One side of the estimate: lines with hours, money where it may be seen, and the sum. */
export function EstimateTable({ name, of, lines, showsMoney, reader, note }: EstimateTableProps): JSX.Element {
  const columns = [
    { name: of }, { name: 'Estimate', isFigure: true }, { name: 'Logged', isFigure: true }, { name: 'Remaining', isFigure: true }, { name: 'Forecast', isFigure: true },
    ...(showsMoney ? [{ name: `Cost, ${reader.currency}`, isFigure: true }, { name: `Price, ${reader.currency}`, isFigure: true }] : []), { name: 'Drawn' },
  ]
  return (
    <section class="block">
      <h2 safe>{name}</h2>
      {lines.length === 0 ? <p class="quiet">Nothing yet.</p> : (
        <Table columns={columns} caption={name} class="estimate">
          {lines.map((line) => <Row line={line} showsMoney={showsMoney} reader={reader} />)}
          <Total lines={lines.filter(({ level }) => level === 0)} showsMoney={showsMoney} reader={reader} />
        </Table>
      )}
      {note === undefined ? '' : <p class="quiet" safe>{note}</p>}
    </section>
  )
}

function Row({ line, showsMoney, reader }: { line: EstimateLine, showsMoney: boolean, reader: Reader }): JSX.Element {
  const { anchor, label, href, level, hours, money } = line
  return (
    <tr id={anchor}>
      <th scope="row">
        {level === 0 ? '' : <span class="quiet" aria-hidden="true" safe>{'· '.repeat(level)}</span>}
        {href === undefined ? escapeHtml(label) : <a href={at(href)} safe>{label}</a>}
      </th>
      <HourCells hours={hours} />
      {showsMoney ? <MoneyCells money={money} reader={reader} /> : ''}
      <td>{level === 0 ? <HourBar logged={hours.logged} forecast={hours.forecast} /> : ''}</td>
    </tr>
  )
}

function Total({ lines, showsMoney, reader }: { lines: readonly EstimateLine[], showsMoney: boolean, reader: Reader }): JSX.Element {
  const sum = (of: (line: EstimateLine) => number): number => lines.reduce((total, line) => total + of(line), 0)
  const hours = {
    estimate: sum((line) => line.hours.estimate), logged: sum((line) => line.hours.logged),
    remaining: sum((line) => line.hours.remaining), forecast: sum((line) => line.hours.forecast),
  }
  const money = { cost: sum((line) => line.money?.cost ?? 0), price: sum((line) => line.money?.price ?? 0) }
  return (
    <tr class="total">
      <th scope="row">All</th>
      <HourCells hours={hours} />
      {showsMoney ? <MoneyCells money={money} reader={reader} /> : ''}
      <td></td>
    </tr>
  )
}

/** Many rows: what each cell is stands in the stylesheet, not in every cell. */
function HourCells({ hours }: { hours: LineHours }): JSX.Element {
  return (
    <>
      <td class="figure" safe>{writeHours(hours.estimate)}</td>
      <td class="figure hand" safe>{writeHours(hours.logged)}</td>
      <td class="figure" safe>{writeHours(hours.remaining)}</td>
      <td class="figure" safe>{writeHours(hours.forecast)}</td>
    </>
  )
}

function MoneyCells({ money, reader }: { money: LineMoney | undefined, reader: Reader }): JSX.Element {
  const write = (value: number | undefined): string =>
    value === undefined ? '' : writeAmount({ kind: 'money', value }, reader).replace(` ${reader.currency}`, '')
  return <><td class="figure" safe>{write(money?.cost)}</td><td class="figure" safe>{write(money?.price)}</td></>
}
