import { asset, at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import { GroupRow, Table } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import type { ShopWeekData, WeekDay } from './weekData.ts'
import { DrawnWeek } from './weekDrawing.tsx'

/** The shop's week: who does what, which vehicle stands where, what runs on which machine, what is outside. */
export function ShopWeekPage({ viewer, data }: { viewer: Viewer, data: ShopWeekData }): JSX.Element {
  return (
    <Frame title={`Schedule, ${data.title}`} place="schedule" viewer={viewer}>
      <link rel="stylesheet" href={asset('plan.css')} />
      <Strip>
        <TitleCell label="Whole shop" title={data.title} />
        {data.takenAt === '' ? '' : <TextCell label="Plan taken" width="w4" text={data.takenAt} more={data.isStale ? 'things have changed since' : 'nothing has changed since'} />}
      </Strip>
      <section class="block on-screen" aria-label="Which week">
        <p class="row"><a class="button" href={at(data.earlierHref)}>Week before</a> <a class="button" href={at(data.laterHref)}>Week after</a> {data.links.map(({ name, href }) => <a class="button" href={at(href)} safe>{name}</a>)} <button class="button" type="button" data-print hidden>Print</button></p>
        {data.builds.length === 0 ? '' : <Choice data={data} />}
      </section>
      {data.empty === '' ? <Planned data={data} /> : <section class="block"><p safe>{data.empty}</p></section>}
    </Frame>
  )
}

function Choice({ data: { week, build, builds } }: { data: ShopWeekData }): JSX.Element {
  return (
    <form class="row week-choice" method="get" action={at('/schedule/week')}>
      <input type="hidden" name="week" value={week} />
      <label for="build">Build in thick ink</label>
      <div class="entry">
        <select id="build" name="build">
          <option value="">none</option>
          {builds.map(({ id, name }) => <option value={id} selected={id === build} safe>{name}</option>)}
        </select>
      </div>
      <button class="button" type="submit">Show</button>
    </form>
  )
}

function Planned({ data }: { data: ShopWeekData }): JSX.Element {
  return (
    <>
      {!data.isStale && data.notes.length === 0 && data.broken.length === 0 ? '' : (
        <section class="block">
          {data.isStale ? <p><Mark name="point" /> <strong>Things have changed since this plan was taken.</strong> Who is away and what is closed is drawn as it stands now.</p> : ''}
          {data.broken.map((words) => <p><Mark name="point" /> {escapeHtml(words)}</p>)}
          {data.notes.map((note) => <p safe>{note}</p>)}
        </section>
      )}
      <section class="block bar-sheets" aria-label="The week drawn">
        <Key hasBuild={data.build !== ''} />
        {data.drawn.map((drawn) => <DrawnWeek drawn={drawn} />)}
      </section>
      <section class="block listed" aria-labelledby="by-day">
        <h2 id="by-day">Day by day</h2>
        <nav class="week-jump" aria-label="Days">{data.days.map(({ date, name }) => <a href={`#d${date}`} safe>{name.split(' ').slice(0, 2).join(' ')}</a>)}</nav>
        <div class="week-days">{data.days.map((day) => <Day day={day} />)}</div>
      </section>
    </>
  )
}

function Day({ day: { date, name, groups, empty } }: { day: WeekDay }): JSX.Element {
  return (
    <div id={`d${date}`}>
      <h3 class="heading" safe>{name}</h3>
      {groups.length === 0 ? <p class="quiet" safe>{empty}</p> : (
        <Table caption={name} class="plan-rows" columns={[{ name: 'When' }, { name: 'What' }]}>
          {groups.map((group) => (
            <>
              <GroupRow name={group.name} span={2} />
              {group.lines.map(({ times, what, href }) => (
                <tr>
                  <td class="keep" safe>{times}</td>
                  <td>{href === '' ? <em safe>{what}</em> : <a href={at(href)} safe>{what}</a>}</td>
                </tr>
              ))}
            </>
          ))}
        </Table>
      )}
    </div>
  )
}

function Key({ hasBuild }: { hasBuild: boolean }): JSX.Element {
  return (
    <p class="key">
      {hasBuild ? <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="bar thick" d="M2 2h30v10H2z" /></svg> this build</span> : ''}
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class={hasBuild ? 'bar other' : 'bar'} d="M1 1h32v12H1z" /></svg> {hasBuild ? 'other builds' : 'planned'}</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="did" d="M1 5h32v5H1z" /></svg> logged; hours noted afterward stand from opening on</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="again" d="M1 3h32v8H1z" /></svg> rework</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="cures" d="M2 7h31" /><path class="tick" d="M1 1v12M33 1v12" /></svg> outside, nobody needed</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="off" d="M1 1h32v12H1z" /></svg> not there, or closed</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="shut" d="M1 0h32v14H1z" /></svg> shop closed</span>
    </p>
  )
}
