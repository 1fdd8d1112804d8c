import { at } from '../shared/asset.ts'
import type { LedgerData } from './ledgerData.ts'

/** The latest of what changed after the vehicle was handed over; all of it stands on the as-built record. */
export function SinceDelivery({ data }: { data: LedgerData['sinceDelivery'] }): JSX.Element {
  if (data === undefined) return ''
  return (
    <section class="block">
      <details class="folded">
        <summary><h2 class="heading">Since delivery</h2><span class="quiet" safe>{data.words}</span></summary>
        <ol class="history">
          {data.changes.map(({ when, who, what, href }) => (
            <li><span class="quiet" safe>{when}</span>{' '}<a class="link" href={at(href)} safe>{what}</a>{' '}<span class="quiet" safe>{who}</span></li>
          ))}
        </ol>
        <p><a class="link" href={at(data.allHref)}>As-built record</a></p>
      </details>
    </section>
  )
}
