import type { BuyLine } from '../../server/calc/restoration/partsToBuy.ts'
import type { Reader } from '../shared/amount.ts'
import { writeAmount } from '../shared/amount.ts'
import { buyKey } from './buyKey.ts'
import { TickBox } from '../shared/printSheet.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import { counted, escapeProse } from '../shared/text.ts'

interface PartsToBuyProps {
  readonly lines: readonly BuyLine[]
  readonly showsMoney: boolean
  readonly reader: Reader
  /** On the screen figures open: what of the address they depend on. */
  readonly on?: string | undefined
  /** On paper they carry notes: the number of the first of the two. */
  readonly note?: number | undefined
}

/** What must be at hand before the work begins. */
export function PartsToBuy({ lines, showsMoney, reader, on, note }: PartsToBuyProps): JSX.Element {
  const columns = [
    { name: 'Have it', isUnseen: true }, { name: 'Part' }, { name: 'For' }, { name: 'Why' }, { name: 'Quantity', isFigure: true, note },
    ...(showsMoney ? [{ name: `Price, ${reader.currency}`, isFigure: true, note: note === undefined ? undefined : note + 1 }] : []), { name: 'Wait' },
  ]
  return (
    <section>
      <h2>Parts to buy before you begin</h2>
      {lines.length === 0 ? <p>None.</p> : (
        <Table columns={columns} caption="Parts to buy">{lines.map((line) => <Row line={line} showsMoney={showsMoney} reader={reader} on={on} />)}</Table>
      )}
      {lines.some(({ reason }) => reason === 'breaks') ? <p class="note">Spares for clips that break are counted in.</p> : ''}
    </section>
  )
}

const WHY: Readonly<Record<BuyLine['reason'], string>> = {
  'replacement': 'replaces the old one', 'repair': 'for a repair', 'single-use': 'single-use', 'breaks': 'some break',
}

const MOST_NAMED = 8

/** The parts it is for; of very many the first ones, since each step says what it takes. */
function forWhat({ forNumbers }: BuyLine): string {
  const named = forNumbers.length > MOST_NAMED ? forNumbers.slice(0, MOST_NAMED - 2) : forNumbers
  const more = forNumbers.length - named.length
  return escapeProse(`${named.join(', ')}${more === 0 ? '' : ` and ${more} more`}`)
}

function Row({ line, showsMoney, reader, on }: { line: BuyLine, showsMoney: boolean, reader: Reader, on: string | undefined }): JSX.Element {
  const safeFor = forWhat(line)
  const price = line.priceMinor === null ? 'not known' : writeAmount({ kind: 'money', value: line.priceMinor * line.count }, reader).replace(` ${reader.currency}`, '')
  return (
    <tr>
      <TickBox />
      <th scope="row" class="bought" safe>{line.name}</th>
      <td data-is="for">{safeFor}</td>
      <WordCell text={WHY[line.reason]} />
      <FigureCell is="quantity" text={String(line.count)} how={on === undefined ? undefined : `${buyKey(line)}q`} on={on} />
      {showsMoney ? <FigureCell is={reader.currency} text={price} how={on === undefined || line.priceMinor === null ? undefined : `${buyKey(line)}p`} on={on} /> : ''}
      <WordCell is="wait" text={line.leadDays === 0 ? 'none' : counted(line.leadDays, 'day', 'days')} />
    </tr>
  )
}
