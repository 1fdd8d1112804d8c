import type { Working } from '../../server/calc/amounts.ts'
import type { Reader } from '../shared/amount.ts'
import { writeHours } from '../shared/amount.ts'
import { Dimension } from '../shared/dimension.tsx'
import { Explained } from '../shared/figure.tsx'
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
          <Line name="Estimate" working={hours.estimate} reader={reader} />
          <Line name="Logged" working={hours.logged} reader={reader} byHand />
          <Line name="Remaining" working={hours.remaining} reader={reader} />
          <Line name="Forecast" working={hours.forecast} reader={reader} />
          {hours.afterDelivery === undefined ? '' : <Line name="After delivery" working={hours.afterDelivery} reader={reader} byHand />}
          {hours.consent === undefined ? '' : <div><dt>Consent given to</dt><dd class="figure recorded" safe>{`${writeHours(hours.consent)} h`}</dd></div>}
        </dl>
      </div>
      {alarm === '' ? '' : <p><Mark name="point" />{' '}<strong safe>{alarm}</strong></p>}
    </section>
  )
}

function Line({ name, working, reader, byHand }: { name: string, working: Working, reader: Reader, byHand?: boolean }): JSX.Element {
  return <div><dt safe>{name}</dt><dd><Explained working={working} reader={reader} byHand={byHand === true} /></dd></div>
}
