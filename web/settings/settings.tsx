import { at } from '../shared/asset.ts'
import { FirstSteps, StepsAway } from '../shared/empty.tsx'
import type { FirstStep } from '../shared/empty.tsx'
import { Frame } from '../shared/frame.tsx'
import { Cell, Strip, TitleCell } from '../shared/strip.tsx'
import { FigureCell, Table, WordCell } from '../shared/table.tsx'
import type { Viewer } from '../shared/viewer.ts'

/** One kind of record that the shop's own settings hold. */
export interface Holding {
  readonly name: string
  readonly href: string
  readonly count: number
  readonly titles: readonly string[]
}

export interface SettingsData {
  readonly shop: readonly { readonly label: string, readonly text: string }[]
  readonly holdings: readonly Holding[]
  /** What is still to be entered, in the order in which it is needed. */
  readonly steps: readonly FirstStep[]
  readonly areStepsAway: boolean
}

const MOST_TITLES = 6
const COLUMNS = [{ name: 'Kind' }, { name: 'Count', isFigure: true }, { name: 'Holds' }]

/** What builds are estimated, sold and planned by; led by what is still missing. */
export function SettingsPage({ viewer, data }: { viewer: Viewer, data: SettingsData }): JSX.Element {
  return (
    <Frame title="Settings" place="settings" viewer={viewer}>
      <Strip>
        <TitleCell label="Shop" title="Settings" />
        {data.shop.map(({ label, text }) => <Cell label={label} width="w3"><span class="recorded" safe>{text}</span></Cell>)}
      </Strip>
      {data.steps.length === 0 ? '' : (
        <section aria-label="To enter first">
          <FirstSteps steps={data.steps} />
          <StepsAway csrfToken={viewer.csrfToken} from="/settings" isAway={false} />
        </section>
      )}
      <section class="block">
        <h2>Lists</h2>
        <p><a class="link" href={at('/imports')}>Import and export</a> <span class="quiet">equipment, materials, people and parts, to and from a spreadsheet</span></p>
        <p><a class="link" href={at('/history')}>How our hours run</a> <span class="quiet">logged beside estimated, by operation and department, and how well estimates held</span></p>
        <p><a class="link" href={at('/after')}>After the builds</a> <span class="quiet">estimate beside hours and margin of all closed builds</span></p>
      </section>
      <section class="block">
        <h2>What is set</h2>
        <Table columns={COLUMNS} caption="What is set">
          <tr>
            <th scope="row"><a href={at('/shop/shop')}>shop settings</a></th>
            <FigureCell is="" text="" how="recorded" /><WordCell is="holds" text="Address, currency, time zone, hours, shares" />
          </tr>
          {data.holdings.map((holding) => <HoldingRow holding={holding} />)}
        </Table>
        {data.areStepsAway ? <StepsAway csrfToken={viewer.csrfToken} from="/settings" isAway /> : ''}
      </section>
    </Frame>
  )
}

function HoldingRow({ holding: { name, href, count, titles } }: { holding: Holding }): JSX.Element {
  const more = count > MOST_TITLES ? ` and ${count - MOST_TITLES} more` : ''
  return (
    <tr>
      <th scope="row"><a href={at(href)} safe>{name}</a></th>
      <FigureCell is="count" text={String(count)} how="recorded" />
      <WordCell is="holds" text={count === 0 ? 'nothing yet' : `${titles.slice(0, MOST_TITLES).join(', ')}${more}`} quiet={count === 0} />
    </tr>
  )
}
