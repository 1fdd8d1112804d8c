import { at } from '../shared/asset.ts'
import type { Option } from '../shared/entries.tsx'
import { ChoiceEntry, DateEntry, Fields, Form, problemOf, QuantityEntry, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface EntryFormData {
  readonly label: string
  readonly title: string
  /** Whose hours, where they are not the reader's own. */
  readonly whose: string
  readonly action: string
  readonly key: string
  readonly hidden: readonly (readonly [name: string, value: string])[]
  readonly typed: {
    readonly operationId: string
    readonly date: string
    readonly time: string
    readonly kind: string
    readonly why: string
    readonly personId: string
  }
  readonly timeNote: string
  readonly operations: readonly Option[]
  /** For managers, who may log for somebody else. */
  readonly people: readonly Option[]
  /** Another build can be looked for as long as nothing is logged yet. */
  readonly builds?: { readonly buildId: string, readonly options: readonly Option[] } | undefined
  readonly problems: readonly FieldProblem[]
  readonly submit: string
  readonly cancelHref: string
  /** The entry as it was written first, and every correction since, the first one first. */
  readonly written: readonly string[]
}

const KINDS: readonly Option[] = [
  { value: 'work', label: 'work' }, { value: 'rework', label: 'rework: it had to be done again' }, { value: 'waiting', label: 'waiting: nothing could be done' },
]

/** Hours after the fact, or their correction. */
export function EntryFormPage({ viewer, data }: { viewer: Viewer, data: EntryFormData }): JSX.Element {
  return (
    <Frame title={data.title} place="now" viewer={viewer}>
      <Strip>
        <TitleCell label={data.label} title={data.title} />
        {data.whose === '' ? '' : <TextCell label="Whose hours" text={data.whose} />}
      </Strip>
      {data.written.length === 0 ? '' : <Written lines={data.written} />}
      {data.builds === undefined ? '' : <OtherBuild builds={data.builds} />}
      {data.operations.length === 0 && data.problems.length === 0 ? <NoOperations /> : <Entries viewer={viewer} data={data} />}
    </Frame>
  )
}

function Entries({ viewer, data }: { viewer: Viewer, data: EntryFormData }): JSX.Element {
  const { typed, problems } = data
  const problem = (name: string) => problemOf(problems, name)
  return (
    <section class="block">
      <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={problems} submit={data.submit} cancelHref={data.cancelHref}>
        {data.hidden.map(([name, value]) => <input type="hidden" name={name} value={value} />)}
        <Fields>
          <ChoiceEntry name="operationId" label="Operation" value={typed.operationId} options={data.operations} none="choose" required problem={problem('operationId')} />
          <DateEntry name="date" label="Date" value={typed.date} required problem={problem('date')} />
          <QuantityEntry name="time" label="Hours" value={typed.time} unit="h" required note={data.timeNote} problem={problem('time')} />
          <ChoiceEntry name="kind" label="Kind" value={typed.kind} options={KINDS} problem={problem('kind')} />
          <TextEntry name="why" label="Why" value={typed.why} note="Needed for rework and waiting: what had to be done again, or what was waited for." problem={problem('why')} />
          {data.people.length === 0 ? '' : <ChoiceEntry name="personId" label="Whose hours" value={typed.personId} options={data.people} problem={problem('personId')} />}
        </Fields>
      </Form>
    </section>
  )
}

function OtherBuild({ builds }: { builds: NonNullable<EntryFormData['builds']> }): JSX.Element {
  return (
    <form class="alone" method="get" action={at('/hours/new')}>
      <div class="fields"><ChoiceEntry name="build" label="Build" value={builds.buildId} options={builds.options} none="choose" /></div>
      <div class="deed"><button class="button" type="submit">Show its operations</button></div>
    </form>
  )
}

function NoOperations(): JSX.Element {
  return <section class="block"><p>Hours are logged on operations. Choose a build that has some, or ask the manager to enter an operation on the part.</p></section>
}

function Written({ lines }: { lines: readonly string[] }): JSX.Element {
  return (
    <section class="block">
      <h2>As it was written</h2>
      <ol class="plainlist">{lines.map((line) => <li safe>{line}</li>)}</ol>
      <p class="quiet">Nothing of this is changed: the correction stands beside it and counts instead.</p>
    </section>
  )
}
