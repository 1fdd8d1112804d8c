import { at } from '../shared/asset.ts'
import { ChoiceEntry, Fields, LongEntry, problemOf, TextEntry } from '../shared/form.tsx'
import { GroupField } from '../shared/field.tsx'
import { Frame } from '../shared/frame.tsx'
import { MarkPlan } from '../shared/markPlan.tsx'
import { FilesEntry, UploadScript } from '../shared/photos.tsx'
import { Strip, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'
import type { Body } from '../shared/zonePlaces.ts'

export interface MarkFormData {
  readonly trail: readonly TrailStep[]
  readonly action: string
  readonly key: string
  readonly cancelHref: string
  readonly body: Body
  /** Thousandths, where the outline was tapped; null where the place is chosen from lists. */
  readonly point: { readonly x: number, readonly y: number } | null
  readonly places: readonly string[]
  readonly kinds: readonly string[]
  readonly values: Readonly<Record<'place' | 'kind' | 'size' | 'note' | 'spot', string>>
  readonly problems: readonly FieldProblem[]
}

const SIDES = ['right side', 'middle', 'left side'] as const
const STEPS = ['to the front', 'there', 'to the rear'] as const

/** One mark of existing damage, with its pictures. */
export function MarkFormPage({ viewer, data }: { viewer: Viewer, data: MarkFormData }): JSX.Element {
  const { values, problems, point } = data
  const entry = (name: string, label: string, note?: string) => ({ name, label, note, problem: problemOf(problems, name) })
  const options = (names: readonly string[]) => names.map((name) => ({ value: name, label: name }))
  return (
    <Frame title="New mark" place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip><TitleCell label="New" title="Condition mark" /></Strip>
      {problems.length === 0 ? '' : (
        <section class="mend" role="alert"><h2>{problems.length} to correct. What you typed is still here; choose pictures again.</h2><ol>{problems.map(({ message }) => <li safe>{message}</li>)}</ol></section>
      )}
      <section class="block">
        {point === null ? '' : <MarkPlan body={data.body} marks={[{ number: 0, ...point, isLate: false }]} />}
        <form method="post" action={at(data.action)} enctype="multipart/form-data" novalidate data-upload>
          <input type="hidden" name="_csrf" value={viewer.csrfToken} />
          <input type="hidden" name="_key" value={data.key} />
          {point === null ? '' : <><input type="hidden" name="x" value={String(point.x)} /><input type="hidden" name="y" value={String(point.y)} /></>}
          <Fields>
            <ChoiceEntry {...entry('kind', 'What')} value={values.kind} options={options(data.kinds)} />
            <ChoiceEntry {...entry('place', 'Where')} value={values.place} options={options(data.places)} />
            {point === null ? <Spots chosen={values.spot} /> : ''}
            <TextEntry {...entry('size', 'Size', '4 cm long; a coin.')} value={values.size} />
            <LongEntry {...entry('note', 'Note')} value={values.note} />
          </Fields>
          <div class="upload"><FilesEntry label="Choose photos" /></div>
          <div class="deed">
            <button class="button first" type="submit">Save the mark</button>
            <a class="link" href={at(data.cancelHref)}>Leave without saving</a>
            <span class="quiet" data-progress role="status"></span>
          </div>
          <UploadScript />
        </form>
      </section>
    </Frame>
  )
}

function Spots({ chosen }: { chosen: string }): JSX.Element {
  return (
    <GroupField entry={{ name: 'spot', label: 'Which side of it', note: 'Front of the vehicle to the left, its right side on top, as on the plan.' }}>
      <div class="ways grid-three">
        {SIDES.flatMap((side, row) => STEPS.map((step, column) => {
          const value = `${column - 1},${row - 1}`
          return <label><input type="radio" name="spot" value={value} checked={chosen === value} /><span safe>{`${side}, ${step}`}</span></label>
        }))}
      </div>
    </GroupField>
  )
}
