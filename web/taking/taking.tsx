import { at } from '../shared/asset.ts'
import { DateEntry, Fields, problemOf } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { RowFigure } from '../shared/figure.tsx'
import { Mark } from '../shared/marks.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface TakingData {
  readonly build: string
  readonly buildHref: string
  /** What is asked, as the rest of the page's address. */
  readonly address: string
  readonly typed: { readonly by: string, readonly from: string }
  readonly problems: readonly FieldProblem[]
  /** Why there is no answer, and where to go. */
  readonly instead: { readonly words: string, readonly link: { readonly href: string, readonly name: string } | null } | null
  readonly found: TakingFound | null
}

export interface TakingFound {
  readonly answer: string
  readonly startsOn: string | null
  /** The day asked about. */
  readonly by: string | null
  readonly ends: readonly { readonly name: string, readonly how: string, readonly on: string, readonly beside: string }[]
  /** How many of 100 cases end by the day asked about. */
  readonly chance: string | null
  readonly hasChances: boolean
  /** When the plan in force was taken. */
  readonly planned: string | null
  readonly isStale: boolean
  /** Why part of it can be done by nobody. */
  readonly cannot: readonly string[]
  readonly limits: readonly { readonly what: string, readonly on: string, readonly gain: string }[]
  /** Who ends later if it goes first; null where even then not all fits. */
  readonly later: readonly { readonly name: string, readonly href: string, readonly kept: string, readonly then: string, readonly due: string, readonly late: string }[] | null
}

/** Whether the shop can take a build by a day, beside all that is planned. A question in the address, nothing that is kept. */
export function TakingPage({ viewer, data }: { viewer: Viewer, data: TakingData }): JSX.Element {
  return (
    <Frame title={`Can we take it, ${data.build}`} place="builds" viewer={viewer}>
      <Trail steps={[{ name: data.build, href: data.buildHref }, { name: 'Can we take it' }]} />
      <Strip>
        <TitleCell label={data.build} title="Can we take it by then?" />
        <TextCell label="Written down" width="w4" text="nothing" more="plan and build stay as they are" />
      </Strip>
      {data.instead === null ? '' : (
        <section class="block">
          <p safe>{data.instead.words}</p>
          {data.instead.link === null ? '' : <p><a class="button" href={at(data.instead.link.href)} safe>{data.instead.link.name}</a></p>}
        </section>
      )}
      {data.found === null ? '' : <Answer data={data} found={data.found} />}
      {data.instead === null ? <Question data={data} /> : ''}
      {data.found === null ? '' : <><Limits found={data.found} /><Later found={data.found} /><Granted found={data.found} /></>}
    </Frame>
  )
}

function Answer({ data: { address }, found }: { data: TakingData, found: TakingFound }): JSX.Element {
  const { answer, by, startsOn, chance, planned, isStale } = found
  return (
    <section class="block" aria-labelledby="answer">
      <h2 id="answer">{by === null ? 'When it would be done' : <>Done by <span safe>{by}</span>?</>}</h2>
      <p class="lead" safe>{answer}</p>
      {chance === null ? '' : <p>The chance that it is done by that day: <RowFigure text={chance} how="by" on={address} />.</p>}
      {found.cannot.length === 0 ? '' : <ul>{found.cannot.map((why) => <li safe>{why}</li>)}</ul>}
      {found.ends.length === 0 ? '' : (
        <Table columns={[{ name: 'How' }, { name: 'Done on', isFigure: true }, ...(by === null ? [] : [{ name: 'Beside the day' }])]} caption="When it would be done">
          {found.ends.map(({ name, how, on, beside }) => (
            <tr><th scope="row" safe>{name}</th><FigureCell is="done on" text={on} how={how} on={address} />{by === null ? '' : <WordCell is="beside the day" text={beside} />}</tr>
          ))}
        </Table>
      )}
      {startsOn === null ? '' : <p class="quiet">Beside the plan its first work is on <span safe>{startsOn}</span>.</p>}
      {found.hasChances || found.ends.length === 0 ? '' : <p class="quiet">It has no chances: nobody has said how unsure its hours are. Enter best and worst hours on an operation.</p>}
      {planned === null ? <p><Mark name="point" /> No plan is in force, so a first plan of the shop was made for this question alone. <a class="link" href={at('/schedule')}>To the schedule</a></p> : ''}
      {isStale ? <p><Mark name="point" /> <strong>Things have changed since the plan was taken{planned === null ? '' : <> (<span safe>{planned}</span>)</>}: plan anew for a surer answer.</strong> <a class="link" href={at('/schedule')}>To the schedule</a></p> : ''}
    </section>
  )
}

