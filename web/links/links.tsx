import { ChoiceEntry, Fields, Form, problemOf, TextEntry } from '../shared/form.tsx'
import type { Option } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { LinkTable, MadeLink } from '../shared/linkTable.tsx'
import type { LinkRow, Made } from '../shared/linkTable.tsx'
import { Saved } from '../shared/saved.tsx'
import { NumberCell, Strip, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

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
  readonly made?: Made
  readonly isWithdrawn?: boolean
}

/** Pages of a build that others may read without signing in, and for how long. */
export function LinksPage({ viewer, data }: { viewer: Viewer, data: LinksData }): JSX.Element {
  return (
    <Frame title={`${data.number} Links`} place="builds" viewer={viewer}>
      {data.isWithdrawn === true ? <Saved what="the link, withdrawn: from now on it leads nowhere" csrfToken={viewer.csrfToken} /> : ''}
      {data.made === undefined ? '' : <MadeLink made={data.made} />}
      <Trail steps={data.trail} />
      <Strip><NumberCell label="Build" number={data.number} /><TitleCell label="Without sign-in" title="Links" /></Strip>
      <section class="block">
        <p>Whoever holds a link reads that one page and changes nothing. The shop cannot see who opens it. A link ends by itself, or when it is withdrawn here.</p>
        {data.links.length === 0 ? <p class="quiet">None yet.</p> : <LinkTable viewer={viewer} links={data.links} caption="Links of this build" path="/links" />}
      </section>
      {data.offered.length === 0 ? <section class="block"><p>Nothing of this build can be shared yet: freeze a return-to-stock sheet first.</p></section> : <NewLink viewer={viewer} data={data} />}
    </Frame>
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
