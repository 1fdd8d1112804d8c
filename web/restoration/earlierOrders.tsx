import { at } from '../shared/asset.ts'
import type { NamedLink } from '../builds/ledgerData.ts'

export interface EarlierOrders {
  /** Of the same make, model and place on the vehicle. */
  readonly orders: readonly NamedLink[]
  readonly allHref: string
}

/** Nothing recorded here yet: what somebody took apart before need not be found out again. */
export function EarlierOrdersBlock({ earlier: { orders, allHref } }: { earlier: EarlierOrders }): JSX.Element {
  return (
    <section class="block on-screen">
      <h2>Copy from an earlier build</h2>
      <p>No factory part is recorded here yet. An earlier build of the same vehicle brings its parts, their order, fasteners and times, with the hours logged there beside the estimate.</p>
      {orders.length === 0 ? '' : <ul class="plainlist">{orders.map(({ name, href }) => <li><a class="link" href={at(href)} safe>{name}</a></li>)}</ul>}
      <p><a class="link" href={at(allHref)}>{orders.length === 0 ? 'Look for one among all earlier builds' : 'All earlier builds'}</a></p>
    </section>
  )
}
