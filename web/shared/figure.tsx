import type { Amount, Working, WorkingInput } from '../../server/calc/amounts.ts'
import { writeAmount } from './amount.ts'
import type { Reader } from './amount.ts'
import { at } from './asset.ts'
import { exactWriter } from './exactAmount.ts'
import type { ExactWriter } from './exactAmount.ts'
import { escapeHtml } from './text.ts'

/** A plain amount; `isRecorded` where somebody entered it. */
export function Figure({ amount, reader, byHand, isRecorded }: { amount: Amount, reader: Reader, byHand?: boolean, isRecorded?: boolean }): JSX.Element {
  return <span class={['figure', byHand === true && 'hand', isRecorded === true && 'recorded']} safe>{writeAmount(amount, reader)}</span>
}

/** The key of a working on its own page: what a figure in a row leads to, as ?how=z4e. */
export type How = string

interface RowFigureProps {
  readonly text: string
  readonly how: How
  readonly byHand?: boolean
  /** The rest of the page's address where the figure depends on it, as "scope=all". */
  readonly on?: string | undefined
  /** The page that explains it, where that is another than the one it stands on. */
  readonly of?: string | undefined
}

/** A figure among many: a short link to how it comes about; the script opens that in place. */
export function RowFigure({ text, how, byHand, on = '', of }: RowFigureProps): JSX.Element {
  return <a href={`${of === undefined ? '' : at(of)}?how=${how}${on === '' ? '' : `&${on}`}`} class={[byHand === true && 'hand']} safe>{text}</a>
}

export interface ExplainedProps {
  readonly working: Working
  readonly reader: Reader
  readonly byHand?: boolean
  /** In rows a dotted underline instead of the boxed "=". */
  readonly inRow?: boolean
}

/** A figure that opens how it comes about. */
export function Explained({ working, reader, byHand, inRow }: ExplainedProps): JSX.Element {
  return (
    <details class={['working', inRow === true && 'in-row']}>
      <summary>
        <Figure amount={working.result} reader={reader} byHand={byHand === true} />
        <span class="unseen">: how {escapeHtml(working.title)} comes about</span>
      </summary>
      <WorkingSheet working={working} reader={reader} />
    </details>
  )
}

interface SheetProps {
  readonly working: Working
  readonly reader: Reader
  /** Decimals of hours on the page that shows the result. */
  readonly places?: 1 | 2
}

/** Inputs with their sources, formula, what is assumed, and where the rule comes from. */
export function WorkingSheet({ working, reader, places = 1 }: SheetProps): JSX.Element {
  const writer = exactWriter(working, reader, places)
  return (
    <div class="sum">
      <div class="cols">
        <Inputs working={working} writer={writer} />
        <dl>
          <div><dt>Formula</dt><dd class="formula" safe>{working.formula}</dd></div>
          {working.assumed === '' ? '' : <div><dt>Assumed</dt><dd safe>{working.assumed}</dd></div>}
          {writer.isRounded ? <div><dt>Rounded</dt><dd>{ROUNDED}</dd></div> : ''}
          <div><dt>Source</dt><dd safe>{working.source}</dd></div>
        </dl>
      </div>
    </div>
  )
}

const ROUNDED = 'Amounts are written rounded; the result comes from the unrounded ones.'

function Inputs({ working: { title, inputs }, writer }: { working: Working, writer: ExactWriter }): JSX.Element {
  return (
    <table class="rows">
      <thead><tr><th scope="col">Input</th><th scope="col">Source</th><th scope="col" class="right">Amount</th></tr></thead>
      <tbody>
        {inputs.length === 0 ? <tr><td colspan={3}>Nothing goes into it yet.</td></tr> : ''}
        {inputs.map((input) => <InputRow input={input} writer={writer} />)}
        <tr class="total">
          <th scope="row" safe>{title}</th><td></td>
          <td class="figure" safe>{writer.writeResult()}</td>
        </tr>
      </tbody>
    </table>
  )
}

function InputRow({ input: { label, source, amount }, writer }: { input: WorkingInput, writer: ExactWriter }): JSX.Element {
  return (
    <tr>
      <th scope="row" safe>{label}</th>
      <td safe>{source}</td>
      <td class="figure" safe>{writer.write(amount)}</td>
    </tr>
  )
}

/** On paper nothing opens: the figure carries the number of a note below. */
export function Noted({ amount, reader, note }: { amount: Amount, reader: Reader, note: number }): JSX.Element {
  return <span class="keep"><Figure amount={amount} reader={reader} /><sup class="note-no">{note}</sup></span>
}

/** The notes that `Noted` figures and heads of columns refer to, in the same order. */
export function Notes({ workings, reader }: { workings: readonly (Working | string)[], reader: Reader }): JSX.Element {
  return <ol class="notes">{workings.map((working) => <li safe>{typeof working === 'string' ? working : noteOf(working, reader)}</li>)}</ol>
}

/** A working in one sentence, for paper. */
export function noteOf(working: Working, reader: Reader): string {
  const { title, inputs, formula, assumed, source } = working
  const writer = exactWriter(working, reader)
  return [
    `${title} ${writer.writeResult()}: ${formula}. `, inputs.map(({ label, amount }) => `${label} (${writer.write(amount)})`).join('; '),
    assumed === '' ? '' : `. Assumed: ${assumed}`, writer.isRounded ? ` ${ROUNDED}` : '', ` (${source})`,
  ].join('')
}
