import { at } from './asset.ts'

export interface FirstStep {
  readonly title: string
  readonly why: string
  readonly example: string
  readonly href: string
  readonly button: string
}

/** What to enter first in an empty place: why, an example, a button. The first button alone is filled. */
export function FirstSteps({ steps }: { steps: readonly FirstStep[] }): JSX.Element {
  return <ol class="first-steps">{steps.map((step, index) => <Step step={step} number={index + 1} />)}</ol>
}

function Step({ step, number }: { step: FirstStep, number: number }): JSX.Element {
  return (
    <li>
      <span class="balloon" aria-hidden="true">{number}</span>
      <div><h2 class="subject" safe>{step.title}</h2><p safe>{step.why}</p></div>
      <p class="example"><span class="label">For example</span><span safe>{step.example}</span></p>
      <a class={['button', number === 1 && 'first']} href={at(step.href)} safe>{step.button}</a>
    </li>
  )
}
