export type MarkName =
  | 'out' | 'in' | 'made' | 'back' | 'point' | 'altered' | 'empty' | 'half' | 'done'
  | 'waiting' | 'rework' | 'loosened' | 'buy' | 'putback' | 'change' | 'skip'

/** The states of an operation, and what can be said of a part beside them. */
export type StateName = 'not started' | 'running' | 'waiting' | 'done' | 'rework' | 'altered'

export const MARK_OF_STATE: Readonly<Record<StateName, MarkName>> = {
  'not started': 'empty', 'running': 'half', 'waiting': 'waiting', 'done': 'done', 'rework': 'rework', 'altered': 'altered',
}

/** A drawn sign, in the color of its words; they always stand beside it, so the sign itself is silent. */
export function Mark({ name, byHand }: { name: MarkName, byHand?: boolean }): JSX.Element {
  return <i class={['mark', `m-${name}`, byHand === true && 'hand']}></i>
}

/** A state by shape and word: "done", or its own words such as "7 of 12". */
export function State({ name, words }: { name: StateName, words?: string }): JSX.Element {
  const text = words ?? name
  return (
    <span class="state">
      <Mark name={MARK_OF_STATE[name]} byHand={name === 'done'} />{' '}<span safe>{text}</span>
    </span>
  )
}

/** The triangle that ties an error in the summary to its field. */
export function NumberedTriangle({ number }: { number: number }): JSX.Element {
  return (
    <svg class="triangle" viewBox="0 0 25 22" aria-hidden="true">
      <path d="M12.5 1.5L24 20.5H1z" />
      <text x="12.5" y="18">{number}</text>
    </svg>
  )
}
