import type { Amount, Working } from '../../server/calc/amounts.ts'
import type { Reader } from '../shared/amount.ts'
import { writeAmount, writeBought } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { writeDay } from '../shared/day.ts'
import type { How } from '../shared/figure.tsx'
import { FigureCell, Table } from '../shared/table.tsx'
import { capital } from '../shared/text.ts'

/** Where a part of the need comes from. */
export interface BillPeg {
  /** As "P-510 Record bin". */
  readonly from: string
  readonly zone: string
  readonly quantity: Amount
}

export interface BillLine {
  /** What its figures open by, with a letter for each. */
  readonly key: string
  /** The quantity is what somebody entered. */
  readonly isEntered?: boolean
  readonly name: string
  readonly href?: string | undefined
  /** As "sheet 2440 × 1220"; empty where it is bought by the piece. */
  readonly boughtAs: string
  readonly need: Amount
  /** As "3 sheets"; what is to be taken or bought. */
  readonly toTake: string
  /** Of that, in stock for this build. */
  readonly fromStock: string
  readonly expectedOn: string
  readonly isReceived: boolean
  readonly suppliedBy: 'shop' | 'customer'
  readonly cost?: Amount | undefined
  readonly price?: Amount | undefined
  readonly pegs: readonly BillPeg[]
  /** Left out where the need is what somebody entered. */
  readonly working?: Working | undefined
}

interface BillTableProps {
  readonly name: string
  readonly lines: readonly BillLine[]
  readonly showsMoney: boolean
  readonly reader: Reader
  readonly none: string
  readonly note?: string
  /** How many notes on paper come before those of its columns. */
  readonly notes: number
}

/** Lines of one kind, each with what it is for below it. */
export function BillTable({ name, lines, showsMoney, reader, none, note, notes }: BillTableProps): JSX.Element {
  const columns = [
    { name: 'What, and what for' }, { name: 'Bought as' }, { name: 'Need', isFigure: true, notePrinted: notes + 1 }, { name: 'To take', isFigure: true, notePrinted: notes + 2 },
    ...(showsMoney ? [{ name: `Cost, ${reader.currency}`, isFigure: true, notePrinted: notes + 3 }, { name: `Price, ${reader.currency}`, isFigure: true, notePrinted: notes + 4 }] : []), { name: 'Here' },
  ]
  return (
    <section>
      <h2 safe>{name}</h2>
      {lines.length === 0 ? <p class="quiet" safe>{none}</p> : (
        <Table columns={columns} caption={name} class="bill">{lines.map((line) => <Row line={line} showsMoney={showsMoney} reader={reader} />)}</Table>
      )}
      {note === undefined ? '' : <p class="note" safe>{note}</p>}
      <HowComputed lines={lines} />
    </section>
  )
}

function Row({ line, showsMoney, reader }: { line: BillLine, showsMoney: boolean, reader: Reader }): JSX.Element {
  return (
    <>
      <FiguresRow line={line} showsMoney={showsMoney} reader={reader} />
      <tr class="uses"><td colspan={showsMoney ? 7 : 5} class="whole" safe>{uses(line, reader)}</td></tr>
    </>
  )
}

function FiguresRow({ line, showsMoney, reader }: { line: BillLine, showsMoney: boolean, reader: Reader }): JSX.Element {
  const isFree = line.suppliedBy === 'customer' || (line.cost?.value ?? 0) > 0 || (line.price?.value ?? 0) > 0
  const amount = (money: Amount | undefined): string =>
    money === undefined ? '' : isFree ? writeAmount(money, reader).replace(` ${reader.currency}`, '') : 'no price yet'
  return (
    <tr>
      <th scope="row">
        {line.href === undefined ? <span safe>{line.name}</span> : <a href={at(line.href)} safe>{line.name}</a>}
      </th>
      <td safe>{line.boughtAs}</td>
      <FigureCell is="need" text={writeBought(line.need, reader)} how={line.isEntered === true ? 'recorded' : `${line.key}n`} />
      <FigureCell is="to take" text={line.toTake} how={toTakeKey(line)} />
      {showsMoney ? <FigureCell is="cost" text={amount(line.cost)} how={`${line.key}c`} /> : ''}
      {showsMoney ? <FigureCell is="price" text={amount(line.price)} how={`${line.key}p`} /> : ''}
      <td safe>{whereabouts(line)}</td>
    </tr>
  )
}

// Pieces bought one by one are taken as they are needed.
const toTakeKey = ({ key, isEntered, boughtAs }: BillLine): How =>
  isEntered === true ? 'recorded' : boughtAs === '' ? `${key}n` : `${key}t`

/** What a line is for, over its whole width, then what else goes into its figure. */
function uses({ pegs, working }: BillLine, reader: Reader): string {
  const own = pegs.map(({ from, zone, quantity }) => `${writeBought(quantity, reader)} for ${zone === '' ? from : `${from}, ${zone}`}`)
  const others = (working?.inputs ?? []).filter(({ label }) => pegs.every(({ from }) => from !== label))
    .map(({ label, amount }) => `${label.toLowerCase()} ${writeBought(amount, reader)}`)
  return [own.join('; '), capital(others.join('; '))].filter((words) => words !== '').join('. ')
}

/** How all lines of a table come about, each way once. */
function HowComputed({ lines }: { lines: readonly BillLine[] }): JSX.Element {
  const workings = lines.flatMap(({ working }) => working === undefined ? [] : [working])
  const texts = new Set(workings.map(({ formula, assumed, source }) => `To take: ${formula}. ${assumed} (${source})`))
  return <>{[...texts].map((text) => <p class="note" safe>{text}</p>)}</>
}

function whereabouts({ fromStock, expectedOn, isReceived, suppliedBy }: BillLine): string {
  const brought = suppliedBy === 'customer' ? 'customer brings it' : ''
  const stock = fromStock === '' ? '' : `${fromStock} in stock`
  const due = isReceived ? 'received' : expectedOn === '' ? '' : `expected ${writeDay(expectedOn)}`
  return [brought, stock, due].filter((part) => part !== '').join('; ')
}
