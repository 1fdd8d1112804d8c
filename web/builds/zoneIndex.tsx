import { writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { Mark } from '../shared/marks.tsx'
import { Plan } from '../shared/plan.tsx'
import { FigureCell, Table } from '../shared/table.tsx'
import type { Body } from '../shared/zonePlaces.ts'
import type { LedgerZone } from './ledgerData.ts'

interface ZoneIndexProps {
  readonly body: Body
  readonly zones: readonly LedgerZone[]
  readonly addZoneHref?: string | undefined
}

/** The plan as an index, and a table that says the same. */
export function ZoneIndex({ body, zones, addZoneHref }: ZoneIndexProps): JSX.Element {
  const drawn = zones.map(({ number, name, place, points }) => ({ number, name, place, openPoints: points.length }))
  return (
    <section class="index" aria-labelledby="zones">
      <Plan body={body} zones={drawn} />
      <div class="list">
        <h2 class="unseen" id="zones">Zones</h2>
        {zones.length === 0 ? <p>No zone yet. A zone is a place on the vehicle that will be touched, as “rear doors”.</p> : <ZoneTable zones={zones} />}
        {addZoneHref === undefined ? '' : <p><a class="link" href={at(addZoneHref)}>Add a zone</a></p>}
      </div>
    </section>
  )
}

const COLUMNS = [
  { name: 'Zone' }, { name: 'Open' }, { name: 'Est.', isFigure: true }, { name: 'Logged', isFigure: true }, { name: 'Forecast', isFigure: true },
] as const

function ZoneTable({ zones }: { zones: readonly LedgerZone[] }): JSX.Element {
  const total = (key: 'estimate' | 'logged' | 'forecast'): string => writeHours(zones.reduce((sum, { hours }) => sum + hours[key], 0))
  return (
    <Table columns={COLUMNS} caption="Zones with open points and hours" class="zone-table">
      {zones.map((zone) => <ZoneRow zone={zone} />)}
      <tr class="total">
        <th scope="row">All zones</th><td>{zones.reduce((sum, { points }) => sum + points.length, 0)}</td>
        <FigureCell is="est." text={total('estimate')} how="ze" /><FigureCell is="logged" text={total('logged')} byHand how="zl" /><FigureCell is="forecast" text={total('forecast')} how="zf" />
      </tr>
    </Table>
  )
}

function ZoneRow({ zone: { number, name, points, hours } }: { zone: LedgerZone }): JSX.Element {
  return (
    <tr>
      <th scope="row"><a href={`#zone-${number}`}>{number} <span safe>{name}</span></a></th>
      <td class="keep">{points.length === 0 ? <span class="quiet">none</span> : <><Mark name="point" /> {points.length}<span class="unseen"> open</span></>}</td>
      <FigureCell is="est." text={writeHours(hours.estimate)} how={`z${number}e`} />
      <FigureCell is="logged" text={writeHours(hours.logged)} byHand how={`z${number}l`} />
      <FigureCell is="forecast" text={writeHours(hours.forecast)} how={`z${number}f`} />
    </tr>
  )
}
