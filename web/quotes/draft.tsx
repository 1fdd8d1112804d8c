import { at } from '../shared/asset.ts'
import { ChoiceEntry, Fields, Form, problemOf } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Post, type PostProps } from '../shared/post.tsx'
import { Saved } from '../shared/saved.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell, Trail, Turn } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'
import type { PaperView } from '../shared/paperData.ts'
import { PaperDeposits, PaperLines, PaperOptions, PaperSaid, PaperTotals } from '../shared/paperTables.tsx'

export interface RevisionRow {
  readonly href: string
  readonly number: string
  readonly frozen: string
  readonly standing: string
  readonly until: string
  readonly total: string
  /** The first groups of its hash. */
  readonly hash: string
  readonly differenceHref: string | null
}

export interface QuoteDraftData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly title: string
  readonly customer: string
  readonly total: { readonly text: string, readonly how: string }
  readonly standing: string
  readonly saved: string | null
  readonly view: PaperView
  /** Facts about the terms, and where they are changed; to begin with, a press. */
  readonly terms: readonly { readonly name: string, readonly text: string }[]
  readonly termsHref: string | null
  readonly begin: PostProps | null
  readonly adds: readonly { readonly name: string, readonly href: string }[]
  /** What the figures of the lines stand on, for the shop alone. */
  readonly notes: readonly string[]
  /** For a spreadsheet. */
  readonly csv: readonly { readonly name: string, readonly href: string }[]
  readonly steps: readonly { readonly name: string, readonly href: string }[]
  readonly chances: readonly { readonly name: string, readonly text: string, readonly how: string }[]
  readonly chancesOf: string
  readonly assign: { readonly action: string, readonly key: string, readonly things: readonly { readonly value: string, readonly label: string }[], readonly options: readonly { readonly value: string, readonly label: string }[], readonly problems: readonly FieldProblem[], readonly typed: { readonly thing: string, readonly option: string } } | null
  readonly hinders: readonly string[]
  readonly freeze: PostProps | null
  readonly accepted: string | null
  readonly revisions: readonly RevisionRow[]
  readonly linksHref: string
  readonly takingHref: string
}

/** The quote of a build as it would be frozen now, and the revisions that were. */
export function QuoteDraftPage({ viewer, data }: { viewer: Viewer, data: QuoteDraftData }): JSX.Element {
  return (
    <Frame title={`${data.number} ${data.title}`} place="builds" viewer={viewer}>
      {data.saved === null ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} />}
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Quote" number={data.number} />
        <TitleCell label={`For ${data.customer}`} title={data.title} isNamed />
        <Turn />
        <Cell label={`Total, ${data.view.totalsFor.toLowerCase()}`} width="w4"><a class="figure far" href={`?how=${data.total.how}`} safe>{data.total.text}</a></Cell>
        <TextCell label="Standing" width="w4" text={data.standing} />
      </Strip>
      {data.accepted === null ? '' : <section class="block"><p safe>{data.accepted}</p></section>}
      <div class="quote-halves">
        <div>
          <section class="block" aria-labelledby="lines"><h2 id="lines">Lines</h2><PaperLines view={data.view} />{data.notes.map((note) => <p class="quiet" safe>{note}</p>)}<p class="row">{data.adds.map(({ name, href }) => <a class="button" href={at(href)} safe>{name}</a>)}</p></section>
          <Options viewer={viewer} data={data} />
          <section class="block" aria-labelledby="sum">
            <h2 id="sum">Sum</h2>
            <PaperTotals totals={data.view.totals} caption={data.view.totalsFor} />
            <p class="quiet">Tax is worked out code by code on the sum of the lines. What is taxed how is for local law to say.</p>
          </section>
        </div>
        <div>
          <Terms viewer={viewer} data={data} />
          <section class="block" aria-labelledby="deposits">
            <h2 id="deposits">Deposits</h2>
            <PaperDeposits view={data.view} />
            <p class="row">{data.steps.map(({ name, href }) => <a href={at(href)} safe>{name}</a>)}</p>
          </section>
          <Chances data={data} />
        </div>
      </div>
      <Freezing viewer={viewer} data={data} />
      <Revisions data={data} />
    </Frame>
  )
}

