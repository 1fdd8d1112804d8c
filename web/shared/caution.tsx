import { escapeHtml } from './text.ts'

export type Signal = 'danger' | 'warning' | 'caution'

export interface CautionProps {
  readonly signal: Signal
  readonly title: string
  readonly text: string
  /** C1, C2 … on sheets, where steps refer to it. */
  readonly number?: string
}

/** Hatched edge, signal word, what to do. Stands above the work it belongs to. */
export function CautionBlock({ signal, title, text, number }: CautionProps): JSX.Element {
  return (
    <div class="caution">
      <div>
        <h3>
          {number === undefined ? '' : <span class="no">{escapeHtml(number)} </span>}
          <span class="signal">{signal}</span><span safe>{title}</span>
        </h3>
        <p safe>{text}</p>
      </div>
    </div>
  )
}

/** All cautions of a page, directly under its head; nothing where there are none. */
export function Cautions({ cautions }: { cautions: readonly CautionProps[] }): JSX.Element {
  if (cautions.length === 0) return ''
  return (
    <section class="cautions" aria-labelledby="cautions">
      <h2 class="unseen" id="cautions">Cautions</h2>
      {cautions.map((caution) => <CautionBlock {...caution} />)}
    </section>
  )
}

/** In a step: which caution holds here. */
export function CautionReference({ number }: { number: string }): JSX.Element {
  return <i class="cref" safe>{number}</i>
}
