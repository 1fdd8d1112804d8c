import type { Working } from '../../server/calc/amounts.ts'
import type { Reader } from '../shared/amount.ts'
import { writeAmount, writeHours } from '../shared/amount.ts'
import { Dimension } from '../shared/dimension.tsx'
import { Explained, RowFigure } from '../shared/figure.tsx'
import type { How } from '../shared/figure.tsx'
import { Mark } from '../shared/marks.tsx'
import type { LedgerHours } from './ledgerData.ts'

/** Hours as a drawing dimension, and beside it the same in figures that explain themselves. */
export function HoursBlock({ hours, alarm, reader }: { hours: LedgerHours, alarm: string, reader: Reader }): JSX.Element {
  const drawn = {
    estimate: hours.estimate.result.value, logged: hours.logged.result.value,
    forecast: hours.forecast.result.value, consent: hours.consent,
  }
  return (
    <section class="block" aria-labelledby="hours">
      <h2 class="unseen" id="hours">Hours</h2>
      <div class="hours-row">
        <div><Dimension hours={drawn} /></div>
        <dl class="tally">
          <Line name="Estimate" working={hours.estimate} reader={reader} how="e" />
          <Line name="Logged" working={hours.logged} reader={reader} how="l" byHand />
          <Line name="Remaining" working={hours.remaining} reader={reader} how="r" />
          <Line name="Forecast" working={hours.forecast} reader={reader} how="f" />
          {hours.afterDelivery === undefined ? '' : <Line name="After delivery" working={hours.afterDelivery} reader={reader} byHand />}
          {hours.consent === undefined ? '' : <div><dt>Consent given to</dt><dd class="figure recorded" safe>{`${writeHours(hours.consent)} h`}</dd></div>}
        </dl>
      </div>
      {alarm === '' ? '' : <p><Mark name="point" />{' '}<strong safe>{alarm}</strong></p>}
    </section>
  )
}

interface LineProps { readonly name: string, readonly working: Working, readonly reader: Reader, readonly byHand?: boolean, readonly how?: How }

// The page of a large build has no room for the workings themselves: where the page's route knows them, the figure leads there.
function Line({ name, working, reader, byHand = false, how }: LineProps): JSX.Element {
  return (
    <div>
      <dt safe>{name}</dt>
      <dd>{how === undefined ? <Explained working={working} reader={reader} byHand={byHand} /> : <RowFigure text={writeAmount(working.result, reader)} how={how} byHand={byHand} />}</dd>
    </div>
  )
}
