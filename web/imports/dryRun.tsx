import { at } from '../shared/asset.ts'
import type { Option } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Cell, NumberCell, Strip, TextCell, TitleCell, Turn } from '../shared/strip.tsx'
import type { Viewer } from '../shared/viewer.ts'
import { ColumnsTable, type ColumnRow } from './columnsTable.tsx'
import { PlannedTable, type PlannedLine } from './plannedTable.tsx'

export interface DryRunData {
  readonly kindName: string
  readonly plural: string
  readonly buildName: string | null
  readonly columns: readonly ColumnRow[]
  readonly fields: readonly Option[]
  readonly separator: string
  readonly separators: readonly Option[]
  /** Said where a file was not UTF-8. */
  readonly encoding: string | null
  readonly faults: readonly string[]
  readonly counts: { readonly rows: number, readonly create: number, readonly change: number, readonly skip: number, readonly error: number }
  readonly lines: readonly PlannedLine[]
  /** Rows that are counted and not shown one by one. */
  readonly unshown: readonly string[]
  /** Why the plan is shown again: the shop's records changed in between. */
  readonly stale: string | null
  readonly hidden: readonly (readonly [name: string, value: string])[]
  readonly text: string
  readonly key: string
  readonly fingerprint: string
}

const FORM = 'reading'

/** What a file would do, row by row, and what its columns are read as. Nothing is written. */
export function DryRunPage({ viewer, data }: { viewer: Viewer, data: DryRunData }): JSX.Element {
  const isReady = data.faults.length === 0 && data.counts.error === 0
  return (
    <Frame title="Dry run" place="settings" viewer={viewer}>
      <Head data={data} isReady={isReady} />
      <ToMend data={data} />
      <form id={FORM} method="post" action={at('/imports/readings')}>
        <input type="hidden" name="_csrf" value={viewer.csrfToken} />
        {data.hidden.map(([name, value]) => <input type="hidden" name={name} value={value} />)}
        {isReady ? <Confirm data={data} /> : ''}
        <section class="block">
          <h2>Columns of the file</h2>
          <ColumnsTable columns={data.columns} fields={data.fields} />
          <div class="deed">
            <label for="separator">Cells are apart by</label>
            <div class="entry"><select id="separator" name="separator">{data.separators.map(({ value, label }) => <option value={value} selected={value === data.separator} safe>{label}</option>)}</select></div>
            <button class="button" type="submit">Read again with these columns</button>
          </div>
        </section>
        {data.lines.length === 0 && data.unshown.length === 0 ? '' : <Rows data={data} />}
        <section class="block">
          <details class="folded" open={data.counts.error > 0 || data.faults.length > 0}>
            <summary><h2 class="heading">Correct the text here</h2></summary>
            <label for="text">The file as it was read. Correct it and read it again; the file on your disk stays as it is.</label>
            <div class="entry"><textarea id="text" name="text" class="pasted" rows="10" spellcheck="false" safe>{`\n${data.text}`}</textarea></div>
            <div class="deed"><button class="button" type="submit">Read the corrected text</button></div>
          </details>
        </section>
      </form>
    </Frame>
  )
}

function Head({ data: { counts, kindName, plural, buildName, encoding, columns }, isReady }: { data: DryRunData, isReady: boolean }): JSX.Element {
  return (
    <Strip>
      <NumberCell label="Nothing written" number="dry run" />
      <TitleCell label={buildName ?? 'Import'} title={plural} />
      <TextCell label="Rows" text={String(counts.rows)} more={`${columns.length} columns${encoding === null ? '' : `, ${encoding}`}`} />
      <Turn />
      <Count label="create" mark="buy" count={counts.create} />
      <Count label="change" mark="change" count={counts.change} />
      <Count label="skip" mark="skip" count={counts.skip} />
      <Count label="to correct" mark="point" count={counts.error} />
      <TextCell label="Verdict" width="w5" text={verdict(counts, isReady, kindName)} more="All rows go in together, or none." />
    </Strip>
  )
}

function verdict(counts: DryRunData['counts'], isReady: boolean, kindName: string): string {
  if (!isReady) return counts.error > 0 ? `Not yet: ${counts.error} to correct.` : 'Not yet.'
  return counts.create + counts.change === 0 ? `Nothing to do: every ${kindName} is in the shop as the file has it.` : 'Ready.'
}

function Count({ label, mark, count }: { label: string, mark: 'buy' | 'change' | 'skip' | 'point', count: number }): JSX.Element {
  return <Cell label={label} width="w2"><Mark name={mark} />{' '}<span class="no">{count}</span></Cell>
}

function ToMend({ data: { faults, stale, encoding, counts } }: { data: DryRunData }): JSX.Element {
  const notes = [
    ...(stale === null ? [] : [stale]), ...faults,
    ...(encoding === 'Windows-1252' ? ['The file is not UTF-8, so it was read as Windows-1252. Look at accents and signs as ½ below; where they are wrong, save the file as UTF-8 and choose it again.'] : []),
    ...(counts.error > 0 ? [`${counts.error} ${counts.error === 1 ? 'row cannot' : 'rows cannot'} be taken. Each is below with its line and what to do.`] : []),
  ]
  if (notes.length === 0) return ''
  return (
    <section class="mend" role="alert" aria-labelledby="mend">
      <h2 id="mend">Before it can go in</h2>
      <ul>{notes.map((note) => <li><span safe>{note}</span></li>)}</ul>
    </section>
  )
}

function Confirm({ data: { counts, key, fingerprint } }: { data: DryRunData }): JSX.Element {
  if (counts.create + counts.change === 0) return <section class="block"><p><a class="link" href={at('/imports')}>Choose another file</a></p></section>
  return (
    <section class="deed">
      <input type="hidden" name="_key" value={key} />
      <input type="hidden" name="fingerprint" value={fingerprint} />
      <button class="button first" type="submit" formaction={at('/imports')} safe>{`Import: create ${counts.create}, change ${counts.change}`}</button>
      <a class="link" href={at('/imports')}>Leave without importing</a>
      <span class="quiet">What you change below counts only after reading again.</span>
    </section>
  )
}

function Rows({ data }: { data: DryRunData }): JSX.Element {
  return (
    <section class="block">
      <h2>Row by row</h2>
      {data.lines.length === 0 ? '' : <PlannedTable lines={data.lines} name={data.kindName} />}
      {data.unshown.map((words) => <p class="quiet" safe>{words}</p>)}
    </section>
  )
}
