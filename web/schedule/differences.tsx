import { at } from '../shared/asset.ts'
import { CheckEntry, Fields, Form, problemOf, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { Table, WordCell } from '../shared/table.tsx'
import { counted } from '../shared/text.ts'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'
import { NotPlanned } from './notPlanned.tsx'
import type { ProposalData, ScheduleData } from './scheduleData.ts'

/** A proposal beside the plan in force: what moves, why, and what comes of it. */
export interface DifferencesData {
  readonly id: string
  readonly summary: ProposalData
  readonly made: string
  readonly isFirst: boolean
  /** Why it cannot be taken as it stands; empty where it can. */
  readonly blocked: string
  readonly today: readonly TodayChange[]
  readonly work: readonly MovedWork[]
  /** How many more there are than are listed. */
  readonly more: number
  readonly builds: readonly (MovedBuild & BuildChance)[]
  /** Customers whose date it misses. */
  readonly calls: readonly { readonly customer: string, readonly phone: string, readonly why: string }[]
  readonly leftOut: ScheduleData['leftOut']
  readonly takeKey: string
  readonly asked: readonly string[]
  readonly reason: string
  readonly problems: readonly FieldProblem[]
}

export interface TodayChange {
  readonly personId: string
  readonly person: string
  /** Not there for the rest of the day, so that nobody has to ask. */
  readonly isAway: boolean
  readonly lines: readonly { readonly what: string, readonly href: string, readonly was: string, readonly is: string }[]
}

export interface MovedWork {
  readonly what: string
  readonly href: string
  readonly build: string
  readonly was: string
  readonly is: string
  readonly why: string
  readonly lateHref: string
}

export interface MovedBuild {
  readonly name: string
  readonly href: string
  readonly was: string
  readonly is: string
  readonly promised: string
  readonly words: string
  readonly isLate: boolean
}

/** By the proposal, and what it was by the plan in force; empty where it is not known. */
export interface BuildChance {
  readonly in80: string
  readonly kept: string
}

export function DifferencesPage({ viewer, data }: { viewer: Viewer, data: DifferencesData }): JSX.Element {
  const { summary, isFirst, work, builds, more, calls } = data
  return (
    <Frame title={`Proposal: ${summary.name.toLowerCase()}`} place="schedule" viewer={viewer}>
      <Trail steps={[{ name: 'Schedule', href: '/schedule' }, { name: 'Proposal' }]} />
      <Strip>
        <TitleCell label="Proposal, not in force" title={summary.name} />
        <TextCell label="Made" width="w4" text={data.made} />
        <TextCell label="Late builds" text={summary.late} more={summary.daysLate === '0' ? '' : `${counted(Number(summary.daysLate), 'day', 'days')} in all`} />
        {isFirst ? '' : <TextCell label="Moved" text={summary.moved} />}
      </Strip>
      <NotPlanned list={data.leftOut} />
      {isFirst ? '' : <Today list={data.today} />}
      <section class="block" aria-labelledby="call">
        <h2 id="call">Whom to call</h2>
        {calls.length === 0 ? <p>{isFirst ? 'Nobody: every date that is promised is kept.' : 'Nobody: no date is missed that was kept, and none by more.'}</p> : <ul>{calls.map(({ customer, phone, why }) => <li><strong safe>{customer}</strong><span safe>{`${phone === '' ? '' : `, ${phone}`}: ${why}`}</span></li>)}</ul>}
      </section>
      <Take viewer={viewer} data={data} />
      {builds.length === 0 ? '' : (
        <section class="block" aria-labelledby="ends">
          <h2 id="ends">{isFirst ? 'When builds end by it' : 'Builds that end at another time, or with another chance'}</h2>
          <Table columns={[{ name: 'Build' }, ...(isFirst ? [] : [{ name: 'In force' }]), { name: 'Proposed' }, { name: 'Promised' }, { name: 'Promise' }, { name: 'Kept in' }, { name: '80 in 100 by' }]} caption="When builds end by the plan in force and by the proposal">
            {builds.map(({ name, href, was, is, promised, words, isLate, kept, in80 }) => (
              <tr>
                <th scope="row"><a class="link" href={at(href)} safe>{name}</a></th>
                {isFirst ? '' : <WordCell is="in force" text={was} />}
                <WordCell is="proposed" text={is} />
                <WordCell is="promised" text={promised} />
                <td data-is="promise">{isLate ? <><Mark name="point" /> </> : ''}<span safe>{words}</span></td>
                <WordCell is="kept in" text={kept} />
                <WordCell is="80 in 100 by" text={in80} />
              </tr>
            ))}
          </Table>
          <p class="quiet">Chances are there once the search has ended, for builds in which something is unsure.</p>
        </section>
      )}
      {isFirst ? '' : (
        <section class="block" aria-labelledby="moved">
          <h2 id="moved">What moves, and why</h2>
          {work.length === 0 ? <p>Nothing moves.</p> : (
            <Table columns={[{ name: 'Operation' }, { name: 'In force' }, { name: 'Proposed' }, { name: 'Why' }]} caption="Operations that move, from where to where, and why">
              {work.map(({ what, href, build, was, is, why, lateHref }) => (
                <tr>
                  <th scope="row"><a class="link" href={at(href)} safe>{what}</a><br /><span class="quiet" safe>{build}</span></th>
                  <WordCell is="in force" text={was} />
                  <WordCell is="proposed" text={is} />
                  <td data-is="why"><span safe>{why}</span>{lateHref === '' ? '' : <>{' '}<a class="link" href={at(lateHref)}>what if late</a></>}</td>
                </tr>
              ))}
            </Table>
          )}
          {more === 0 ? '' : <p class="quiet">{more} more move; all of them are in the answer of the API.</p>}
        </section>
      )}
    </Frame>
  )
}

function Today({ list }: { list: readonly TodayChange[] }): JSX.Element {
  return (
    <section class="block" aria-labelledby="today">
      <h2 id="today">Whose today changes</h2>
      {list.length === 0 ? <p>Nobody’s. What everybody was told for today stays as it is.</p> : list.map(({ person, isAway, lines }) => (
        <>
          <h3 class="heading" safe>{isAway ? `${person}, away` : person}</h3>
          <ul>{lines.map(({ what, href, was, is }) => <li><a class="link" href={at(href)} safe>{what}</a>: <span safe>{`${was} → ${is}`}</span></li>)}</ul>
        </>
      ))}
    </section>
  )
}

function Take({ viewer, data: { id, blocked, today, takeKey, asked, reason, problems } }: { viewer: Viewer, data: DifferencesData }): JSX.Element {
  return (
    <section class="block" aria-labelledby="take">
      <h2 id="take">Take it</h2>
      {blocked !== '' ? <p><Mark name="point" /> <strong safe>{blocked}</strong></p> : (
        <Form action="/schedule/take" csrfToken={viewer.csrfToken} idempotencyKey={takeKey} problems={problems} submit="Take this plan" cancelHref="/schedule">
          <input type="hidden" name="proposal" value={id} />
          <Fields>
            {today.filter(({ isAway }) => !isAway).map(({ personId, person }) => (
              <CheckEntry name={`asked-${personId}`} label={person} says="Asked, and agrees to another today" value={asked.includes(personId)} required problem={problemOf(problems, `asked-${personId}`)} />
            ))}
            <TextEntry name="reason" label="Why" value={reason} note="Stands with the plan: a late part, somebody ill, an urgent build." problem={problemOf(problems, 'reason')} />
          </Fields>
        </Form>
      )}
    </section>
  )
}
