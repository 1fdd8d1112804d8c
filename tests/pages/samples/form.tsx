import { CheckEntry, ChecksEntry, ChoiceEntry, DateEntry, Fields, Form, LongEntry, QuantityEntry, TextEntry, problemOf } from '../../../web/shared/form.tsx'
import { Frame } from '../../../web/shared/frame.tsx'
import { History } from '../../../web/shared/history.tsx'
import { Saved } from '../../../web/shared/saved.tsx'
import { NumberCell, Strip, TitleCell, Trail } from '../../../web/shared/strip.tsx'
import type { FieldProblem, Viewer } from '../../../web/shared/viewer.ts'
import { part } from './part.ts'

/** A form with every kind of entry, as records build them. */
export function SampleForm({ viewer, problems }: { viewer: Viewer, problems: readonly FieldProblem[] }): JSX.Element {
  return (
    <Frame title="New operation" place="builds" viewer={viewer}>
      {problems.length > 0 ? '' : <Saved what="operation 40 of P-610" csrfToken={viewer.csrfToken} undo={{ action: '/operations/40/recovery', idempotencyKey: 'k', version: 2 }} next={{ href: '/parts/610', name: 'Back to P-610' }} />}
      <Trail steps={[{ name: 'B-0162 Field cab', href: '/builds/sample' }, { name: 'P-610 Woofer box', href: '/parts/610' }, { name: 'New operation' }]} />
      <Strip><NumberCell label="Part" number="P-610" /><TitleCell label="New" title="Operation 50" /></Strip>
      <Form action="/parts/610/operations" csrfToken={viewer.csrfToken} idempotencyKey="k" problems={problems} submit="Save operation 50" cancelHref="/parts/610" note="The estimate of the part changes with it.">
        <Fields legend="Work">
          <ChoiceEntry name="kind" label="Kind of operation" value="laminate" options={['cut', 'laminate', 'sand'].map((value) => ({ value, label: value }))} required />
          <ChoiceEntry name="skill" label="Skill" value="" none="choose" options={[{ value: 'a', label: 'laminating' }]} problem={problemOf(problems, 'skill')} required />
          <TextEntry name="crew" label="Hands" value="1" isNumber note="People at once." />
          <QuantityEntry name="thickness" label="Thickness" value={problems.length > 0 ? '3/0 in' : '18'} unit="mm" reads={problems.length > 0 ? undefined : '45/64 in'} problem={problemOf(problems, 'thickness')} note="Bare numbers are mm; or with a unit, as 3/4 in." />
          <QuantityEntry name="setUp" label="Set-up, once" value="0.75" unit="h" />
          <DateEntry name="expectedOn" label="Expected on" value="2027-02-12" />
        </Fields>
        <Fields legend="More">
          <ChecksEntry name="cautions" label="Cautions" values={['dust']} options={['dust', 'chemicals', 'heavy item'].map((value) => ({ value, label: value }))} note="They show above the work." problem={problemOf(problems, 'cautions')} />
          <CheckEntry name="isFitted" label="Fitted" says="It is in the vehicle" value={false} />
          <LongEntry name="note" label="Note" value={'<script>alert(1)</script>\nsecond line'} />
        </Fields>
      </Form>
      <History entries={part.history} />
    </Frame>
  )
}

export const formProblems: readonly FieldProblem[] = [
  { field: 'skill', message: 'Choose a skill: two people of the shop can laminate.' },
  { field: 'thickness', message: '"3/0 in" divides by zero: write a fraction as 7/16.' },
  { field: 'cautions', message: 'Say whether dust arises.' },
]