function Question({ data: { typed, problems, buildHref } }: { data: TakingData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="question">
      <h2 id="question">The question</h2>
      <form method="get" action={at(`${buildHref}/can-we`)} class={[problems.length > 0 && 'unsaved']}>
        <Fields>
          <DateEntry name="by" label="Done by" value={typed.by} problem={problemOf(problems, 'by')} note="Left empty: whenever it would be done." />
          <DateEntry name="from" label="No work before" value={typed.from} problem={problemOf(problems, 'from')} note="As when the vehicle comes later. Left empty: today." />
        </Fields>
        <div class="deed"><button class="button first" type="submit">Work it out</button></div>
      </form>
    </section>
  )
}

function Limits({ found: { limits, ends } }: { found: TakingFound }): JSX.Element {
  if (ends.length === 0 && limits.length === 0) return ''
  return (
    <section class="block" aria-labelledby="limits">
      <h2 id="limits">What holds it up</h2>
      {limits.length === 0 ? <p>No single thing: with one person, bay or machine more it would end no earlier. Its own hours and waiting hold it up, or several things at once.</p> : (
        <Table columns={[{ name: 'With this alone' }, { name: 'Done on' }, { name: 'That is' }]} caption="With what it would be done earlier, the greatest gain first">
          {limits.map(({ what, on, gain }) => <tr><th scope="row" safe>{what}</th><WordCell is="done on" text={on} /><WordCell is="that is" text={gain} /></tr>)}
        </Table>
      )}
    </section>
  )
}

function Later({ found: { later, ends } }: { found: TakingFound }): JSX.Element {
  if (ends.length === 0) return ''
  return (
    <section class="block" aria-labelledby="later">
      <h2 id="later">If it goes first</h2>
      {later === null ? <p>Then no place was found for everything else in the next half year.</p> : later.length === 0 ? <p>No other build would end later than planned.</p> : (
        <Table columns={[{ name: 'Build' }, { name: 'As planned' }, { name: 'Then' }, { name: 'Due' }, { name: 'Late' }]} caption="Builds that would end later if it goes first">
          {later.map(({ name, href, kept, then, due, late }) => (
            <tr>
              <th scope="row"><a class="link" href={at(href)} safe>{name}</a></th>
              <WordCell is="as planned" text={kept} /><WordCell is="then" text={then} /><WordCell is="due" text={due} />
              <td>{late === '' ? '' : <><Mark name="point" /> <strong safe>{late}</strong></>}</td>
            </tr>
          ))}
        </Table>
      )}
    </section>
  )
}

function Granted({ found: { ends } }: { found: TakingFound }): JSX.Element {
  if (ends.length === 0) return ''
  return (
    <section class="block" aria-labelledby="granted">
      <h2 id="granted">What is taken for granted</h2>
      <ul>
        <li>As planned: everything in the plan stays where it is, and this build takes what room is left.</li>
        <li>If it goes first: the others keep their order and give way. A plan made anew may find a better way.</li>
        <li>Chances: hours of all builds run over or under by their three values, or as the shop’s closed operations of the kind did; order and people stay. Quotes that are not agreed take nobody’s time.</li>
      </ul>
    </section>
  )
}
