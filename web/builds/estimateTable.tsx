import type { Reader } from '../shared/amount.ts'
import { writeAmount, writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { RowFigure } from '../shared/figure.tsx'
import { HourBar, hourScale } from '../shared/operationBar.tsx'
import { Table } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'

/** Person-seconds. */
export interface LineHours { readonly estimate: number, readonly logged: number, readonly remaining: number, readonly forecast: number }

/** Minor units: labor and what is bought, cost when finished. */
export interface LineMoney { readonly price: number, readonly cost: number, readonly margin: number }

export interface EstimateLine {
  /** What the keys of its workings begin with. */
  readonly how: string
  /** What the page's address leads to, as "zone-4". */
  readonly anchor?: string | undefined
  readonly label: string
  readonly href?: string | undefined
  /** What was accepted of the shop's hours for operations of this line, in words. */
  readonly ratios?: string | undefined
  /** 0 for an outermost line; what lies deeper is within the lines above it and not summed again. */
  readonly level: number
  readonly hours: LineHours
  readonly money?: LineMoney | undefined
}

interface EstimateTableProps {
  readonly name: string
  readonly of: string
  /** What the keys of its last line begin with. */
  readonly how: string
  readonly lines: readonly EstimateLine[]
  readonly showsMoney: boolean
  readonly reader: Reader
  readonly note?: string
}

/** One side of the estimate: lines with hours, money where it may be seen, and the sum. */
export function EstimateTable({ name, of, how, lines, showsMoney, reader, note }: EstimateTableProps): JSX.Element {
  const columns = [
    { name: of }, { name: 'Estimate', isFigure: true }, { name: 'Logged', isFigure: true }, { name: 'Remaining', isFigure: true }, { name: 'Forecast', isFigure: true },
    ...(showsMoney ? [{ name: `Price, ${reader.currency}`, isFigure: true }, { name: 'Cost when finished', isFigure: true }, { name: 'Margin', isFigure: true }] : []), { name: 'Drawn' },
  ]
  const outermost = lines.filter(({ level }) => level === 0)
  const scale = hourScale(outermost.map(({ hours }) => hours))
  return (
    <section class="block">
      <h2 safe>{name}</h2>
      {lines.length === 0 ? <p class="quiet">Nothing yet.</p> : (
        <Table columns={columns} caption={name} class="estimate">
          {lines.map((line) => <Row line={line} scale={scale} showsMoney={showsMoney} reader={reader} />)}
          <Total how={how} lines={outermost} showsMoney={showsMoney} reader={reader} />
        </Table>
      )}
      {note === undefined ? '' : <p class="quiet" safe>{note}</p>}
    </section>
  )
}

function Row({ line, scale, showsMoney, reader }: { line: EstimateLine, scale: number, showsMoney: boolean, reader: Reader }): JSX.Element {
  const { how, anchor, label, href, ratios, level, hours, money } = line
  return (
    <tr id={anchor}>
      <th scope="row">
        {level === 0 ? '' : <span class="quiet" aria-hidden="true" safe>{'· '.repeat(level)}</span>}
        {href === undefined ? escapeHtml(label) : <a href={at(href)} safe>{label}</a>}
        {ratios === undefined ? '' : <span class="sub quiet" safe>{`as our hours run: ${ratios}`}</span>}
      </th>
      <HourCells how={how} hours={hours} />
      {showsMoney ? <MoneyCells how={how} money={money} reader={reader} /> : ''}
      <td>{level === 0 ? <HourBar logged={hours.logged} forecast={hours.forecast} scale={scale} isBeside /> : ''}</td>
    </tr>
  )
}

function Total({ how, lines, showsMoney, reader }: { how: string, lines: readonly EstimateLine[], showsMoney: boolean, reader: Reader }): JSX.Element {
  const sum = (of: (line: EstimateLine) => number): number => lines.reduce((total, line) => total + of(line), 0)
  const hours = {
    estimate: sum((line) => line.hours.estimate), logged: sum((line) => line.hours.logged),
    remaining: sum((line) => line.hours.remaining), forecast: sum((line) => line.hours.forecast),
  }
  const money = {
    price: sum((line) => line.money?.price ?? 0), cost: sum((line) => line.money?.cost ?? 0), margin: sum((line) => line.money?.margin ?? 0),
  }
  return (
    <tr class="total">
      <th scope="row">All</th>
      <HourCells how={how} hours={hours} />
      {showsMoney ? <MoneyCells how={how} money={money} reader={reader} /> : ''}
      <td></td>
    </tr>
  )
}

/** Many rows: what each cell is stands in the stylesheet, not in every cell. */
function HourCells({ how, hours }: { how: string, hours: LineHours }): JSX.Element {
  return (
    <>
      <Cell how={`${how}e`} text={writeHours(hours.estimate)} />
      <Cell how={`${how}l`} text={writeHours(hours.logged)} byHand />
      <Cell how={`${how}r`} text={writeHours(hours.remaining)} />
      <Cell how={`${how}f`} text={writeHours(hours.forecast)} />
    </>
  )
}

function Cell({ how, text, byHand }: { how: string, text: string, byHand?: boolean }): JSX.Element {
  return <td class={['figure', byHand === true && 'hand']}>{text === '' ? '' : <RowFigure text={text} how={how} byHand={byHand === true} />}</td>
}

function MoneyCells({ how, money, reader }: { how: string, money: LineMoney | undefined, reader: Reader }): JSX.Element {
  const write = (value: number | undefined): string =>
    value === undefined ? '' : writeAmount({ kind: 'money', value }, reader).replace(` ${reader.currency}`, '')
  return (
    <>
      <Cell how={`${how}p`} text={write(money?.price)} />
      <Cell how={`${how}c`} text={write(money?.cost)} />
      <Cell how={`${how}m`} text={write(money?.margin)} />
    </>
  )
}
