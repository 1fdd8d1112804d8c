import type { Children } from '@kitajs/html'
import { RowFigure } from './figure.tsx'
import type { How } from './figure.tsx'
import { escapeHtml } from './text.ts'

export interface Column {
  readonly name: string
  /** Figures stand to the right. */
  readonly isFigure?: boolean
  /** On paper: the number of the note that says how its figures come about. */
  readonly note?: number | undefined
  /** The same where on the screen its figures open. */
  readonly notePrinted?: number | undefined
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
      {column.note === undefined ? '' : <sup class="note-no">{column.note}</sup>}
      {column.notePrinted === undefined ? '' : <sup class="note-no on-paper">{column.notePrinted}</sup>}
    </th>
  )
}

interface FigureCellProps {
  /** Read before the figure in a narrow window, as "logged 2.5". */
  readonly is: string
  readonly text: string
  readonly byHand?: boolean
  /** The key of how it comes about, or 'recorded' for what somebody entered. */
  readonly how: How | 'recorded' | undefined
  readonly on?: string | undefined
  readonly of?: string | undefined
}

/** One figure in a row: computed ones open, entered ones are marked as recorded. */
export function FigureCell({ is, text, byHand, how, on, of }: FigureCellProps): JSX.Element {
  const isRecorded = how === 'recorded'
  return (
    <td class={['figure', isRecorded && 'recorded', byHand === true && 'hand']} data-is={is}>
      {how === undefined || isRecorded || text === '' ? escapeHtml(text) : <RowFigure text={text} how={how} byHand={byHand === true} on={on} of={of} />}
    </td>
  )
}

/** Words in a row. */
export function WordCell({ is, text, quiet }: { is?: string, text: string, quiet?: boolean }): JSX.Element {
  return <td class={[quiet === true && 'quiet']} data-is={is ?? false} safe>{text}</td>
}

/** A head within the body, over the rows that follow. */
export function GroupRow({ name, span }: { name: string, span: number }): JSX.Element {
  return <tr class="group"><th colspan={span} scope="rowgroup" class="whole" safe>{name}</th></tr>
}
