import type { Reader } from '../shared/amount.ts'
import { Notes } from '../shared/figure.tsx'
import type { LedgerData } from './ledgerData.ts'

/** The note of each kind of figure; the numbers beside the figures of zones and parts stand in the style sheet for paper. */
export const LEDGER_NOTE = { wayBack: 5, price: 6, costOfWayBack: 7 } as const

/** On paper nothing opens: what the figures of this build come from, by kind. */
export function LedgerNotes({ data: { hours, restoration, price }, reader }: { data: LedgerData, reader: Reader }): JSX.Element {
  const workings = [hours.estimate, hours.logged, hours.remaining, hours.forecast, restoration.hours ?? 'Nothing has to go back.', price, price && restoration.cost]
  return (
    <section class="on-paper together">
      <h2>Notes</h2>
      <p>Notes 1 to 5 give the sums of the whole build; the figures of a zone or a made part come about likewise, from what belongs to it.</p>
      <Notes workings={workings.filter((working) => working !== undefined)} reader={reader} />
    </section>
  )
}
