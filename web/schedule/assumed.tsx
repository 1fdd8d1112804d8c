import { at } from '../shared/asset.ts'
import { escapeHtml } from '../shared/text.ts'
import type { ScheduleData } from './scheduleData.ts'

const RECORDS: readonly (readonly [href: string, name: string])[] = [
  ['/absences', 'Absences'], ['/closings', 'Closings'], ['/people', 'People, their skills and hours'], ['/bays', 'Bays'], ['/machines', 'Machines'], ['/outside-finishers', 'Outside finishers'], ['/shop/shop', 'Hours and holidays of the shop'],
]

/** What a plan is made from, where that is entered, and what is taken for granted. */
export function Assumed({ holidays: { region, days } }: Pick<ScheduleData, 'holidays'>): JSX.Element {
  return (
    <section class="block" aria-labelledby="assumed">
      <h2 id="assumed">What the plan is made from</h2>
      <p class="on-screen">{RECORDS.map(([href, name], place) => <>{place === 0 ? '' : ' · '}<a class="link" href={at(href)} safe>{name}</a></>)}</p>
      <p>The rest stands on the build and its operations: priority and promise; hours, skill, people at once, named person, machine, outside finisher, where it is done, waiting, in one piece, not before; and when parts and material are expected.</p>
      {region === '' ? <p>No public holidays are kept: they are set with the hours of the shop.</p> : <p>Public holidays kept, of {escapeHtml(region)}, in the next half year: {days.length === 0 ? 'none' : escapeHtml(days.join('; '))}.</p>}
      <h3 class="heading">What it takes for granted</h3>
      <ul class="plainlist">
        <li>Everybody who works is there in their own days and hours or the shop’s, but for the break, public holidays, absences and closings. One person does one thing at a time; a crew is together from start to end, and whoever is named for it is one of them.</li>
        <li>Hours are those that remain by the estimate or by the technician. Work stops in the evening and goes on in the morning with the same people, unless it is in one piece. It begins on the quarter hour.</li>
        <li>Operations on one part or piece of equipment follow their numbers. Between parts binds what is entered as to be finished first; then the order of removal, where it does not contradict that: what stands in front comes out first and goes back last. What cures waits on the calendar and needs nobody. Work waits for what is expected by its day.</li>
        <li>A vehicle keeps its bay from the first work in it, nights included, until the plan rolls it out, which work that must not be moved forbids; rolling takes its time. Work on factory parts and equipment, and fitting, wiring, tuning and checking of made parts, is done in the vehicle where nobody says otherwise; the rest at the bench, which needs no bay.</li>
        <li>What goes to an outside finisher leaves with the next batch as the shop closes, is away for shipping, their working days and shipping, and comes back in the morning.</li>
        <li>What runs stays with those who are on it, and what is held by hand begins at its hour. A day late weighs 4 where the build is urgent, 2 as usual, 1 where it can wait.</li>
        <li>Plans look half a year ahead. What fits nowhere in it is left out and named, with what waits for it. Quotes that are out and delivered builds are not in it; service visits that go on are.</li>
      </ul>
    </section>
  )
}
