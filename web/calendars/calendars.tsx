import { at } from '../shared/asset.ts'
import { ChoiceEntry, Fields, Form, problemOf, TextEntry } from '../shared/form.tsx'
import type { Option } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { LinkTable, MadeLink } from '../shared/linkTable.tsx'
import type { LinkRow, Made } from '../shared/linkTable.tsx'
import { Saved } from '../shared/saved.tsx'
import { Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface CalendarsData {
  /** Others see and make links to their own days alone. */
  readonly isManager: boolean
  readonly action: string
  readonly key: string
  readonly usualDays: number
  readonly longestDays: number
  /** When the plan in force was taken; null where none was. */
  readonly planned: string | null
  readonly subjects: readonly Option[]
  readonly typed: { readonly subject: string, readonly note: string, readonly days: string }
  readonly links: readonly LinkRow[]
  readonly problems?: readonly FieldProblem[]
  readonly made?: Made
  readonly isWithdrawn?: boolean
}

/** The plan in people’s own calendar programs: by person, bay or build, each by a link that can be withdrawn. */
export function CalendarsPage({ viewer, data }: { viewer: Viewer, data: CalendarsData }): JSX.Element {
  return (
    <Frame title="Calendars" place="schedule" viewer={viewer}>
      {data.isWithdrawn === true ? <Saved what="the link, withdrawn: from now on it leads nowhere" csrfToken={viewer.csrfToken} /> : ''}
      {data.made === undefined ? '' : <MadeLink made={data.made} who="Whoever has it can read this calendar." />}
      <Strip>
        <TitleCell label="By link" title="Calendars" />
        <TextCell label="Plan in force" width="w4" text={data.planned ?? 'none yet'} />
      </Strip>
      <section class="block">
        <p>{data.isManager ? 'A calendar program that is given such an address shows the plan of one person, one bay or one build, and looks for changes by itself.' : 'A calendar program that is given such an address shows your days by the plan, and looks for changes by itself.'}</p>
        <ul>
          <li>A person’s calendar has the operations of each day; a bay’s has the vehicles that stand in it; a build’s has its operations, its bay, its last work and the day it is due.</li>
          <li>It names build numbers, parts and operations. No customer, no vehicle, no price.</li>
          <li>Where things have changed since the plan was taken, its entries are marked as tentative.</li>
        </ul>
        {data.planned !== null ? '' : <p>No plan is in force, so calendars are empty until one is. {data.isManager ? <a class="link" href={at('/schedule')}>To the schedule</a> : ''}</p>}
      </section>
      <NewCalendar viewer={viewer} data={data} />
      <section class="block" aria-labelledby="handed">
        <h2 id="handed">Handed out</h2>
        <p>Whoever holds an address reads that one calendar and changes nothing. It ends by itself, or when it is withdrawn here.</p>
        {data.links.length === 0 ? <p class="quiet">None yet.</p> : <LinkTable viewer={viewer} links={data.links} caption="Links to calendars" path="/calendars" />}
      </section>
    </Frame>
  )
}

function NewCalendar({ viewer, data }: { viewer: Viewer, data: CalendarsData }): JSX.Element {
  const problems = data.problems ?? []
  return (
    <section>
      <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={problems} submit="Make an address">
        <Fields legend="A new address">
          <ChoiceEntry name="subject" label="Calendar" value={data.typed.subject || (data.subjects[0]?.value ?? '')} options={data.subjects} problem={problemOf(problems, 'subject')} required />
          <TextEntry name="note" label="For whom" value={data.typed.note} problem={problemOf(problems, 'note')} required note="Whose phone or computer: Ida’s phone; the screen in the yard." />
          <TextEntry name="days" label="Valid for days" value={data.typed.days} problem={problemOf(problems, 'days')} isNumber note={`${data.usualDays} unless you say otherwise, at most ${data.longestDays}.`} />
        </Fields>
      </Form>
    </section>
  )
}
