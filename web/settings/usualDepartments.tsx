import { Fields, Form, problemOf, QuantityEntry, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface DepartmentRow {
  readonly index: number
  readonly name: string
  readonly costRate: string
  readonly sellRate: string
  /** Apart by commas. */
  readonly skills: string
}

export interface UsualDepartmentsData {
  readonly rows: readonly DepartmentRow[]
  readonly problems: readonly FieldProblem[]
  readonly key: string
}

/** The usual departments by name, with the shop's own rates to be typed; only those with rates are added. */
export function UsualDepartmentsPage({ viewer, data }: { viewer: Viewer, data: UsualDepartmentsData }): JSX.Element {
  return (
    <Frame title="Departments" place="settings" viewer={viewer}>
      <Trail steps={[{ name: 'settings', href: '/settings' }, { name: 'departments', href: '/departments' }, { name: 'usual departments' }]} />
      <Strip>
        <TitleCell label="First day" title="Usual departments" />
        <TextCell label="How" width="w7" text="Names are only a beginning: change them. Type what an hour costs and is sold for; a department left without rates is not added." />
      </Strip>
      <section class="block">
        <Form action="/departments/usual" csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={data.problems}
          submit="Add those with rates" cancelHref="/settings">
          {data.rows.map((row) => <Row row={row} currency={viewer.currency} problems={data.problems} />)}
        </Form>
      </section>
    </Frame>
  )
}

function Row({ row, currency, problems }: { row: DepartmentRow, currency: string, problems: readonly FieldProblem[] }): JSX.Element {
  const entry = (field: string): string => `${field}-${row.index}`
  return (
    <Fields legend={`Department ${row.index + 1}`}>
      <TextEntry name={entry('name')} label="Name" value={row.name} problem={problemOf(problems, entry('name'))} />
      <QuantityEntry name={entry('costRate')} label="Cost of an hour" value={row.costRate} unit={currency} problem={problemOf(problems, entry('costRate'))} />
      <QuantityEntry name={entry('sellRate')} label="Price of an hour" value={row.sellRate} unit={currency} problem={problemOf(problems, entry('sellRate'))} />
      <TextEntry name={entry('skills')} label="Skills" note="Apart by commas." value={row.skills} problem={problemOf(problems, entry('skills'))} />
    </Fields>
  )
}
