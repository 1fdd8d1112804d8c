import { asset, at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Cell, Strip, TextCell, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import { FigureCell, GroupRow, Table, WordCell } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'
import { DrawnBars } from './barsDrawing.tsx'
import type { BarRow, BarsData, BuildPlan } from './barsData.ts'

/** One build by the plan in force: its operations as bars and as a table, what they wait for, and which move the end. */
export function BarsPage({ viewer, data }: { viewer: Viewer, data: BarsData }): JSX.Element {
  const { plan } = data
  return (
    <Frame title={`${data.title}, ${data.build}`} place="builds" viewer={viewer}>
      <link rel="stylesheet" href={asset('plan.css')} />
      <Trail steps={[{ name: data.build, href: data.buildHref }, { name: data.title }]} />
      <Strip>
        <TitleCell label={data.build} title={data.title} />
        {plan === null ? '' : <Dates plan={plan} />}
      </Strip>
      {plan === null ? <section class="block"><p safe>{data.empty}</p></section> : <Planned plan={plan} />}
      {viewer.role === 'owner' || viewer.role === 'manager' ? <section class="deed on-screen"><a class="button" href={at('/schedule')}>Schedule of the shop</a></section> : ''}
    </Frame>
  )
}

function Dates({ plan }: { plan: BuildPlan }): JSX.Element {
  return (
    <>
      <TextCell label="Plan taken" text={plan.takenAt} more={plan.isStale ? 'things have changed since' : 'nothing has changed since'} />
      <Turn />
      <TextCell label="Ends by the plan" text={plan.endsOn === '' ? 'not planned to its end' : plan.endsOn} />
      <Cell label="Promised" width="w4">
        <span safe>{plan.promisedOn === '' ? 'no date' : plan.promisedOn}</span>
        {plan.promisedOn === '' ? '' : <span class="quiet"> · {plan.isLate ? <><Mark name="point" />{' '}</> : ''}{escapeHtml(plan.against)}</span>}
      </Cell>
      {plan.chances.map(({ name, day }) => <TextCell label={name} text={day} />)}
    </>
  )
}

function Planned({ plan }: { plan: BuildPlan }): JSX.Element {
  return (
    <>
      <section class="block" aria-labelledby="bars">
        <h2 id="bars">Operation by operation</h2>
        {plan.isStale ? <p><Mark name="point" /> <strong>Hours, states or dates have changed since this plan was taken.</strong> The bars show the plan, the pencil what was done.</p> : ''}
        {plan.leftOut.length === 0 ? '' : <ul class="plainlist">{plan.leftOut.map((why) => <li><Mark name="point" /> Not planned: {escapeHtml(why)}</li>)}</ul>}
        {plan.chain === '' ? '' : <p safe>{plan.chain}</p>}
        <p class="row on-screen">{plan.views.map(({ name, href, isShown }) => isShown ? <strong safe>{name}</strong> : <a class="link" href={at(href)} safe>{name}</a>)}</p>
        <div class="bar-sheets">
          <Key />
          {plan.beyond === '' ? '' : <p class="quiet">Beyond the drawing: {escapeHtml(plan.beyond)}.</p>}
          {plan.drawn.map((drawn) => <DrawnBars drawn={drawn} />)}
        </div>
      </section>
      <section class="block" aria-labelledby="rows">
        <h2 id="rows">As a table</h2>
        <Rows plan={plan} />
        <p class="quiet">Slack is how much later an operation can end, in hours the shop is open, before the build ends later or its promise is broken; textbooks call it float. It counts what comes after by rule, by cure, and because the same person, machine or bay is needed. None is left on the chain, in textbooks the critical path: each hour there is an hour at the end. “Saskia from 7” says that Saskia comes free when row 7 has ended.</p>
      </section>
    </>
  )
}

function Rows({ plan: { groups } }: { plan: BuildPlan }): JSX.Element {
  return (
    <Table class="plan-rows" caption="Operations of the build by the plan" columns={[{ name: 'No.' }, { name: 'Operation' }, { name: 'When' }, { name: 'Who and where' }, { name: 'After' }, { name: 'Slack to the end', isFigure: true }, { name: 'to the promise', isFigure: true }, { name: 'Logged', isFigure: true }]}>
      {groups.map(({ zone, rows }) => (
        <>
          <GroupRow name={zone} span={8} />
          {rows.map((row) => <Row row={row} />)}
        </>
      ))}
    </Table>
  )
}

function Row({ row: { number, name, href, when, who, after, isOnChain, slack, toPromise, logged } }: { row: BarRow }): JSX.Element {
  return (
    <tr id={`r${number}`} class={isOnChain ? 'chain' : undefined}>
      <td class="no">{number}</td>
      <th scope="row"><a href={at(href)} safe>{name}</a></th>
      <WordCell text={when} /><WordCell text={who} /><WordCell is="after" text={after} />
      <FigureCell is="slack" text={slack?.text ?? 'nothing waits'} how={slack?.how} />
      <FigureCell is="to the promise" text={toPromise?.text ?? ''} how={toPromise?.how} />
      <FigureCell is="logged" text={logged} how="recorded" byHand />
    </tr>
  )
}

function Key(): JSX.Element {
  return (
    <p class="key">
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="bar" d="M1 1h32v12H1z" /></svg> planned</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="bar thick" d="M2 2h30v10H2z" /></svg> without slack: the chain</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="did" d="M1 5h32v4H1z" /></svg> logged</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="again" d="M1 2h32v10H1z" /></svg> logged as rework</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="cures" d="M1 7h32" /></svg> cures, nobody needed</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="away" d="M1 1h32v12H1z" /></svg> outside</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="shut" d="M1 0h32v14H1z" /></svg> shop closed</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="promise" d="M17 0v14" /></svg> promised</span>
      <span><svg class="bars" width="34" height="14" aria-hidden="true"><path class="chance" d="M17 0v14" /></svg> ends by then in 50, 80, 90 of 100 cases</span>
    </p>
  )
}
