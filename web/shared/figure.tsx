import type { Amount, Working, WorkingInput } from '../../server/calc/amounts.ts'
import { writeAmount } from './amount.ts'
import type { Reader } from './amount.ts'
import { escapeHtml } from './text.ts'

/** A plain amount. */
export function Figure({ amount, reader, byHand }: { amount: Amount, reader: Reader, byHand?: boolean }): JSX.Element {
  return <span class={['figure', byHand === true && 'hand']} safe>{writeAmount(amount, reader)}</span>
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

/** Inputs with their sources, formula, what is assumed, and where the rule comes from. */
export function WorkingSheet({ working, reader }: { working: Working, reader: Reader }): JSX.Element {
  return (
    <div class="sum">
      <div class="cols">
        {working.inputs.length === 0 ? '' : <Inputs working={working} reader={reader} />}
        <dl>
          <div><dt>Formula</dt><dd class="formula" safe>{working.formula}</dd></div>
          {working.assumed === '' ? '' : <div><dt>Assumed</dt><dd safe>{working.assumed}</dd></div>}
          <div><dt>Source</dt><dd safe>{working.source}</dd></div>
        </dl>
      </div>
    </div>
  )
}

function Inputs({ working, reader }: { working: Working, reader: Reader }): JSX.Element {
  return (
    <table class="rows">
      <thead><tr><th scope="col">Input</th><th scope="col">Source</th><th scope="col" class="right">Amount</th></tr></thead>
      <tbody>
        {working.inputs.map((input) => <InputRow input={input} reader={reader} />)}
        <tr class="total">
          <th scope="row" safe>{working.title}</th><td></td>
          <td class="figure" safe>{writeAmount(working.result, reader)}</td>
        </tr>
      </tbody>
    </table>
  )
}

function InputRow({ input, reader }: { input: WorkingInput, reader: Reader }): JSX.Element {
  return (
    <tr>
      <th scope="row" safe>{input.label}</th>
      <td safe>{input.source}</td>
      <td class="figure" safe>{writeAmount(input.amount, reader)}</td>
    </tr>
  )
}

/** On paper nothing opens: the figure carries the number of a note below. */
export function Noted({ amount, reader, note }: { amount: Amount, reader: Reader, note: number }): JSX.Element {
  return <span class="keep"><Figure amount={amount} reader={reader} /><sup class="note-no">{note}</sup></span>
}

/** The notes that `Noted` figures refer to, in the same order. */
export function Notes({ workings, reader }: { workings: readonly Working[], reader: Reader }): JSX.Element {
  return (
    <ol class="notes">
      {workings.map((working) => (
        <li>
          <span safe>{`${working.title} ${writeAmount(working.result, reader)}: ${working.formula}. `}</span>
          <span safe>{working.inputs.map((input) => `${input.label} (${writeAmount(input.amount, reader)})`).join('; ')}</span>
          <span safe>{`${working.assumed === '' ? '' : `. Assumed: ${working.assumed}`} (${working.source})`}</span>
        </li>
      ))}
    </ol>
  )
}
