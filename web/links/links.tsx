import { at } from '../shared/asset.ts'
import { ChoiceEntry, Fields, Form, problemOf, TextEntry } from '../shared/form.tsx'
import type { Option } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Saved } from '../shared/saved.tsx'
import { NumberCell, Strip, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface LinkRow {
  readonly id: string
  readonly to: string
  readonly forWhom: string
  /** When and by whom. */
  readonly made: string
  readonly until: string
  readonly state: 'open' | 'expired' | 'withdrawn'
  /** Of the form that withdraws it; null where it is over or this reader may not. */
  readonly key: string | null
}

export interface LinksData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly action: string
  readonly key: string
  readonly usualDays: number
  readonly offered: readonly Option[]
  readonly typed: { readonly subject: string, readonly note: string, readonly days: string }
  readonly links: readonly LinkRow[]
  readonly problems?: readonly FieldProblem[]
  /** A link right after it was made; its address is null when the request was a repetition. */
  readonly made?: { readonly name: string, readonly address: string | null }
  readonly isWithdrawn?: boolean
}

const COLUMNS = [{ name: 'For whom' }, { name: 'Leads to' }, { name: 'Made' }, { name: 'Until' }, { name: 'State' }, { name: 'Withdraw', isUnseen: true }]

/** Pages of a build that others may read without signing in, and for how long. */
export function LinksPage({ viewer, data }: { viewer: Viewer, data: LinksData }): JSX.Element {
  return (
    <Frame title={`${data.number} Links`} place="builds" viewer={viewer}>
      {data.isWithdrawn === true ? <Saved what="the link, withdrawn: from now on it leads nowhere" csrfToken={viewer.csrfToken} /> : ''}
      {data.made === undefined ? '' : <Made made={data.made} />}
      <Trail steps={data.trail} />
      <Strip><NumberCell label="Build" number={data.number} /><TitleCell label="Without sign-in" title="Links" /></Strip>
      <section class="block">
        <p>Whoever holds a link reads that one page and changes nothing. The shop cannot see who opens it. A link ends by itself, or when it is withdrawn here.</p>
        {data.links.length === 0 ? <p class="quiet">None yet.</p> : <LinkTable viewer={viewer} links={data.links} />}
      </section>
      {data.offered.length === 0 ? <section class="block"><p>Nothing of this build can be shared yet: freeze a return-to-stock sheet first.</p></section> : <NewLink viewer={viewer} data={data} />}
    </Frame>
  )
}

function LinkTable({ viewer, links }: { viewer: Viewer, links: readonly LinkRow[] }): JSX.Element {
  return (
    <Table columns={COLUMNS} caption="Links of this build">
      {links.map((link) => (
        <tr>
          <th scope="row" safe>{link.forWhom}</th>
          <WordCell is="leads to" text={link.to} />
          <WordCell is="made" text={link.made} />
          <WordCell is="until" text={link.until} />
          <WordCell is="state" text={link.state} />
          <td class="right">{link.key === null ? '' : <Withdraw viewer={viewer} link={link} idempotencyKey={link.key} />}</td>
        </tr>
      ))}
    </Table>
  )
}

function Withdraw({ viewer, link, idempotencyKey }: { viewer: Viewer, link: LinkRow, idempotencyKey: string }): JSX.Element {
  return (
    <form method="post" action={at(`/links/${link.id}/revocations`)}>
      <input type="hidden" name="_csrf" value={viewer.csrfToken} />
      <input type="hidden" name="_key" value={idempotencyKey} />
      <button class="button" type="submit">Withdraw<span class="unseen" safe>{` the link for ${link.forWhom}`}</span></button>
    </form>
  )
}

function NewLink({ viewer, data }: { viewer: Viewer, data: LinksData }): JSX.Element {
  const problems = data.problems ?? []
  return (
    <section>
      <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={problems} submit="Make a link">
        <Fields legend="A new link">
          <ChoiceEntry name="subject" label="Leads to" value={data.typed.subject || (data.offered[0]?.value ?? '')} options={data.offered} problem={problemOf(problems, 'subject')} required />
          <TextEntry name="note" label="For whom" value={data.typed.note} problem={problemOf(problems, 'note')} required note="Imre at Harrow Lane Bakery; the shop in Tarn that takes the wagon back." />
          <TextEntry name="days" label="Valid for days" value={data.typed.days} problem={problemOf(problems, 'days')} isNumber
            note={`${data.usualDays} unless you say otherwise. A lease or a resale may be years away.`} />
        </Fields>
      </Form>
    </section>
  )
}

/** The address of a new link, this once. */
function Made({ made }: { made: { readonly name: string, readonly address: string | null } }): JSX.Element {
  return (
    <section class="block" role="status">
      <h2>Link made: <span safe>{made.name}</span></h2>
      {made.address === null ? <p>It was made, and its address shown, before this page was sent again. If nobody kept it, withdraw it and make another.</p> : (
        <>
          <p class="formula" safe>{made.address}</p>
          <p>Shown this once: copy it now. Whoever has it can read the page.</p>
        </>
      )}
    </section>
  )
}
