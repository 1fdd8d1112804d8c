import { escapeHtml } from '../shared/text.ts'
import type { ScheduleData } from './scheduleData.ts'

/** Work that is left out of a plan, and why: nothing where all of it is planned. */
export function NotPlanned({ list }: { list: ScheduleData['leftOut'] }): JSX.Element {
  if (list.length === 0) return ''
  return (
    <section class="block" aria-labelledby="left-out">
      <h2 id="left-out">Not planned</h2>
      <ul>{list.map(({ build, why }) => <li>{escapeHtml(build)}: {escapeHtml(why)}</li>)}</ul>
    </section>
  )
}
