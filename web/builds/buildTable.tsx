import { writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { writeDay } from '../shared/day.ts'
import { RowFigure } from '../shared/figure.tsx'
import { Mark, State } from '../shared/marks.tsx'
import type { StateName } from '../shared/marks.tsx'
import { HourBar, hourScale } from '../shared/operationBar.tsx'
import { StageScale } from '../shared/stages.tsx'
import { GroupRow, Table } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'

export interface BuildRow {
  readonly number: string
  readonly title: string
  readonly href: string
  readonly customer: string
  readonly vehicle: string
  readonly kind: 'counter job' | 'everyday build' | 'show build'
  readonly stage: { readonly name: string, readonly index: number, readonly count: number }
  /** What a counter job shows beside its stage. */
  readonly state: StateName
  readonly promisedOn: string
  readonly isLate: boolean
  /** Person-seconds. */
  /** Null where the records contradict each other: the build's own page says how. */
  readonly logged: number | null
  readonly forecast: number | null
  readonly openPoints: number
  /** Operations over their estimate or nearly, that are not done. */
  readonly runningOver: number
  /** As "near the consent"; empty inside it and where none was agreed. */
  readonly consent: string
  /** In a few words, as "6 parts, 2 repairs". */
  readonly wayBack: string
  /** Alterations without consent or photo, parts without a place, in a few words; mostly empty. */
  readonly unsettled?: string | undefined
}

const COLUMNS = [
  { name: 'Job and customer' }, { name: 'Vehicle' }, { name: 'Stage' }, { name: 'Promised' }, { name: 'Hours' }, { name: 'Open' }, { name: 'Back to stock' },
] as const

/** Builds first, then counter jobs. */
export function BuildTable({ builds }: { builds: readonly BuildRow[] }): JSX.Element {
  const counterJobs = builds.filter(({ kind }) => kind === 'counter job')
  const others = builds.filter(({ kind }) => kind !== 'counter job')
  const scale = hourScale(builds)
  return (
    <Table columns={COLUMNS} caption="Builds and counter jobs" class="list-of">
      {others.length === 0 ? '' : <GroupRow name="Builds" span={COLUMNS.length} />}
      {others.map((build) => <Row build={build} scale={scale} />)}
      {counterJobs.length === 0 ? '' : <GroupRow name="Counter jobs" span={COLUMNS.length} />}
      {counterJobs.map((build) => <Row build={build} scale={scale} />)}
    </Table>
  )
}

function Hours({ build: { logged, forecast, href, runningOver, consent }, scale }: { build: BuildRow, scale: number }): JSX.Element {
  if (logged === null || forecast === null) return <span class="quiet">cannot be computed; open it</span>
  return (
    <>
      <span class="figure"><RowFigure text={writeHours(forecast)} how="f" of={href} /></span>&ensp;<span class="figure"><RowFigure text={writeHours(logged)} how="l" of={href} byHand /></span><span class="quiet"> logged</span>
      <HourBar logged={logged} forecast={forecast} scale={scale} isBeside />
      {runningOver === 0 ? '' : <span class="sub"><Mark name="point" /> {runningOver} over the estimate or nearly</span>}
      {consent === '' ? '' : <strong class="sub"><Mark name="point" /> {escapeHtml(consent)}</strong>}
    </>
  )
}

function Row({ build, scale }: { build: BuildRow, scale: number }): JSX.Element {
  return (
    <tr>
      <th scope="row"><a href={at(build.href)}><span class="no" safe>{build.number}</span>{' '}<span safe>{build.title}</span></a><span class="sub" safe>{build.customer}</span></th>
      <td class="quiet" safe>{build.vehicle}</td>
      <td><Stage build={build} /></td>
      <td><Promised build={build} /></td>
      <td data-is="hours">
        <Hours build={build} scale={scale} />
      </td>
      <td class="keep">{build.openPoints === 0 ? <span class="quiet">none</span> : <><Mark name="point" /> <span class="no">{build.openPoints}</span><span class="unseen"> open</span></>}</td>
      <td data-is="back:"><WayBack build={build} /></td>
    </tr>
  )
}

function WayBack({ build: { wayBack, unsettled = '' } }: { build: BuildRow }): JSX.Element {
  return <><span safe>{wayBack}</span>{unsettled === '' ? '' : <strong class="sub"><Mark name="point" /> {escapeHtml(unsettled)}</strong>}</>
}

function Stage({ build: { kind, stage, state } }: { build: BuildRow }): JSX.Element {
  return (
    <>
      {kind === 'counter job' ? <><State name={state} />{', '}</> : ''}
      <span safe>{stage.name}</span>{' '}<span class="quiet">{stage.index} of {stage.count}</span>
      <StageScale index={stage.index} count={stage.count} isShort />
    </>
  )
}

function Promised({ build: { promisedOn, isLate } }: { build: BuildRow }): JSX.Element {
  if (promisedOn === '') return <span class="quiet">no date yet</span>
  return <><span class="figure recorded" safe>{writeDay(promisedOn)}</span>{isLate ? <strong class="sub"><Mark name="point" /> late</strong> : ''}</>
}
