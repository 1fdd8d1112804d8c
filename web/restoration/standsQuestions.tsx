import { ChecksEntry, ChoiceEntry, Fields, Form, problemOf } from '../shared/form.tsx'
import type { FieldProblem } from '../shared/viewer.ts'

export interface StandsQuestionData {
  /** As "F-022 Door panel". */
  readonly part: string
  readonly number: string
  readonly action: string
  readonly idempotencyKey: string
  readonly back: readonly (readonly [name: string, value: string])[]
  readonly items: readonly { readonly number: string, readonly name: string, readonly value: string }[]
  /** What stood in front as found and is back on. */
  readonly still: readonly { readonly number: string, readonly name: string, readonly isChosen: boolean }[]
  readonly problems: readonly FieldProblem[]
}

/** Factory parts that went back on after something was installed: which now stand in front of which. */
export function StandsQuestions({ questions, csrfToken }: { questions: readonly StandsQuestionData[], csrfToken: string }): JSX.Element {
  return <>{questions.map((question) => <Question question={question} csrfToken={csrfToken} />)}</>
}

function Question({ question: { part, number, action, idempotencyKey, back, items, still, problems }, csrfToken }: { question: StandsQuestionData, csrfToken: string }): JSX.Element {
  const options = [
    { value: 'front', label: `${number} comes out before it` }, { value: 'behind', label: `it comes out before ${number}` },
  ]
  return (
    <section class="block on-screen asked">
      <h2><span safe>{part}</span> is back on: what stands in front of what now?</h2>
      <Form action={action} csrfToken={csrfToken} idempotencyKey={idempotencyKey} problems={problems} submit="Add what is chosen" note="As built. What is left at “neither” adds nothing, and is not asked again until the part was out once more.">
        <input type="hidden" name="part" value={number} />
        {back.map(([name, value]) => <input type="hidden" name={name} value={value} />)}
        <Fields>
          {items.map((item) => <ChoiceEntry name={`item-${number}-${item.number}`} label={item.name} value={item.value} options={options} none="neither" problem={problemOf(problems, `item-${number}-${item.number}`)} />)}
          {still.length === 0 ? '' : (
            <ChecksEntry name={`still-${number}`} label="Still in front, as found" values={still.filter(({ isChosen }) => isChosen).map((one) => one.number)}
              options={still.map((one) => ({ value: one.number, label: one.name }))} problem={problemOf(problems, `still-${number}`)} />
          )}
        </Fields>
      </Form>
    </section>
  )
}
