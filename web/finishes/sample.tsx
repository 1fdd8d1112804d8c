import { at } from '../shared/asset.ts'
import { ChoiceEntry, DateEntry, Fields, Form, problemOf, TextEntry } from '../shared/form.tsx'
import { Mark } from '../shared/marks.tsx'
import type { PostProps } from '../shared/post.tsx'
import { Post } from '../shared/post.tsx'
import { escapeProse } from '../shared/text.ts'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface SampleData {
  /** Where the sample stands, in a sentence. */
  readonly state: string
  readonly isApproved: boolean
  /** By which change an approval was taken back; empty for most. */
  readonly takenBack: string
  readonly scheduleHref: string
  /** Left out where it was shown already. */
  readonly shown?: PostProps | undefined
  /** Left out for those who do not talk with the customer. */
  readonly form?: {
    readonly action: string
    readonly key: string
    readonly typed: { readonly decision: string, readonly by: string, readonly on: string, readonly why: string }
    readonly decisions: readonly string[]
    readonly problems: readonly FieldProblem[]
  } | undefined
}

/** The sample of a finish: where it stands, that it was shown, and what the customer decided. */
export function SampleBlock({ viewer, data }: { viewer: Viewer, data: SampleData }): JSX.Element {
  const safeState = escapeProse(data.state)
  return (
    <section class="block">
      <h2>Sample</h2>
      <p><Mark name={data.isApproved ? 'done' : 'point'} byHand={data.isApproved} /> {safeState}</p>
      {data.takenBack === '' ? '' : <p><strong safe>{data.takenBack}</strong> A sample of it as it is now has to be approved.</p>}
      {data.isApproved ? <p class="quiet">Changing kind, material, color, code or batch takes the approval back.</p>
        : <p class="quiet">Until it is approved, the operations that lay this finish on cannot start.</p>}
      {data.shown === undefined ? '' : <div class="deed"><Post post={data.shown} csrfToken={viewer.csrfToken}>The sample was shown</Post></div>}
      {data.form === undefined ? <p class="quiet">Whoever talks with the customer writes down the decision.</p> : <Decision viewer={viewer} form={data.form} />}
      <p><a class="link" href={at(data.scheduleHref)}>Finish schedule of the build</a></p>
    </section>
  )
}

function Decision({ viewer, form: { action, key, typed, decisions, problems } }: { viewer: Viewer, form: NonNullable<SampleData['form']> }): JSX.Element {
  return (
    <>
      <h3 class="heading">What the customer decided</h3>
      <Form action={action} csrfToken={viewer.csrfToken} idempotencyKey={key} problems={problems} submit="Write down the decision">
        <Fields>
          <ChoiceEntry name="decision" label="Decision" value={typed.decision} options={decisions.map((value) => ({ value, label: value }))} problem={problemOf(problems, 'decision')} required />
          <TextEntry name="by" label="By whom" value={typed.by} problem={problemOf(problems, 'by')} required />
          <DateEntry name="on" label="On" value={typed.on} note="Left empty: today." problem={problemOf(problems, 'on')} />
          <TextEntry name="why" label="Why" value={typed.why} note="Needed for a refusal: the next sample is made by it." problem={problemOf(problems, 'why')} />
        </Fields>
      </Form>
    </>
  )
}
