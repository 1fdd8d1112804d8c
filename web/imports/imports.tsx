import { at } from '../shared/asset.ts'
import { Field, tie } from '../shared/field.tsx'
import { ChoiceEntry, Fields, Form, problemOf } from '../shared/form.tsx'
import type { Option } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Saved } from '../shared/saved.tsx'
import { Strip, TextCell, TitleCell } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface ExchangedKind {
  readonly path: string
  readonly name: string
  /** Null for records of a build: those are exported from their build's list. */
  readonly exportHref: string | null
  readonly knownBy: string
}

export interface ImportsData {
  readonly kinds: readonly ExchangedKind[]
  readonly builds: readonly Option[]
  readonly values: { readonly kind: string, readonly build: string, readonly text: string }
  readonly problems: readonly FieldProblem[]
  readonly key: string
  readonly limit: string
  /** What an import has just done. */
  readonly saved: string | null
  readonly savedHref: string | null
  /** People who cannot sign in yet, with where their one-time code is given. */
  readonly withoutPassword: readonly { readonly href: string, readonly name: string }[]
}

/** A list from a spreadsheet is chosen here; nothing is written before every row was shown. */
export function ImportsPage({ viewer, data }: { viewer: Viewer, data: ImportsData }): JSX.Element {
  return (
    <Frame title="Import and export" place="settings" viewer={viewer}>
      {data.saved === null ? '' : (
        <Saved what={data.saved} csrfToken={viewer.csrfToken} {...(data.savedHref === null ? {} : { next: { href: at(data.savedHref), name: 'Look at the list' } })} />
      )}
      <Strip>
        <TitleCell label="Settings" title="Import and export" />
        <TextCell label="How" width="w7" text="Choose a list, see what every row would do, then let it in: all rows or none. The same file again changes nothing." />
      </Strip>
      <Codes people={data.withoutPassword} />
      <section class="block">
        <h2>Import a list</h2>
        <ChooseForm viewer={viewer} data={data} />
      </section>
      <section class="block">
        <h2>Export</h2>
        <p>A CSV file for any spreadsheet; changed there, it can be imported again.</p>
        <ul class="plainlist">{data.kinds.map((kind) => <ExportLine kind={kind} />)}</ul>
      </section>
    </Frame>
  )
}

function ChooseForm({ viewer, data }: { viewer: Viewer, data: ImportsData }): JSX.Element {
  const { problems, values } = data
  const kinds = data.kinds.map(({ path, name }) => ({ value: path, label: name }))
  const file = { name: 'file', label: 'File', note: `CSV from a spreadsheet, headings in the first line; ${data.limit} at most.`, problem: problemOf(problems, 'file') }
  const text = { name: 'text', label: 'Or paste', note: 'Headings and rows as copied from a spreadsheet.', problem: problemOf(problems, 'text') }
  return (
    <Form action="/imports/readings" csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={problems} withFile
      submit="Read without writing" note="Next: every row with what it would do.">
      <Fields>
        <ChoiceEntry name="kind" label="What it lists" required value={values.kind} options={kinds} none="choose" problem={problemOf(problems, 'kind')} />
        <ChoiceEntry name="build" label="Of which build" note="Only for parts." value={values.build} options={data.builds} none="none" problem={problemOf(problems, 'build')} />
        <Field entry={file}><div class="entry"><input {...tie(file)} type="file" accept=".csv,.txt,.tsv,text/csv,text/plain" /></div></Field>
        <Field entry={text}><div class="entry"><textarea {...tie(text)} class="pasted" rows="6" spellcheck="false" safe>{`\n${values.text}`}</textarea></div></Field>
      </Fields>
    </Form>
  )
}

function ExportLine({ kind: { name, exportHref, knownBy } }: { kind: ExchangedKind }): JSX.Element {
  return (
    <li>
      {exportHref === null ? <span safe>{name}</span> : <a class="link" href={at(exportHref)} safe>{`Export ${name}`}</a>}{' '}
      <span class="quiet" safe>{exportHref === null ? `from the list in the build; rows are known by ${knownBy}` : `rows are known by ${knownBy}`}</span>
    </li>
  )
}

function Codes({ people }: { people: ImportsData['withoutPassword'] }): JSX.Element {
  if (people.length === 0) return ''
  return (
    <section class="block">
      <h2>They cannot sign in yet</h2>
      <p>No password is ever imported. Give each a one-time code, when they stand beside you or on the phone: it holds for a day.</p>
      <ul class="plainlist">{people.map(({ href, name }) => <li><a class="link" href={at(href)} safe>{`A one-time code for ${name}`}</a></li>)}</ul>
    </section>
  )
}
