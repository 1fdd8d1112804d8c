import { writeHours } from '../shared/amount.ts'
import { at } from '../shared/asset.ts'
import { writeDay } from '../shared/day.ts'
import { ChoiceEntry } from '../shared/entries.tsx'
import type { Option } from '../shared/entries.tsx'
import { RowFigure } from '../shared/figure.tsx'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Saved } from '../shared/saved.tsx'
import type { SavedProps } from '../shared/saved.tsx'
import { Cell, Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import { FigureCell, Table } from '../shared/table.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface HoursLine {
  /** As "08:20 to 09:35", or "afterward". */
  readonly when: string
  readonly item: string
  readonly itemHref: string
  readonly operation: string
  readonly build: string
  readonly kind: 'work' | 'rework' | 'waiting'
  readonly seconds: number
  readonly why: string
  /** What stood there before, the latest first, as "was 2.0 h work, corrected by R. Fennick, Tue 12 Jan 2027 08:20". */
  readonly before: readonly string[]
  readonly correctHref: string
}

export interface HoursDay {
  readonly date: string
  readonly lines: readonly HoursLine[]
}

export interface HoursData {
  readonly name: string
  readonly from: string
  readonly to: string
  readonly days: readonly HoursDay[]
  readonly logHref: string
  readonly earlierHref: string
  readonly laterHref: string | null
  /** Whose four weeks these are, as in the address of the page: what its sums open depends on it. */
  readonly address: string
  /** For those who see everybody's hours. */
  readonly people?: { readonly personId: string, readonly options: readonly Option[] } | undefined
  readonly saved?: SavedProps | undefined
}

/** A person's hours day by day, each with what stood there before it was corrected. */
export function HoursPage({ viewer, data }: { viewer: Viewer, data: HoursData }): JSX.Element {
  const lines = data.days.flatMap((day) => day.lines)
  return (
    <Frame title={`Hours of ${data.name}`} place="now" viewer={viewer}>
      {data.saved === undefined ? '' : <Saved {...data.saved} />}
      <Strip>
        <TitleCell label="Hours" title={data.name} />
        <TextCell label="From" text={writeDay(data.from)} />
        <TextCell label="To" text={writeDay(data.to)} />
        <Sum label="Work" kind="work" data={data} />
        <Sum label="Rework" kind="rework" data={data} />
        <Sum label="Waiting" kind="waiting" data={data} />
      </Strip>
      {data.people === undefined ? '' : <Whose people={data.people} />}
      <section class="block">
        {lines.length === 0 ? <p>Nothing is logged in these four weeks. A timer logs from Now; hours that nobody timed are logged afterward.</p> : <Days data={data} />}
        <div class="deed">
          <a class="button first" href={at(data.logHref)}>Log hours afterward</a>
          <a class="link" href={at(data.earlierHref)}>Earlier</a>
          {data.laterHref === null ? '' : <a class="link" href={at(data.laterHref)}>Later</a>}
          <a class="link" href={at('/now')}>Back to Now</a>
        </div>
      </section>
    </Frame>
  )
}

function Sum({ label, kind, data: { days, address } }: { label: string, kind: HoursLine['kind'], data: HoursData }): JSX.Element {
  const seconds = totalOf(days.flatMap(({ lines }) => lines).filter((line) => line.kind === kind))
  return <Cell label={label} width="w2"><span class="figure"><RowFigure text={`${writeHours(seconds, 2)} h`} how={kind} on={address} byHand /></span></Cell>
}

const totalOf = (lines: readonly HoursLine[]): number => lines.reduce((sum, { seconds }) => sum + seconds, 0)

function Whose({ people }: { people: NonNullable<HoursData['people']> }): JSX.Element {
  return (
    <form class="alone" method="get" action={at('/hours')}>
      <div class="fields"><ChoiceEntry name="person" label="Whose hours" value={people.personId} options={people.options} /></div>
      <div class="deed"><button class="button" type="submit">Show</button></div>
    </form>
  )
}

const COLUMNS = [{ name: 'When' }, { name: 'On what' }, { name: 'Kind' }, { name: 'Hours', isFigure: true }, { name: 'Why, and what stood there' }] as const

function Days({ data: { days, address } }: { data: HoursData }): JSX.Element {
  return (
    <Table columns={COLUMNS} caption="Hours, newest day first" class="list-of">
      {days.map(({ date, lines }) => (
        <>
          <tr class="group">
            <th colspan={COLUMNS.length} scope="rowgroup" class="whole">
              <span safe>{`${writeDay(date)}: `}</span><RowFigure text={`${writeHours(totalOf(lines), 2)} h`} how={date} on={address} />
            </th>
          </tr>
          {lines.map((line) => <Row line={line} date={date} />)}
        </>
      ))}
    </Table>
  )
}

function Row({ line, date }: { line: HoursLine, date: string }): JSX.Element {
  return (
    <tr>
      <td class="keep" safe>{line.when}</td>
      <th scope="row"><a href={at(line.itemHref)} safe>{line.item}</a><span class="sub" safe>{`${line.operation} · ${line.build}`}</span></th>
      <td class="keep">{line.kind === 'work' ? '' : <><Mark name={line.kind} /> </>}{line.kind}</td>
      <FigureCell is="hours" text={writeHours(line.seconds, 2)} byHand how="recorded" />
      <td class="whole">
        <span safe>{line.why}</span>
        {line.before.map((words) => <span class="sub">{escapeHtml(words)}</span>)}
        {' '}<a href={at(line.correctHref)} aria-label={`Correct ${writeHours(line.seconds, 2)} h on ${line.item}, ${writeDay(date)}`}>Correct</a>
      </td>
    </tr>
  )
}
