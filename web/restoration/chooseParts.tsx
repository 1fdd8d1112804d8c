import { at } from '../shared/asset.ts'
import { escapeHtml } from '../shared/text.ts'

export interface ChoicePart {
  readonly id: string
  readonly number: string
  readonly name: string
  /** fitted, out and stored, altered … */
  readonly state: string
  readonly isChosen: boolean
}

export interface ZoneChoice {
  readonly number: number
  readonly name: string
  readonly parts: readonly ChoicePart[]
}

interface ChoosePartsProps {
  readonly action: string
  readonly zones: readonly ZoneChoice[]
  readonly isOpen: boolean
  readonly isAll?: boolean
  /** Sent along, so that another choice stands on the same. */
  readonly basis?: string | undefined
}

/** All, or any factory parts by zone. Sent by GET: nothing is written. */
export function ChooseParts({ action, zones, isOpen, isAll = false, basis }: ChoosePartsProps): JSX.Element {
  const chosen = zones.flatMap(({ parts }) => parts).filter(({ isChosen }) => isChosen).length
  return (
    <section class="block">
      <details class="folded" open={isOpen}>
        <summary><h2 class="heading">What goes back</h2><span class="quiet" safe>{isAll ? 'all of it' : `${chosen} chosen`}</span></summary>
        <form method="get" action={at(action)}>
          {basis === undefined ? '' : <input type="hidden" name="as" value={basis} />}
          <div class="deed">
            <button class="button" type="submit" name="scope" value="all">All of it</button>
            <button class="button first" type="submit">Those chosen below</button>
          </div>
          {zones.every(({ parts }) => parts.length === 0) ? <p class="quiet">No factory parts are recorded in this build yet: enter what comes out, zone by zone.</p> : ''}
          {zones.filter(({ parts }) => parts.length > 0).map((zone) => <Zone zone={zone} />)}
        </form>
      </details>
    </section>
  )
}

function Zone({ zone: { number, name, parts } }: { zone: ZoneChoice }): JSX.Element {
  return (
    <fieldset class="choices">
      <legend>{number} {escapeHtml(name)}</legend>
      {parts.map((part) => (
        <label>
          <input type="checkbox" name="part" value={part.id} checked={part.isChosen} />
          <span><span class="no" safe>{part.number}</span>{' '}<span safe>{part.name}</span>{' '}<span class="quiet" safe>{part.state}</span></span>
        </label>
      ))}
    </fieldset>
  )
}
