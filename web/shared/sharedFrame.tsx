import type { Children } from '@kitajs/html'
import { Head, Patterns } from './frame.tsx'
import { Mark } from './marks.tsx'

interface SharedFrameProps {
  readonly title: string
  /** The shop that shares it. */
  readonly shopName: string
  readonly children: Children
  /** 'sheet' by default; 'paper' for what is printed. */
  readonly kind?: 'sheet' | 'narrow' | 'paper'
}

const MAIN_CLASS = { sheet: 'sheet', narrow: 'sheet narrow', paper: 'papers' } as const

/** A page for whoever holds its link: no places, no search, no sign-in. */
export function SharedFrame({ title, shopName, children, kind = 'sheet' }: SharedFrameProps): JSX.Element {
  return (
    <>
      {'<!doctype html>'}
      <html lang="en">
        <Head title={title} isShared />
        <body class={[kind === 'paper' && 'printed']}>
          <Patterns />
          <a class="skip" href="#main">To the sheet</a>
          <header class="top"><span class="brand"><Mark name="putback" /><span safe>{shopName === '' ? 'Putback' : shopName}</span></span></header>
          <main id="main" class={MAIN_CLASS[kind]} tabindex="-1">{children}</main>
        </body>
      </html>
    </>
  )
}
