import { Plan } from '../shared/plan.tsx'
import { escapeProse } from '../shared/text.ts'
import type { Body, ZonePlace } from '../shared/zonePlaces.ts'

export interface WhereaboutsData {
  readonly body: Body
  readonly zones: readonly { readonly number: number, readonly name: string, readonly place: ZonePlace }[]
  /** As "bin 7, rack C": "F-041, F-042". */
  readonly places: readonly { readonly place: string, readonly holds: string }[]
  readonly tools: readonly string[]
}

// More than these stand better in columns of their own below the plan.
const FEW_PLACES = 6

/** Where the kept parts are, what tools it takes, and which zone is which. */
export function Whereabouts({ data: { body, zones, places, tools } }: { data: WhereaboutsData }): JSX.Element {
  return (
    <section>
      <h2>Where things are, and what you need</h2>
      <div class="where">
        <Plan body={body} zones={zones.map((zone) => ({ ...zone, openPoints: 0 }))} isPaper />
        <dl>
          <div><dt>Tools</dt><dd safe>{tools.length === 0 ? 'none noted' : tools.join('; ')}</dd></div>
          {places.length > FEW_PLACES ? '' : <Places places={places} />}
        </dl>
        <dl><div><dt>Zones</dt><dd><ul>{zones.map(({ number, name }) => <li>{number} <span safe>{name}</span></li>)}</ul></dd></div></dl>
      </div>
      {places.length > FEW_PLACES ? <dl class="places"><Places places={places} /></dl> : ''}
    </section>
  )
}

function Places({ places }: Pick<WhereaboutsData, 'places'>): JSX.Element {
  return <div><dt>Factory parts</dt><dd>{places.length === 0 ? 'all in the vehicle' : <ul>{places.map((place) => <Place {...place} />)}</ul>}</dd></div>
}

function Place({ place, holds }: WhereaboutsData['places'][number]): JSX.Element {
  const safeHolds = escapeProse(holds)
  return <li><strong safe>{place}</strong>: {safeHolds}</li>
}
