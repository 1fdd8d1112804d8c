import { writeHours } from '../shared/amount.ts'
import { asset, at } from '../shared/asset.ts'
import { RowFigure } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import { Table } from '../shared/table.tsx'
import { counted, escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import type { LoadData, LoadRow, WeekCell } from './loadData.ts'

/** Hours planned against hours people are there, department by department and week by week. */
export function LoadPage({ viewer, data }: { viewer: Viewer, data: LoadData }): JSX.Element {
  return (
    <Frame title="Load by department" place="schedule" viewer={viewer}>
      <link rel="stylesheet" href={asset('plan.css')} />
      <Strip>
        <TitleCell label="Whole shop" title="Load by department" />
        {data.takenAt === '' ? '' : <TextCell label="Plan taken" width="w4" text={data.takenAt} more={data.isStale ? 'things have changed since' : 'nothing has changed since'} />}
        {data.takenAt === '' ? '' : <TextCell label="Overloaded" text={data.overloaded.length === 0 ? 'nothing' : counted(data.overloaded.length, 'week of a department', 'weeks of departments')} />}
      </Strip>
      {data.empty === '' ? <Loads data={data} /> : <section class="block"><p safe>{data.empty}</p></section>}
      <section class="deed on-screen"><a class="button" href={at('/schedule')}>Schedule</a> <a class="button" href={at('/schedule/week')}>The shop’s week</a></section>
    </Frame>
  )
}

function Loads({ data }: { data: LoadData }): JSX.Element {
  return (
    <>
      <section class="block" aria-labelledby="load">
        <h2 id="load">The next eight weeks</h2>
        {data.overloaded.length === 0 ? <p>No department has more hours planned than its people are there.</p> : <ul class="plainlist">{data.overloaded.map((words) => <li><Mark name="point" /> <strong safe>{words}</strong></li>)}</ul>}
        <div class="bar-sheets"><Key /><DrawnLoad data={data} /></div>
      </section>
      <section class="block" aria-labelledby="load-table">
        <h2 id="load-table">As a table</h2>
        <Table caption="Hours planned of hours there, by department and week" class="plan-rows load-rows" columns={[{ name: 'Department' }, ...data.weeks.map(({ name }) => ({ name, isFigure: true }))]}>
          {data.rows.map((row) => (
            <tr class={row.isShop ? 'total' : undefined}>
              <th scope="row" safe>{row.name}</th>
              {row.weeks.map((cell, place) => <Cell cell={cell} week={data.weeks[place]?.name ?? ''} />)}
            </tr>
          ))}
        </Table>
        <p class="row on-screen">{data.weeks.map(({ name, href }) => <a class="link" href={at(href)} safe>{`Week of ${name}`}</a>)}</p>
        <p class="quiet">Planned hours are those of the plan, by the department of the operation. Hours there are those of everybody with a skill of the department: who has skills of several counts fully in each, so that departments add up to more than the shop; the whole shop counts everybody once. A plan never asks for more than the people it uses have, so that a department is overloaded where others do its work, or where somebody has become absent since.</p>
      </section>
      <section class="block" aria-labelledby="overdue">
        <h2 id="overdue">Due, but not planned in time</h2>
        {data.overdue.length === 0 ? <p>All that is promised within these weeks is planned before its promise.</p> : <ul class="plainlist">{data.overdue.map(({ build, href, words }) => <li><Mark name="point" /> <a class="link" href={at(href)} safe>{build}</a>: {escapeHtml(words)}</li>)}</ul>}
      </section>
    </>
  )
}

function Cell({ cell: { plannedS, thereS, isOver, how }, week }: { cell: WeekCell, week: string }): JSX.Element {
  return (
    <td class="figure" data-is={week}>
      {plannedS === 0 && thereS === 0 ? <span class="quiet">nobody there</span> : <>{isOver ? <><Mark name="point" />{' '}</> : ''}
      <RowFigure text={writeHours(plannedS)} how={`p${how}`} /> of <RowFigure text={`${writeHours(thereS)} h`} how={`t${how}`} /></>}
    </td>
  )
}

const [WIDTH, LEFT, HEAD, ROW] = [1122, 150, 32, 48]

/** A bar a week: the outline is who is there, the hatching what is planned; what is too much sticks out in thick ink. */
function DrawnLoad({ data: { rows, weeks, scaleS } }: { data: LoadData }): JSX.Element {
  const own = rows.filter(({ isShop }) => !isShop)
  const shop = rows.filter(({ isShop }) => isShop)
  const column = (WIDTH - LEFT) / Math.max(weeks.length, 1)
  const height = HEAD + rows.length * ROW + 4
  const shopScale = Math.max(1, ...shop.flatMap((row) => row.weeks.flatMap(({ plannedS, thereS }) => [plannedS, thereS])))
  const drawn = [...own, ...shop].map((row, place) => ({ row, y: HEAD + place * ROW, scale: row.isShop ? shopScale : scaleS }))
  const bar = (pick: (cell: WeekCell) => readonly [number, number], top: number, tall: number): string => drawn.flatMap(({ row, y, scale }) => row.weeks.map((cell, place) => {
    const to = (seconds: number): number => Math.round(seconds / scale * (column - 14) * 10) / 10
    const [from, until] = pick(cell)
    const wide = to(until) - to(from)
    return wide <= 0 ? '' : `M${Math.round((LEFT + place * column + 6 + to(from)) * 10) / 10} ${y + top}h${Math.round(wide * 10) / 10}v${tall}h${-Math.round(wide * 10) / 10}z`
  })).join('')
  return (
    <svg class="bars" viewBox={`0 0 ${WIDTH} ${height}`} width="100%" role="img" aria-label="Hours planned against hours there; the table below says the same">
      <path class="rule" d={[...weeks.map((_, place) => `M${LEFT + place * column} 8V${height - 4}`), ...drawn.map(({ y }) => `M0 ${y + ROW}H${WIDTH}`)].join('')} />
      {weeks.map(({ name }, place) => <text class="day" x={LEFT + place * column + 6} y="22" safe>{name.split(', ')[0] ?? name}</text>)}
      <path class="bar" d={bar(({ thereS }) => [0, thereS], 6, 20)} />
      <path class="planned" d={bar(({ plannedS, thereS }) => [0, Math.min(plannedS, thereS)], 10, 12)} />
      <path class="bar thick planned" d={bar(({ plannedS, thereS }) => [Math.min(plannedS, thereS), plannedS], 8, 16)} />
      {drawn.map(({ row, y }) => <RowWords row={row} y={y} column={column} />)}
      <path class="frame" d={`M0 ${HEAD}H${WIDTH}M0 ${height - 4}H${WIDTH}M${LEFT} 8V${height - 4}`} />
    </svg>
  )
}

function RowWords({ row: { name, weeks }, y, column }: { row: LoadRow, y: number, column: number }): JSX.Element {
  return (
    <>
      <text x="2" y={y + 21} safe>{name}</text>
      {weeks.map(({ plannedS, thereS }, place) => plannedS === 0 && thereS === 0 ? <text class="sub-label" x={LEFT + place * column + 6} y={y + 21}>nobody there</text> : <text class="sub-label" x={LEFT + place * column + 6} y={y + 42} safe>{`${writeHours(plannedS)} of ${writeHours(thereS)}`}</text>)}
    </>
  )
}

function Key(): JSX.Element {
  return (
    <p class="key">
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="bar" d="M1 1h32v12H1z" /></svg> people are there, h</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="planned" d="M1 2h32v10H1z" /></svg> planned, h</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="bar thick planned" d="M2 2h30v10H2z" /></svg> more than there is</span>
      <span>departments share a scale; the whole shop has its own</span>
    </p>
  )
}
