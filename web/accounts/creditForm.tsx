import type { Working } from '../../server/calc/amounts.ts'
import { Explained } from '../shared/figure.tsx'
import { ChoiceEntry, Fields, Form, LongEntry, problemOf, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Cell, Strip, TitleCell, Trail, type TrailStep } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface CreditFormData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  /** What is left of the invoice, with tax. */
  readonly left: Working
  readonly what: 'whole' | 'chosen'
  readonly lines: readonly { readonly key: string, readonly text: string, readonly left: string, readonly typed: string }[]
  readonly note: string
  readonly problems: readonly FieldProblem[]
  readonly action: string
  readonly key: string
  readonly cancelHref: string
}

/** A credit note: all that is left of an invoice, or a net amount at each line. */
export function CreditFormPage({ viewer, data }: { viewer: Viewer, data: CreditFormData }): JSX.Element {
  const { problems } = data
  const entry = (name: string, label: string, note?: string) => ({ name, label, note, problem: problemOf(problems, name) })
  return (
    <Frame title={`Credit note on ${data.number}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip><TitleCell label={data.number} title="Credit note" /><Cell label="Left of the invoice, with tax" width="w4"><Explained working={data.left} reader={viewer} /></Cell></Strip>
      <section class="block">
        <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={problems} submit="Issue the credit note" cancelHref={data.cancelHref} note="It takes the next number and is never changed.">
          <Fields>
            <ChoiceEntry {...entry('what', 'Credit')} value={data.what} options={[{ value: 'whole', label: 'all that is left of the invoice' }, { value: 'chosen', label: 'the amounts below' }]} />
            <LongEntry {...entry('note', 'Why', 'Stands on the paper.')} value={data.note} />
          </Fields>
          <Fields legend={`Net amounts, ${viewer.currency}`}>
            {data.lines.map(({ key, text, left, typed }) => <TextEntry {...entry(key, text, `At most ${left}.`)} value={typed} isNumber />)}
          </Fields>
        </Form>
        <p class="quiet">Tax is taken back by code on the sum of the amounts, as it was charged. Hours and things of an invoice that is credited whole can be invoiced again.</p>
      </section>
    </Frame>
  )
}
