import type { EntryKind } from '../../server/shared/records/field.ts'
import { defaultUnit } from '../../server/calc/units.ts'
import { CheckEntry, ChecksEntry, ChoiceEntry, DateEntry, Fields, Form, LongEntry, problemOf, QuantityEntry, TextEntry } from '../shared/form.tsx'
import type { Place } from '../shared/frame.tsx'
import { Frame } from '../shared/frame.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { Strip, TitleCell, Trail } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface FormEntry {
  readonly name: string
  readonly label: string
  readonly note: string
  readonly isRequired: boolean
  readonly entry: EntryKind
  readonly value: string | readonly string[]
  readonly options: readonly { readonly value: string, readonly text: string }[]
}

export interface FormPageData {
  readonly place: Place
  readonly trail: readonly TrailStep[]
  readonly title: string
  readonly action: string
  readonly key: string
  readonly version: number | null
  readonly hidden: readonly (readonly [name: string, value: string])[]
  readonly entries: readonly FormEntry[]
  readonly problems: readonly FieldProblem[]
  readonly submit: string
  readonly cancelHref: string
  /** Whether the form for the next one follows when this is saved; null where it makes no sense. */
  readonly another: boolean | null
}

/** The form of any record; shown again as it was typed when something in it cannot be taken. */
export function FormPage({ viewer, data }: { viewer: Viewer, data: FormPageData }): JSX.Element {
  const own = new Set(data.entries.map((entry) => entry.name))
  return (
    <Frame title={data.title} place={data.place} viewer={viewer}>
      <Trail steps={[...data.trail, { name: data.title }]} />
      <Strip><TitleCell label={data.version === null ? 'New' : 'Change'} title={data.title} /></Strip>
      <section class="block">
        <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} version={data.version ?? undefined}
          problems={data.problems} submit={data.submit} cancelHref={data.cancelHref}>
          {data.hidden.filter(([name]) => !own.has(name)).map(([name, value]) => <input type="hidden" name={name} value={value} />)}
          <Fields>
            {data.entries.map((entry) => <Entry viewer={viewer} entry={entry} problems={data.problems} />)}
            {data.another === null ? '' : (
              <CheckEntry name="_another" label="And then" says="open an empty form for the next one" value={data.another} />
            )}
          </Fields>
        </Form>
      </section>
    </Frame>
  )
}

function Entry({ viewer, entry, problems }: { viewer: Viewer, entry: FormEntry, problems: readonly FieldProblem[] }): JSX.Element {
  const { name, label, isRequired, value, entry: kind } = entry
  const note = entry.note === '' ? undefined : entry.note
  const shared = { name, label, note, required: isRequired, problem: problemOf(problems, name) }
  const line = typeof value === 'string' ? value : value.join(',')
  const many = typeof value === 'string' ? value.split(',') : value
  const options = entry.options.map((option) => ({ value: option.value, label: option.text }))
  if (kind.as === 'long') return <LongEntry {...shared} value={line} />
  if (kind.as === 'date') return <DateEntry {...shared} value={line} />
  if (kind.as === 'check') return <CheckEntry {...shared} says="yes" value={['yes', 'true', 'on'].includes(line)} />
  if (kind.as === 'quantity') return <QuantityEntry {...shared} value={line} unit={unitOf(kind.measures, viewer)} />
  if (kind.as === 'money') return <QuantityEntry {...shared} value={line} unit={viewer.currency} />
  if (kind.as === 'choice' || kind.as === 'reference') {
    return <ChoiceEntry {...shared} value={line} options={options} none={isRequired && line !== '' ? undefined : 'choose'} />
  }
  if (kind.as === 'checks' || kind.as === 'references') return <ChecksEntry {...shared} values={many} options={options} />
  return <TextEntry {...shared} value={line} isNumber={kind.as === 'whole'} />
}

const unitOf = (measures: Parameters<typeof defaultUnit>[0], viewer: Viewer): string => defaultUnit(measures, viewer.units)
