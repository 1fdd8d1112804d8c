import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Post } from '../shared/post.tsx'
import type { PostProps } from '../shared/post.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface DayWork {
  /** On this day, as "08:00 to 11:30"; empty where its day is over. */
  readonly times: string
  readonly item: string
  readonly itemHref: string
  readonly operation: string
  readonly build: string
  /** Bay or bench, machine, who is on it as well. */
  readonly where: string
  /** As "goes on until Tue 2 Dec 10:00", or what it waits for; empty where nothing is to be said. */
  readonly notes: readonly string[]
  readonly state: 'open' | 'running' | 'done'
  /** Left out where it cannot be started from here. */
  readonly start?: PostProps | undefined
}

export interface PlannedDay {
  readonly name: string
  readonly work: readonly DayWork[]
  /** Said over work that is planned though nobody is there. */
  readonly away: string
  /** Said where there is none. */
  readonly empty: string
}

export interface DayListData {
  /** "My day", or "Day of Saskia Penhale". */
  readonly title: string
  /** Of somebody else: nothing is started from here then. */
  readonly isOwn: boolean
  /** Something is being worked on: what is begun from here takes its place. */
  readonly isRunning: boolean
  /** Empty where a plan is in force. */
  readonly noPlan: string
  readonly takenAt: string
  readonly isStale: boolean
  /** Planned for earlier days and not done. */
  readonly left: readonly DayWork[]
  readonly days: readonly PlannedDay[]
  readonly people: readonly { readonly name: string, readonly href: string }[]
}

type Verb = 'Start' | 'Switch'

/** What somebody does today and on the next day at work, in order, by the plan in force. */
export function DayListPage({ viewer, data }: { viewer: Viewer, data: DayListData }): JSX.Element {
  const verb = data.isRunning ? 'Switch' : 'Start'
  return (
    <Frame title={data.title} place="now" viewer={viewer} kind="card">
      <section class="idle">
        <h1 safe>{data.title}</h1>
        {data.noPlan === '' ? <p class="quiet">By the plan taken {escapeHtml(data.takenAt)}</p> : <p safe>{data.noPlan}</p>}
        {data.isStale ? <p><Mark name="point" /> <strong>Things have changed since the plan was taken.</strong> Ask before you begin something that others wait for.</p> : ''}
      </section>
      {data.left.length === 0 ? '' : <Day day={{ name: 'Planned before, not done', work: data.left, away: '', empty: '' }} id="left" verb={verb} csrfToken={viewer.csrfToken} />}
      {data.days.map((day, place) => <Day day={day} id={`day-${place}`} verb={verb} csrfToken={viewer.csrfToken} />)}
      <nav class="line" aria-label="Hours">
        <a href={at('/now')}>Now</a>
        {data.isOwn ? <a href={at('/hours')}>My hours</a> : ''}
      </nav>
      {data.people.length === 0 ? '' : <nav class="line" aria-label="Days of others">{data.people.map(({ name, href }) => <a href={at(href)} safe>{name}</a>)}</nav>}
    </Frame>
  )
}

function Day({ day: { name, work, away, empty }, id, verb, csrfToken }: { day: PlannedDay, id: string, verb: Verb, csrfToken: string }): JSX.Element {
  return (
    <section aria-labelledby={id}>
      <h2 id={id} safe>{name}</h2>
      {away === '' ? '' : <p class="logbook"><Mark name="point" /> <strong safe>{away}</strong></p>}
      {work.length === 0 ? <p class="logbook quiet" safe>{empty}</p> : <ul class="next day-list">{work.map((one) => <Item work={one} verb={verb} csrfToken={csrfToken} />)}</ul>}
    </section>
  )
}

function Item({ work: { times, item, itemHref, operation, build, where, notes, state, start }, verb, csrfToken }: { work: DayWork, verb: Verb, csrfToken: string }): JSX.Element {
  return (
    <li class={start === undefined ? 'whole' : undefined}>
      <div class="what">
        {times === '' ? '' : <p class="times" safe>{times}</p>}
        <a href={at(itemHref)}><strong safe>{item}</strong></a>
        <p safe>{operation}</p>
        <p class="quiet" safe>{[build, where].filter((words) => words !== '').join(' · ')}</p>
        {state === 'open' ? '' : <p><Mark name={state === 'done' ? 'done' : 'half'} /> <strong>{state === 'done' ? 'done' : 'running'}</strong></p>}
        {notes.map((note) => <p class="quiet" safe>{note}</p>)}
      </div>
      {start === undefined ? '' : <Post post={start} csrfToken={csrfToken} label={`${verb === 'Start' ? 'Start' : 'Switch to'} ${item}, ${operation}`}>{verb}</Post>}
    </li>
  )
}
