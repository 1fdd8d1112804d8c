import type { Children } from '@kitajs/html'
import { at } from './asset.ts'
import { escapeHtml } from './text.ts'

type Width = 'w2' | 'w3' | 'w4' | 'w5' | 'w7'

/** A title block laid flat: cells grow and wrap, number and title first. */
export function Strip({ children }: { children: Children }): JSX.Element {
  return <header class="strip">{children}</header>
}

/** Ends a line of cells. */
export function Turn(): JSX.Element {
  return <i class="turn"></i>
}

/** The number of the thing, as B-0147. */
export function NumberCell({ label, number }: { label: string, number: string }): JSX.Element {
  return <div class="cell w2"><span class="label" safe>{label}</span><div class="number" safe>{number}</div></div>
}

/** The title of the page: its only h1. One that people gave may hold a unit, which is never in capitals. */
export function TitleCell({ label, title, isNamed }: { label: string, title: string, isNamed?: boolean }): JSX.Element {
  return <div class={['cell title', isNamed === true && 'named']}><span class="label" safe>{label}</span><h1 safe>{title}</h1></div>
}

/** Anything else, as elements; text in it is escaped by whoever passes it. */
export function Cell({ label, width, children }: { label: string, width?: Width, children: Children }): JSX.Element {
  return <div class={['cell', width]}><span class="label" safe>{label}</span><div class="value">{children}</div></div>
}

/** Plain text with a quieter second part. */
export function TextCell({ label, width = 'w3', text, more = '' }: { label: string, width?: Width, text: string, more?: string }): JSX.Element {
  return (
    <Cell label={label} width={width}>
      <span safe>{text}</span>{more === '' ? '' : <span class="quiet"> · {escapeHtml(more)}</span>}
    </Cell>
  )
}

export interface TrailStep { readonly name: string, readonly href?: string }

/** Where in the build this page stands; the last step is this page. */
export function Trail({ steps }: { steps: readonly TrailStep[] }): JSX.Element {
  return (
    <nav class="trail" aria-label="Place in the build">
      <ol>
        {steps.map(({ name, href }) => href === undefined
          ? <li aria-current="page" safe>{name}</li>
          : <li><a href={at(href)} safe>{name}</a></li>)}
      </ol>
    </nav>
  )
}
