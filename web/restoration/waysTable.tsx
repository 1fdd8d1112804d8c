import { writeHours } from '../shared/amount.ts'
import { FigureCell, Table } from '../shared/table.tsx'
import { escapeProse } from '../shared/text.ts'

export interface WaysTable {
  /** As "F-062 Cab vent". */
  readonly to: string
  readonly ways: readonly {
    readonly way: string
    /** Numbers of what comes out or loose. */
    readonly takes: readonly string[]
    /** Out and back; null where the way cannot be gone. */
    readonly seconds: number | null
    readonly isLeast: boolean
    readonly how: string
  }[]
}

const COLUMNS = [{ name: 'Way in' }, { name: 'What comes out' }, { name: 'Hours, out and back', isFigure: true }, { name: 'Least' }] as const

/** Alternative ways to the same thing, compared by hours. */
export function Ways({ tables, on }: { tables: readonly WaysTable[], on: string }): JSX.Element {
  if (tables.length === 0) return ''
  return (
    <section class="block">
      <h2>Ways in, compared</h2>
      {tables.map(({ to, ways }) => {
        const safeTo = escapeProse(to)
        return (
          <>
            <h3 class="subject">{safeTo}</h3>
            <Table columns={COLUMNS} caption={`Ways to ${to}`}>{ways.map((way) => <Way way={way} on={on} />)}</Table>
          </>
        )
      })}
    </section>
  )
}

function Way({ way: { way, takes, seconds, isLeast, how }, on }: { way: WaysTable['ways'][number], on: string }): JSX.Element {
  const safeTakes = escapeProse(takes.length === 0 ? 'nothing: the way is free' : takes.join(', '))
  return (
    <tr>
      <th scope="row" safe>{way}</th>
      <td data-is="takes">{safeTakes}</td>
      {seconds === null ? <td class="right">cannot be gone</td> : <FigureCell is="hours" text={writeHours(seconds, 2)} how={how} on={on} />}
      <td>{isLeast ? 'least' : ''}</td>
    </tr>
  )
}
