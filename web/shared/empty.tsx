import { at } from './asset.ts'
import { Mark } from './marks.tsx'
import { Post } from './post.tsx'

export interface FirstStep {
  readonly title: string
  readonly why: string
  readonly example: string
  readonly href: string
  readonly button: string
  /** Ticked off by the data. */
  readonly isDone?: boolean
}

/** What to enter first in an empty place: why, an example, a button. The button of the first step not done is filled. */
export function FirstSteps({ steps }: { steps: readonly FirstStep[] }): JSX.Element {
  const next = steps.findIndex(({ isDone }) => isDone !== true)
  return <ol class="first-steps">{steps.map((step, index) => <Step step={step} number={index + 1} isNext={index === next} />)}</ol>
}

function Step({ step, number, isNext }: { step: FirstStep, number: number, isNext: boolean }): JSX.Element {
  if (step.isDone === true) {
    return (
      <li class="done">
        <span class="balloon" aria-hidden="true">{number}</span>
        <h2 class="subject" safe>{step.title}</h2>
        <p><Mark name="done" byHand /> done</p>
      </li>
    )
  }
  return (
    <li>
      <span class="balloon" aria-hidden="true">{number}</span>
      <div><h2 class="subject" safe>{step.title}</h2><p safe>{step.why}</p></div>
      <p class="example"><span class="label">For example</span><span safe>{step.example}</span></p>
      <a class={['button', isNext && 'first']} href={at(step.href)} safe>{step.button}</a>
    </li>
  )
}

/** Puts the steps of the first day away, or shows them again, in this browser. */
export function StepsAway({ csrfToken, from, isAway }: { csrfToken: string, from: '/settings' | '/builds', isAway: boolean }): JSX.Element {
  const values = [['show', isAway ? 'yes' : 'no'], ['from', from]] as const
  return (
    <div class="deed">
      <Post csrfToken={csrfToken} post={{ action: '/settings/first-steps', idempotencyKey: '', values }}>
        {isAway ? 'Show the steps of the first day' : 'Put these steps away'}
      </Post>
      <span class="quiet">{isAway ? '' : 'They tick themselves off as things are entered; Settings shows them again.'}</span>
    </div>
  )
}
