import { at } from '../shared/asset.ts'
import { FirstSteps, StepsAway } from '../shared/empty.tsx'
import type { FirstStep } from '../shared/empty.tsx'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Saved } from '../shared/saved.tsx'
import type { SavedProps } from '../shared/saved.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import type { Viewer } from '../shared/viewer.ts'
import { BuildTable } from './buildTable.tsx'
import type { BuildRow } from './buildTable.tsx'
import type { NamedLink } from './ledgerData.ts'

export type { BuildRow }

export interface BuildsData {
  readonly builds: readonly BuildRow[]
  /** Ways to cut the list; the one that holds has `isCurrent`. */
  readonly cuts: readonly (NamedLink & { readonly isCurrent: boolean })[]
  readonly find: string
  /** The next page of the list, if there is one. */
  readonly moreHref?: string | undefined
  readonly beginHref?: string | undefined
  readonly counterJobHref?: string | undefined
  readonly scheduleHref?: string | undefined
  /** Shown instead of the list while the shop has no build. */
  readonly firstSteps: readonly FirstStep[]
  readonly hasBuilds: boolean
  readonly saved?: SavedProps | undefined
}

/** All builds and counter jobs: where each is, when it is promised, what is open. */
export function BuildsPage({ viewer, data }: { viewer: Viewer, data: BuildsData }): JSX.Element {
  const isNew = !data.hasBuilds && data.find === '' && data.cuts.every(({ isCurrent }, index) => !isCurrent || index === 0)
  return (
    <Frame title="Builds" place="builds" viewer={viewer}>
      {data.saved === undefined ? '' : <Saved {...data.saved} />}
      <Head viewer={viewer} builds={data.builds} isNew={isNew} firstStepsCount={data.firstSteps.length} />
      {isNew ? <Beginning viewer={viewer} steps={data.firstSteps} /> : <List data={data} />}
      <Deeds data={data} isNew={isNew} />
      {isNew ? '' : <section class="block"><p>Over all builds: <a href={at('/custody')}>Factory parts the shop keeps</a>, <a href={at('/stock-takes')}>Stock-takes</a></p></section>}
    </Frame>
  )
}

function Beginning({ viewer, steps }: { viewer: Viewer, steps: readonly FirstStep[] }): JSX.Element {
  if (steps.length === 0) return ''
  return <><FirstSteps steps={steps} /><StepsAway csrfToken={viewer.csrfToken} from="/builds" isAway={false} /></>
}

function Head({ viewer, builds, isNew, firstStepsCount }: { viewer: Viewer, builds: readonly BuildRow[], isNew: boolean, firstStepsCount: number }): JSX.Element {
  const open = builds.reduce((sum, { openPoints }) => sum + openPoints, 0)
  return (
    <Strip>
      <NumberCell label={isNew ? 'Builds' : 'Shown'} number={isNew ? 'none yet' : String(builds.length)} />
      <TitleCell label={viewer.shopName} title="Builds" />
      {isNew
        ? <TextCell label="Where to begin" width="w5" text={firstStepsCount === 0 ? 'A manager begins the first one.' : 'These things, in this order. A counter job needs only the departments, a customer and a vehicle.'} />
        : <Cell label="Open points" width="w4">{open === 0 ? <span class="quiet">none</span> : <><Mark name="point" />{' '}<strong>{open} open</strong></>}</Cell>}
    </Strip>
  )
}

function List({ data }: { data: BuildsData }): JSX.Element {
  return (
    <>
      <section class="cut" aria-label="Show">
        {data.cuts.map(({ name, href, isCurrent }) => <a href={at(href)} aria-current={isCurrent ? 'true' : false} safe>{name}</a>)}
        <form role="search" aria-label="Builds" method="get" action={at('/builds')}>
          <label class="unseen" for="find">Number, title, customer or vehicle</label>
          <div class="entry"><input id="find" name="find" type="search" value={data.find} placeholder="number, title, customer" autocomplete="off" /></div>
          <button class="button" type="submit">Find</button>
        </form>
      </section>
      <section class="block">
        {data.builds.length === 0 ? <p>No build fits. <a href={at('/builds')}>Show all</a></p> : <BuildTable builds={data.builds} />}
        {data.moreHref === undefined ? '' : <p><a href={at(data.moreHref)}>Older builds</a></p>}
      </section>
    </>
  )
}

function Deeds({ data, isNew }: { data: BuildsData, isNew: boolean }): JSX.Element {
  if (data.beginHref === undefined && data.counterJobHref === undefined) return ''
  return (
    <section class="deed">
      {data.beginHref === undefined ? '' : <a class={['button', !isNew && 'first']} href={at(data.beginHref)}>Begin a build</a>}
      {data.counterJobHref === undefined ? '' : <a class="button" href={at(data.counterJobHref)}>Counter job</a>}
      {data.scheduleHref === undefined ? '' : <a class="button" href={at(data.scheduleHref)}>Schedule</a>}
      <span class="quiet">A counter job is a small build: one to three lines, nothing made.</span>
    </section>
  )
}