function Options({ viewer, data: { view, assign } }: { viewer: Viewer, data: QuoteDraftData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="options">
      <h2 id="options">Options</h2>
      {view.options.length === 0 ? <p class="quiet">None. An option is something the customer says yes or no to, or one of several, each with its own price: drawer fronts in walnut; fabric or leather.</p> : <PaperOptions view={view} />}
      {assign === null ? '' : (
        <Form action={assign.action} csrfToken={viewer.csrfToken} idempotencyKey={assign.key} problems={assign.problems} submit="Put it there" alone>
          <Fields>
            <ChoiceEntry name="thing" label="Put into an option, or out of it" value={assign.typed.thing} options={assign.things} none="choose equipment or a made part" problem={problemOf(assign.problems, 'thing')} required />
            <ChoiceEntry name="option" label="Option" value={assign.typed.option} options={assign.options} none="in none: always part of it" problem={problemOf(assign.problems, 'option')} />
          </Fields>
        </Form>
      )}
    </section>
  )
}

function Terms({ viewer, data }: { viewer: Viewer, data: QuoteDraftData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="terms">
      <h2 id="terms">Terms</h2>
      <dl class="facts">{data.terms.map(({ name, text }) => <div><dt class="quiet" safe>{name}</dt><dd safe>{text}</dd></div>)}</dl>
      <PaperSaid view={data.view} />
      {data.termsHref === null ? '' : <p><a class="button" href={at(data.termsHref)}>Change the terms</a></p>}
      {data.accepted === null ? <p><a href={at(data.takingHref)}>Can we take it by then?</a></p> : ''}
      {data.begin === null ? '' : <div class="row"><Post post={data.begin} csrfToken={viewer.csrfToken}>Begin the quote</Post><span class="quiet">So far these are the shop’s own.</span></div>}
    </section>
  )
}

function Chances({ data: { chances, chancesOf } }: { data: QuoteDraftData }): JSX.Element {
  if (chances.length === 0) return <section class="block" aria-labelledby="chances"><h2 id="chances">What it may come to</h2><p class="quiet">No operation has three values, and there are no closed ones of these kinds, so the price has no spread yet.</p></section>
  return (
    <section class="block" aria-labelledby="chances">
      <h2 id="chances">What it may come to</h2>
      <Table class="money" columns={[{ name: 'Price at the shop’s rates' }, { name: 'Without tax', isFigure: true }]} caption="Price by chance">
        {chances.map(({ name, text, how }) => <tr><th scope="row" safe>{name}</th><FigureCell is="price" text={text} how={how} of={chancesOf} /></tr>)}
      </Table>
      <p class="quiet">Of the estimate with all options, without supplies and further lines. The customer never sees this.</p>
    </section>
  )
}

function Freezing({ viewer, data: { hinders, freeze } }: { viewer: Viewer, data: QuoteDraftData }): JSX.Element {
  if (freeze === null && hinders.length === 0) return <></>
  return (
    <section class="block" aria-labelledby="freeze">
      <h2 id="freeze">Freeze it</h2>
      {hinders.length === 0 ? '' : <><p>Before it can be frozen:</p><ul>{hinders.map((words) => <li safe>{words}</li>)}</ul></>}
      {freeze === null ? '' : (
        <div class="row">
          <Post post={freeze} csrfToken={viewer.csrfToken} class="button first">Freeze this revision</Post>
          <span class="quiet">It gets a number and a hash, and nothing on it changes again. An older open revision is superseded. Many places ask for a written estimate and consent before work: local law decides.</span>
        </div>
      )}
    </section>
  )
}

function Revisions({ data: { revisions, linksHref, csv } }: { data: QuoteDraftData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="revisions">
      <h2 id="revisions">Revisions</h2>
      {revisions.length === 0 ? <p class="quiet">None frozen yet.</p> : (
        <>
          <Table columns={[{ name: 'Revision' }, { name: 'Frozen' }, { name: 'Standing' }, { name: 'Good until' }, { name: 'Total', isFigure: true }, { name: 'Content' }, { name: 'Changes' }]} caption="Frozen revisions">
            {revisions.map((row) => (
              <tr>
                <th scope="row"><a class="no" href={at(row.href)} safe>{row.number}</a></th>
                <WordCell is="frozen" text={row.frozen} /><WordCell is="standing" text={row.standing} /><WordCell is="good until" text={row.until} />
                <FigureCell is="total" text={row.total} how="recorded" />
                <td class="no" data-is="content" safe>{row.hash}</td>
                <td>{row.differenceHref === null ? '' : <a href={at(row.differenceHref)}>What changed</a>}</td>
              </tr>
            ))}
          </Table>
        </>
      )}
      <p class="row">{revisions.length === 0 ? '' : <a href={at(linksHref)}>Links for the customer</a>}{csv.map(({ name, href }) => <a href={at(href)} safe>{name}</a>)}</p>
    </section>
  )
}
