import { at } from '../shared/asset.ts'
import { Mark } from '../shared/marks.tsx'
import type { PartFinish } from './partData.ts'

interface FinishesProps {
  readonly finishes: readonly PartFinish[]
  readonly addHref: string | undefined
  readonly scheduleHref: string
}

/** What is laid on the part last, and whether its sample is approved. */
export function Finishes({ finishes, addHref, scheduleHref }: FinishesProps): JSX.Element {
  return (
    <section class="block">
      <h2>Finishes</h2>
      {finishes.length === 0 ? <p>None recorded.</p> : (
        <ul class="plainlist">
          {finishes.map(({ name, href, state, isApproved }) => (
            <li><Mark name={isApproved ? 'done' : 'point'} byHand={isApproved} /> <a class="link" href={at(href)} safe>{name}</a> <span class="quiet" safe>{state}</span></li>
          ))}
        </ul>
      )}
      <p>
        {addHref === undefined ? '' : <><a href={at(addHref)}>Add a finish</a> · </>}
        <a href={at(scheduleHref)}>Finish schedule</a>
      </p>
    </section>
  )
}
