import type { Children } from '@kitajs/html'
import { at } from '../shared/asset.ts'
import { RowFigure } from '../shared/figure.tsx'
import { MARK_OF_STATE, Mark } from '../shared/marks.tsx'
import { counted, escapeProse } from '../shared/text.ts'
import type { LedgerItem, LedgerPart } from './ledgerData.ts'

interface Adding {
  readonly add: string | undefined
  /** What the link says, as "Add a factory part". */
  readonly adds: string
}

/** Factory parts, equipment, or what goes back. */
export function ItemColumn({ name, items, add, adds }: Adding & { name: string, items: readonly LedgerItem[] }): JSX.Element {
  return <Column name={name} add={add} adds={adds}>{items.map((item) => <Item item={item} />)}</Column>
}

/** Assemblies and single parts; the pieces of an assembly fold under it. */
export function MadeColumn({ parts, add, adds }: Adding & { parts: readonly LedgerPart[] }): JSX.Element {
  return (
    <Column name="Made here" add={add} adds={adds}>
      {parts.map((part) => (
        <>
          <Item item={part} />
          {part.pieces.length === 0 ? '' : <Pieces pieces={part.pieces} />}
        </>
      ))}
    </Column>
  )
}

/** Its mark is set by its place among the four. */
function Column({ name, add, adds, children }: Adding & { name: string, children: Children }): JSX.Element {
  return (
    <div class="column">
      <h3 class="label" safe>{name}</h3>
      <ul>{children}</ul>
      {add === undefined ? '' : <a class="add" href={at(add)} safe>{adds}</a>}
    </div>
  )
}

function Item({ item: { number, name, href, detail, state, hours } }: { item: LedgerItem }): JSX.Element {
  const safeName = escapeProse(name)
  return (
    <li>
      <i safe>{number}</i>
      {name === '' ? '' : href === undefined ? <span>{safeName}</span> : <a href={at(href)}>{safeName}</a>}
      {hours !== undefined && name === '' ? <RowFigure {...hours} /> : <Detail text={detail ?? state ?? ''} state={state} hours={hours} />}
    </li>
  )
}

function Detail({ text, state, hours }: { text: string } & Pick<LedgerItem, 'state' | 'hours'>): JSX.Element {
  if (text === '' && hours === undefined) return ''
  const safeText = escapeProse(text)
  return <small>{state === undefined ? '' : <><Mark name={MARK_OF_STATE[state]} />{' '}</>}{safeText}{hours === undefined ? '' : <>{text === '' ? '' : ' · '}<RowFigure {...hours} /></>}</small>
}

function Pieces({ pieces }: { pieces: readonly LedgerItem[] }): JSX.Element {
  const done = pieces.filter(({ state }) => state === 'done').length
  return (
    <li class="pieces">
      <details class="folded">
        <summary><span safe>{`${counted(pieces.length, 'piece', 'pieces')} in it, ${done} done`}</span></summary>
        <ul>{pieces.map((piece) => <Item item={piece} />)}</ul>
      </details>
    </li>
  )
}
