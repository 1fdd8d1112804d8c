import type { Children } from '@kitajs/html'
export interface Column {
  readonly name: string
  /** Figures stand to the right. */
  readonly isFigure?: boolean
  /** Heard, not seen: for columns of buttons and ticks. */
  readonly isUnseen?: boolean
}

export interface TableProps {
  readonly columns: readonly Column[]
  /** What the table holds, for those who hear it. */
  readonly caption: string
  readonly children: Children
  readonly class?: string
}

/** A table that becomes rows of words in a narrow window: each cell says what it is by `is`. */
export function Table({ columns, caption, children, class: own }: TableProps): JSX.Element {
  return (
    <table class={['rows', own]}>
      <caption class="unseen" safe>{caption}</caption>
      <thead><tr>{columns.map((column) => <HeadCell column={column} />)}</tr></thead>
      <tbody>{children}</tbody>
    </table>
  )
}

function HeadCell({ column }: { column: Column }): JSX.Element {
  return (
    <th scope="col" class={[column.isFigure === true && 'right']}>
      {column.isUnseen === true ? <span class="unseen" safe>{column.name}</span> : <span safe>{column.name}</span>}
    </th>
  )
}

/** One figure in a row; `is` is read before it in a narrow window, as "logged 2.5". */
export function FigureCell({ is, text, byHand }: { is: string, text: string, byHand?: boolean }): JSX.Element {
  return <td class={['figure', byHand === true && 'hand']} data-is={is} safe>{text}</td>
}

/** Words in a row. */
export function WordCell({ is, text, quiet }: { is?: string, text: string, quiet?: boolean }): JSX.Element {
  return <td class={[quiet === true && 'quiet']} data-is={is ?? false} safe>{text}</td>
}

/** A head within the body, over the rows that follow. */
export function GroupRow({ name, span }: { name: string, span: number }): JSX.Element {
  return <tr class="group"><th colspan={span} scope="rowgroup" class="whole" safe>{name}</th></tr>
}
