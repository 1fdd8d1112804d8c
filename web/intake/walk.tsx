import { at } from '../shared/asset.ts'
import { MarkPlan } from '../shared/markPlan.tsx'
import type { Viewer } from '../shared/viewer.ts'
import type { IntakeData } from './intakeData.ts'

/** Once around the vehicle: each place ticked as looked at; a tap on the outline saves the ticks and marks damage there. */
export function Walk({ viewer, data: { walk, body, marks } }: { viewer: Viewer, data: IntakeData }): JSX.Element {
  if (walk === null) return <section class="block"><h2>Walk-around</h2><MarkPlan body={body} marks={marks} /></section>
  return (
    <section class="block walk">
      <h2>Walk-around</h2>
      <form id="walk" method="post" action={at(walk.action)} data-keep="typed">
        <input type="hidden" name="_csrf" value={viewer.csrfToken} />
        <input type="hidden" name="_key" value={walk.key} />
        <input type="hidden" name="x" value="" />
        <input type="hidden" name="y" value="" />
        {walk.places.map(({ place }) => <input type="hidden" name="shown" value={place} />)}
        <p class="quiet" data-taps-note hidden>Tap the outline where damage is; what is ticked below is saved with it.</p>
        <MarkPlan body={body} marks={marks} tapsInto="walk" />
        <fieldset class="ways">
          <legend class="unseen">Places looked at</legend>
          {walk.places.map(({ place, isTicked }) => (
            <label><input type="checkbox" name="walkedZones" value={place} checked={isTicked} /><span safe>{place}</span></label>
          ))}
        </fieldset>
        <div class="deed"><button class="button first" type="submit">Save what was looked at</button></div>
      </form>
    </section>
  )
}
