import { asset, at } from '../shared/asset.ts'
import { RowFigure } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import { counted, escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import { Assumed } from './assumed.tsx'
import { NotPlanned } from './notPlanned.tsx'
import type { PlannedBuild, ScheduleData } from './scheduleData.ts'
import { Standing } from './standing.tsx'

/** The plan of the whole shop: when each build ends; who is where stands in the shop’s week. */
export function SchedulePage({ viewer, data }: { viewer: Viewer, data: ScheduleData }): JSX.Element {
  const { inForce, proposals } = data.standing
  const late = data.builds.filter(({ state }) => state === 'late').length
  return (
    <Frame title="Schedule" place="schedule" viewer={viewer}>
      <link rel="stylesheet" href={asset('plan.css')} />
      <Strip>
        <TitleCell label="Whole shop" title="Schedule" />
        {inForce === null ? <TextCell label="Plan" text={proposals.length > 0 ? 'proposed, not taken' : 'none yet'} /> : <TextCell label="In force" width="w4" text={inForce.at} more={inForce.changed.length > 0 ? 'things have changed since' : 'nothing has changed since'} />}
        {inForce === null ? '' : <TextCell label="Late" text={late === 0 ? 'none' : counted(late, 'build', 'builds')} />}
        {inForce === null || proposals.length === 0 ? '' : <TextCell label="Proposed" text={counted(proposals.length, 'plan', 'plans')} more="not taken" />}
      </Strip>
      <Standing viewer={viewer} data={data.standing} />
      {data.builds.length === 0 ? '' : <Ends builds={data.builds} />}
      <NotPlanned list={data.leftOut} />
      <Sides />
      <Assumed holidays={data.holidays} />
    </Frame>
  )
}

/** What the plan in force looks like from other sides. */
function Sides(): JSX.Element {
  return (
    <section class="deed on-screen" aria-label="The plan in force">
      <a class="button" href={at('/schedule/week')}>The shop’s week</a>
      <a class="button" href={at('/schedule/load')}>Load by department</a>
      <a class="button" href={at('/day')}>Days of people</a>
      <a class="button" href={at('/calendars')}>Calendars</a>
    </section>
  )
}

function Ends({ builds }: { builds: readonly PlannedBuild[] }): JSX.Element {
  return (
    <section class="block" aria-labelledby="ends">
      <h2 id="ends">When builds end</h2>
      <Table columns={[{ name: 'Build' }, { name: 'As planned' }, { name: 'Even chance' }, { name: '80 in 100' }, { name: '90 in 100' }, { name: 'Promised' }, { name: 'As planned, by then' }, { name: 'Promise kept' }]} caption="When each build ends by this plan" class="list-of">
        {builds.map(({ name, href, endsOn, dueOn, state, words, chances, kept, place: own }) => (
          <tr>
            <th scope="row"><a class="link" href={at(href)} safe>{name}</a></th>
            <WordCell is="ends" text={endsOn === '' ? 'not known' : endsOn} />
            {['even chance', '80 in 100', '90 in 100'].map((is, place) => <td data-is={is}>{chances === null ? '' : <RowFigure text={chances[place] ?? ''} how={`${'efg'[place]}${own}`} of="/schedule/chances" />}</td>)}
            <WordCell is="promised" text={dueOn === '' ? 'no date' : dueOn} />
            <td>{state === 'late' ? <><Mark name="point" /> <strong safe>{words}</strong></> : escapeHtml(words)}</td>
            <td data-is="promise kept in">{kept === '' ? '' : <RowFigure text={kept} how={`k${own}`} of="/schedule/chances" />}</td>
          </tr>
        ))}
      </Table>
      <p class="quiet">Chances come from 400 cases in which work takes longer or shorter, by its three values or as the shop’s closed operations of its kind did, and much of it runs over together, as set for the spread of hours; people and order stay those of the plan. They appear once the search has ended, and are of the day it was planned: best and worst cases that are entered later count when it is planned again. Work with neither is taken as sure, so that real chances are wider; a build in which nothing is unsure has none here.</p>
    </section>
  )
}
