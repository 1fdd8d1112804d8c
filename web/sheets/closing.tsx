import { ChoiceEntry, Fields, Form, problemOf, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Cell, NumberCell, Strip, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface ClosingData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly title: string
  readonly done: number
  readonly count: number
  /** What the records say otherwise than the ticked steps, in words. */
  readonly changes: readonly string[]
  readonly action: string
  readonly backHref: string
  readonly key: string
  readonly isClosed: boolean
  readonly note: string
  readonly problems: readonly FieldProblem[]
}

const RECORDS = [{ value: 'bring', label: 'bring the records to this' }, { value: 'leave', label: 'leave the records as they are' }]

/** Before a sheet ends: what it changes in the records, one by one. */
export function ClosingPage({ viewer, data }: { viewer: Viewer, data: ClosingData }): JSX.Element {
  return (
    <Frame title={`${data.number} Close`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip>
        <NumberCell label="Sheet" number={data.number} />
        <TitleCell label={data.title} title="Close this sheet" />
        <Cell label="Done" width="w2"><span class="figure recorded">{data.done} of {data.count}</span></Cell>
      </Strip>
      {data.isClosed ? <section class="block"><p>It is closed already.</p></section> : <Closing viewer={viewer} data={data} />}
    </Frame>
  )
}

function Closing({ viewer, data }: { viewer: Viewer, data: ClosingData }): JSX.Element {
  return (
    <section>
      <div class="block">
        <h2>What changes in the records</h2>
        {data.changes.length === 0 ? <p>Nothing: they say already what the ticked steps say.</p> : (
          <>
            <p>Only what is ticked on the sheet counts. All of it is changed in one go, or none.</p>
            <ul>{data.changes.map((words) => <li safe>{words}</li>)}</ul>
          </>
        )}
      </div>
      <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={data.problems} submit="Close the sheet" cancelHref={data.backHref}
        note="What a phone still has to send is taken afterwards too, and changes no record.">
        <Fields>
          {data.changes.length === 0 ? '' : <ChoiceEntry name="records" label="Records" value="bring" options={RECORDS} required />}
          <TextEntry name="note" label="Note" value={data.note} problem={problemOf(data.problems, 'note')} note={data.done === data.count ? 'What whoever looks at it later should know.' : 'Not all is done: why it ends here.'} />
        </Fields>
      </Form>
    </section>
  )
}
