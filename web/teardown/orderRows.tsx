import { at } from '../shared/asset.ts'
import { Mark } from '../shared/marks.tsx'
import { counted } from '../shared/text.ts'
import { Table } from '../shared/table.tsx'
import type { OrderRow, RestRow, TeardownData } from './teardownData.ts'

/** What was recorded incompletely, each with what is missing. */
export function Rest({ rows }: { rows: readonly RestRow[] }): JSX.Element {
  return (
    <section id="rest" aria-labelledby="rest-head">
      <h2 id="rest-head">The rest can follow</h2>
      {rows.length === 0 ? <p class="logbook quiet">Nothing is missing.</p> : (
        <details class="folded rest">
          <summary safe>{`${counted(rows.length, 'thing', 'things')} recorded incompletely`}</summary>
          <ul class="logbook plainlist">{rows.map(({ name, href, missing }) => <li class="as-written"><a href={at(href)} safe>{name}</a> <span class="quiet" safe>{missing}</span></li>)}</ul>
        </details>
      )}
    </section>
  )
}

/** Every part with its state: what is done first, then what is to come, in order. */
export function OrderRows({ data: { rows, settled, total } }: { data: TeardownData }): JSX.Element {
  return (
    <section class="block" id="order" aria-labelledby="order-head">
      <h2 id="order-head" safe>{`Order of teardown, ${settled} of ${total} done`}</h2>
      {rows.length === 0 ? <p class="quiet">Nothing is listed yet.</p> : (
        <Table columns={[{ name: 'Factory part' }, { name: 'State' }, { name: 'Recorded' }]} caption="Order of teardown" class="list-of">
          {rows.map((row) => <Row row={row} />)}
        </Table>
      )}
    </section>
  )
}

// Short addresses: a show build has more than a hundred rows.
function Row({ row }: { row: OrderRow }): JSX.Element {
  return (
    <tr data-id={row.id} {...(row.isSettled ? { 'data-settled': '' } : { 'data-how': row.how, 'data-triggers': row.triggers })}>
      <th scope="row"><a class="pick" href={`?f=${Number(row.number.slice(2))}`}><span class="no" safe>{row.number}</span>{' '}<span safe>{row.name}</span></a></th>
      <td><Mark name={row.mark} byHand={row.isSettled} />{' '}<span safe>{row.words}</span></td>
      <td class="quiet" safe>{row.recorded}</td>
    </tr>
  )
}
