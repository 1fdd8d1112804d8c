import { writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { Cautions } from '../shared/caution.tsx'
import type { CautionProps } from '../shared/caution.tsx'
import { RowFigure } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Saved } from '../shared/saved.tsx'
import type { SavedProps } from '../shared/saved.tsx'
import type { Viewer } from '../shared/viewer.ts'
import { Idle, Left, Running } from './running.tsx'
import type { RunningWork } from './running.tsx'
import { NextList } from './nextList.tsx'
import type { NextWork } from './nextList.tsx'

export type { NextWork, RunningWork }

export interface LogLine {
  /** As "08:20 to 09:35". */
  readonly when: string
  readonly what: string
  readonly kind: 'work' | 'rework' | 'waiting'
  readonly seconds: number
}

export interface NowData {
  readonly running: RunningWork | null
  /** Of the running operation, or of the first that can be taken. */
  readonly cautions: readonly CautionProps[]
  readonly next: readonly NextWork[]
  readonly today: readonly LogLine[]
  readonly logHref: string
  readonly myHoursHref: string
  /** Where what comes out is put down, for the builds of these operations that are taken apart. */
  readonly teardowns?: readonly { readonly name: string, readonly href: string }[]
  readonly find: { readonly action: string, readonly text: string }
  readonly saved?: SavedProps | undefined
}

/** One hand wide: what now, how long, stop, what comes next. Nothing under 44 px. */
export function NowPage({ viewer, data }: { viewer: Viewer, data: NowData }): JSX.Element {
  // Asked for, it stands where the hand is; else after what can hurt.
  const asked = data.running?.asksLeft === true
  const left = data.running?.left === undefined ? '' : <Left left={data.running.left} asks={data.running.asksLeft} csrfToken={viewer.csrfToken} />
  return (
    <Frame title="Now" place="now" viewer={viewer} kind="card">
      {data.saved === undefined ? '' : <Saved {...data.saved} />}
      {data.running === null ? <Idle /> : <Running work={data.running} csrfToken={viewer.csrfToken} />}
      {asked ? left : ''}
      <Cautions cautions={data.cautions} />
      {asked ? '' : left}
      <NextList next={data.next} isRunning={data.running !== null} csrfToken={viewer.csrfToken} />
      <nav class="line" aria-label="By the plan"><a href={at('/day')}>My day by the plan</a></nav>
      <Find find={data.find} />
      <Today lines={data.today} />
      {data.teardowns === undefined || data.teardowns.length === 0 ? '' : <nav class="line" aria-label="Teardown">{data.teardowns.map(({ name, href }) => <a href={at(href)} safe>{name}</a>)}</nav>}
      <nav class="line" aria-label="My hours">
        <a href={at(data.logHref)}>Log hours afterward</a>
        <a href={at(data.myHoursHref)}>My hours</a>
      </nav>
    </Frame>
  )
}

function Find({ find }: { find: NowData['find'] }): JSX.Element {
  return (
    <search>
      <form class="find" method="get" action={at(find.action)}>
        <label class="unseen" for="find">Part, operation or build</label>
        <div class="entry"><input id="find" name="find" type="search" value={find.text} placeholder="P-510, door pod, B-0147" autocomplete="off" /></div>
        <button class="button" type="submit">Find</button>
      </form>
    </search>
  )
}

function Today({ lines }: { lines: readonly LogLine[] }): JSX.Element {
  return (
    <section aria-labelledby="today">
      <h2 id="today">Today</h2>
      {lines.length === 0 ? <p class="logbook quiet">Nothing logged yet.</p> : (
        <ul class="logbook">
          {lines.map((line) => <Line line={line} />)}
          <li class="total"><span></span><span>All</span><span class="figure"><RowFigure text={`${writeHours(lines.reduce((sum, { seconds }) => sum + seconds, 0), 2)} h`} how="today" /></span></li>
        </ul>
      )}
    </section>
  )
}

function Line({ line: { when, what, kind, seconds } }: { line: LogLine }): JSX.Element {
  return (
    <li>
      <span class="quiet" safe>{when}</span>
      <span><span safe>{what}</span>{kind === 'work' ? '' : <strong> {kind}</strong>}</span>
      <span class="figure hand recorded" safe>{writeHours(seconds, 2)}</span>
    </li>
  )
}
