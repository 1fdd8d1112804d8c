import type { Option } from '../shared/form.tsx'
import { Table, WordCell } from '../shared/table.tsx'

export interface ColumnRow {
  readonly index: number
  readonly letter: string
  readonly heading: string
  /** The chosen field, '' where the column is left out. */
  readonly field: string
  readonly remark: string
  readonly sample: string
}

const COLUMNS = [{ name: 'Column' }, { name: 'In the file' }, { name: 'Is read as' }, { name: 'Remark' }, { name: 'First value' }]

/** Each column of a file, and the field it is read as. */
export function ColumnsTable({ columns, fields }: { columns: readonly ColumnRow[], fields: readonly Option[] }): JSX.Element {
  return (
    <Table columns={COLUMNS} caption="Columns of the file" class="columns">
      {columns.map((column) => (
        <tr>
          <td class="no" safe>{column.letter}</td>
          <th scope="row" safe>{column.heading === '' ? 'no heading' : `“${column.heading}”`}</th>
          <td>
            <div class="entry">
              <select name={`column-${column.index}`} aria-label={`Column ${column.letter} is read as`}>
                <option value="" selected={column.field === ''}>left out</option>
                {fields.map(({ value, label }) => <option value={value} selected={value === column.field} safe>{label}</option>)}
              </select>
            </div>
          </td>
          <WordCell text={column.remark} />
          <WordCell is="first value" text={column.sample} quiet />
        </tr>
      ))}
    </Table>
  )
}
