import { asset } from '../shared/asset.ts'
import { ChoiceEntry, Fields, Form, LongEntry, problemOf, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { SignatureEntry } from '../shared/signature.tsx'
import { Strip, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface MoveFormData {
  readonly trail: readonly TrailStep[]
  readonly kind: string
  /** F-021 Door panel, in a bin: what is meant by the numbers. */
  readonly chosen: readonly string[]
  readonly bins: readonly { readonly value: string, readonly label: string }[]
  readonly asksPlace: boolean
  readonly values: Readonly<Record<'parts' | 'bin' | 'place' | 'toWhom' | 'signedName' | 'note', string>>
  readonly problems: readonly FieldProblem[]
  readonly action: string
  readonly key: string
  readonly cancelHref: string
}

const TITLES: Readonly<Record<string, string>> = {
  'stored': 'Move to a bin or place', 'handed to the customer': 'Hand to the customer', 'brought back': 'Brought back by the customer',
  'disposed with consent': 'Disposed of, with consent', 'missing': 'Missing', 'found again': 'Found again',
}

/** One move of one or more factory parts: only what this kind of move needs. */
export function MoveFormPage({ viewer, data }: { viewer: Viewer, data: MoveFormData }): JSX.Element {
  const { values, problems, kind } = data
  const entry = (name: string, label: string, note?: string) => ({ name, label, note, problem: problemOf(problems, name) })
  const title = TITLES[kind] ?? kind
  return (
    <Frame title={title} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip><TitleCell label="Factory parts" title={title} /></Strip>
      <section class="block">
        <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={problems} submit={SUBMITS[kind] ?? 'Save'} cancelHref={data.cancelHref} note={NOTES[kind]}>
          <input type="hidden" name="kind" value={kind} />
          <Fields>
            <TextEntry {...entry('parts', 'Factory parts', data.chosen.length === 0 ? 'Their numbers, as F-021, F-022.' : `${data.chosen.join('; ')}.`)} value={values.parts} required />
            {data.asksPlace ? <ChoiceEntry {...entry('bin', 'Bin')} value={values.bin} options={data.bins} none="no bin" /> : ''}
            {data.asksPlace ? <TextEntry {...entry('place', 'Or the place', 'Where no bin holds it: on the wall, shelf 4.')} value={values.place} /> : ''}
            {kind === 'disposed with consent' ? <TextEntry {...entry('toWhom', 'Whose consent', 'Whoever may decide about the vehicle. Local law decides in which form.')} value={values.toWhom} required /> : ''}
            {kind === 'handed to the customer' ? <Handing entry={entry} values={values} /> : ''}
            <LongEntry {...entry('note', 'Note')} value={values.note} />
          </Fields>
        </Form>
      </section>
      <script src={asset('intake.js')} defer></script>
    </Frame>
  )
}

const SUBMITS: Readonly<Record<string, string>> = {
  'stored': 'Move there', 'handed to the customer': 'Hand over', 'brought back': 'Take in again', 'disposed with consent': 'Record the disposal', 'missing': 'Mark as missing', 'found again': 'Found, and put there',
}
const NOTES: Readonly<Record<string, string>> = {
  'handed to the customer': 'A receipt to print follows.',
  'missing': 'The way back to stock then counts a new one.',
  'disposed with consent': 'Without consent nothing is thrown away.',
}

interface HandingProps {
  readonly entry: (name: string, label: string, note?: string) => { name: string, label: string, note: string | undefined, problem: ReturnType<typeof problemOf> }
  readonly values: MoveFormData['values']
}

function Handing({ entry, values }: HandingProps): JSX.Element {
  return (
    <>
      <TextEntry {...entry('place', 'Where it is kept', 'If the customer says so: at home, in the garage.')} value={values.place} />
      <TextEntry {...entry('signedName', 'Taken home by', 'Name of whoever signs. A typed name is enough.')} value={values.signedName} required autocomplete="name" />
      <SignatureEntry />
    </>
  )
}
