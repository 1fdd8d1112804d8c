import type { Children } from '@kitajs/html'
import { at } from './asset.ts'
import { FigureCell, Table } from './table.tsx'
import type { PaperLineView, PaperTotalView, PaperView } from './paperData.ts'

const COLUMNS = (currency: string, hasQuantities: boolean) => [{ name: 'What' }, ...(hasQuantities ? [{ name: 'Quantity', isFigure: true }, { name: 'Each', isFigure: true }] : []), { name: 'Tax code' }, { name: currency, isFigure: true }]

/** The lines that are in no option. */
export function PaperLines({ view, isFrozen = false }: { view: PaperView, isFrozen?: boolean }): JSX.Element {
  if (view.lines.length === 0) return <p class="quiet">No lines yet.</p>
  const hasQuantities = view.lines.some(({ quantity }) => quantity !== '')
  return <Table class="money" columns={COLUMNS(view.currency, hasQuantities)} caption="Lines">{view.lines.map((line) => <LineRow line={line} hasQuantities={hasQuantities} isFrozen={isFrozen} />)}</Table>
}

function LineRow({ line, hasQuantities, isFrozen }: { line: PaperLineView, hasQuantities: boolean, isFrozen: boolean }): JSX.Element {
  return (
    <tr>
      <th scope="row">{line.href === undefined ? <span safe>{line.text}</span> : <a href={at(line.href)} safe>{line.text}</a>}</th>
      {hasQuantities ? <><td class="figure recorded" data-is="quantity" safe>{line.quantity}</td><td class="figure recorded" data-is="each" safe>{line.each}</td></> : ''}
      <td class="quiet" data-is="tax code" safe>{line.tax}</td>
      <FigureCell is="amount" text={line.amount} how={isFrozen ? 'recorded' : line.how} />
    </tr>
  )
}

// What an option adds is written with a plus, which is no part of its figure.
const MORE = '+ '

/** Options with what is in them; to tick where a form stands around them. */
export function PaperOptions({ view, isAsked = false, isFrozen = false }: { view: PaperView, isAsked?: boolean, isFrozen?: boolean }): JSX.Element {
  const groups = [...new Set(view.options.map(({ oneOf }) => oneOf.toLowerCase()))]
  return (
    <>
      {groups.map((group) => (
        <OneOf name={group} isAsked={isAsked} isNone={!view.options.some(({ oneOf, isChosen }) => isChosen && oneOf.toLowerCase() === group)}>
          {view.options.filter(({ oneOf }) => oneOf.toLowerCase() === group).map((option) => (
            <div class="opt">
              {isAsked ? <Tick number={option.number} oneOf={group} isChosen={option.isChosen} /> : ''}
              <div class="what">
                {option.href === undefined ? (isAsked ? <label for={`option-${option.number}`} safe>{`${option.number} ${option.name}`}</label> : <strong safe>{`${option.number} ${option.name}`}</strong>) : <a href={at(option.href)} safe>{`${option.number} ${option.name}`}</a>}
                {option.note === '' ? '' : <small safe>{option.note}</small>}
                <small safe>{option.lines.map(({ text, amount }) => `${text} ${amount}`).join('; ')}</small>
                {!isAsked && isFrozen && option.isChosen ? <strong>Chosen</strong> : ''}
              </div>
              <div class="price">
                {option.how === undefined ? <span class={['figure', isFrozen && 'recorded']} safe>{option.net}</span> : <span class="figure">{option.net.startsWith(MORE) ? MORE : ''}<a href={`?how=${option.how}`} safe>{option.net.replace(MORE, '')}</a></span>}
                <small class="quiet recorded" safe>{`with tax ${option.total}`}</small>
              </div>
            </div>
          ))}
        </OneOf>
      ))}
    </>
  )
}

function OneOf({ name, isAsked, isNone, children }: { name: string, isAsked: boolean, isNone: boolean, children: Children }): JSX.Element {
  if (name === '') return <>{children}</>
  return (
    <fieldset class="one-of">
      <legend safe>{`One of these, or none: ${name}`}</legend>
      {children}
      {isAsked ? <div class="opt"><input type="radio" id={`none-${name}`} name={`one.${name}`} value="" checked={isNone} /><div class="what"><label for={`none-${name}`}>None of these</label></div></div> : ''}
    </fieldset>
  )
}

function Tick({ number, oneOf, isChosen }: { number: number, oneOf: string, isChosen: boolean }): JSX.Element {
  return oneOf === ''
    ? <input type="checkbox" id={`option-${number}`} name="option" value={String(number)} checked={isChosen} />
    : <input type="radio" id={`option-${number}`} name={`one.${oneOf}`} value={String(number)} checked={isChosen} />
}

/** Without tax, tax code by code, and the total. */
export function PaperTotals({ totals, caption, isFrozen = false }: { totals: readonly PaperTotalView[], caption: string, isFrozen?: boolean }): JSX.Element {
  return (
    <table class="rows money sums">
      <caption class="unseen" safe>{caption}</caption>
      <tbody>
        {totals.map(({ name, amount, isTotal, how }) => (
          <tr class={[isTotal && 'total']}><th scope="row" safe>{name}</th><FigureCell is="amount" text={amount} how={isFrozen ? 'recorded' : how} /></tr>
        ))}
      </tbody>
    </table>
  )
}

export function PaperDeposits({ view, isFrozen = false }: { view: PaperView, isFrozen?: boolean }): JSX.Element {
  if (view.deposits.length === 0) return <></>
  return (
    <Table class="money" columns={[{ name: 'Deposit' }, { name: 'Share', isFigure: true }, { name: view.currency, isFigure: true }]} caption="Deposit plan">
      {view.deposits.map(({ due, share, amount, how }) => (
        <tr><th scope="row" safe>{due}</th><td class="figure recorded" data-is="share" safe>{share}</td><FigureCell is="amount" text={amount} how={isFrozen ? 'recorded' : how} /></tr>
      ))}
    </Table>
  )
}

/** Not included, assumed, replaced parts: what else is said. */
export function PaperSaid({ view }: { view: PaperView }): JSX.Element {
  return <dl class="facts said-on-paper">{view.said.map(({ name, text }) => <div><dt safe>{name}</dt><dd class="prose" safe>{text}</dd></div>)}</dl>
}
