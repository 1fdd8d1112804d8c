import type { Children } from '@kitajs/html'
import { asset, at } from './asset.ts'
import { Mark } from './marks.tsx'
import { escapeHtml } from './text.ts'
import type { Role, Viewer } from './viewer.ts'

export type Place = 'now' | 'builds' | 'schedule' | 'customers' | 'stock' | 'people' | 'settings'

const PLACE_NAMES = {
  now: 'Now', builds: 'Builds', schedule: 'Schedule', customers: 'Customers', stock: 'Materials', people: 'People', settings: 'Settings',
} as const satisfies Record<Place, string>

const PLACES_OF: Readonly<Record<Role, readonly Place[]>> = {
  owner: ['now', 'builds', 'schedule', 'customers', 'stock', 'people', 'settings'],
  manager: ['now', 'builds', 'schedule', 'customers', 'stock', 'people', 'settings'],
  technician: ['now', 'builds', 'stock'],
  delivery: ['builds', 'customers'],
}

export interface FrameProps {
  readonly title: string
  readonly place: Place | null
  /** Null before anybody has signed in: no places then. */
  readonly viewer: Viewer | null
  readonly children: Children
  /** What is looked for, on the page that shows what was found. */
  readonly find?: string
  /** 'sheet' by default; 'narrow' for one question; 'card' for one hand; 'paper' for what is printed. */
  readonly kind?: 'sheet' | 'narrow' | 'card' | 'paper'
}

const MAIN_CLASS = { sheet: 'sheet', narrow: 'sheet narrow', card: 'card', paper: 'papers' } as const

/** A whole page around one main part; the page itself brings its h1. */
export function Frame({ title, place, viewer, children, find = '', kind = 'sheet' }: FrameProps): JSX.Element {
  const theme = viewer === null || viewer.theme === 'system' ? false : viewer.theme
  return (
    <>
      {'<!doctype html>'}
      <html lang="en" data-theme={theme}>
        <Head title={title} />
        <body class={[kind === 'paper' && 'printed']}>
          <Patterns />
          <a class="skip" href="#main">To the sheet</a>
          <TopLine place={place} viewer={viewer} find={find} />
          <main id="main" class={MAIN_CLASS[kind]} tabindex="-1">{children}</main>
        </body>
      </html>
    </>
  )
}

/** `isShared` for pages that people open without signing in: no search engine lists them. */
export function Head({ title, isShared = false }: { title: string, isShared?: boolean }): JSX.Element {
  return (
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      {isShared ? <meta name="robots" content="noindex, nofollow" /> : ''}
      <title>{escapeHtml(title)} · Putback</title>
      <link rel="icon" href={asset('putback.svg')} type="image/svg+xml" />
      <link rel="stylesheet" href={asset('putback.css')} />
      <link rel="stylesheet" href={asset('build.css')} />
      <link rel="stylesheet" href={asset('paper.css')} />
      <script src={asset('putback.js')} defer></script>
    </head>
  )
}

/** Hatchings that the stylesheet refers to by name. */
export function Patterns(): JSX.Element {
  return (
    <svg class="patterns" width="0" height="0" aria-hidden="true">
      <defs>
        <pattern id="hatch-hand" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path class="hatch-hand" d="M0 0V5" stroke-width="2" />
        </pattern>
        <pattern id="hatch-ink" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path class="hatch-ink" d="M0 0V7" stroke-width="1.2" />
        </pattern>
      </defs>
    </svg>
  )
}

function TopLine({ place, viewer, find }: { place: Place | null, viewer: Viewer | null, find: string }): JSX.Element {
  return (
    <header class="top">
      <a class="brand" href={at('/')}>
        <Mark name="putback" />Putback
      </a>
      {viewer === null ? '' : <Places place={place} viewer={viewer} />}
      {viewer === null ? '' : <Search find={find} />}
      {viewer === null ? '' : <Who viewer={viewer} />}
    </header>
  )
}

function Places({ place, viewer }: { place: Place | null, viewer: Viewer }): JSX.Element {
  return (
    <nav class="places" aria-label="Places">
      <ul>
        {PLACES_OF[viewer.role].map((each) => (
          <li><a href={at(`/${each}`)} aria-current={each === place ? 'page' : false}>{PLACE_NAMES[each]}</a></li>
        ))}
      </ul>
    </nav>
  )
}

function Search({ find }: { find: string }): JSX.Element {
  return (
    <form class="search" role="search" aria-label="Everything" action={at('/search')}>
      <label class="unseen" for="search">Search in everything</label>
      <input id="search" name="find" type="search" value={find} maxlength="100" placeholder="Number, name, serial" />
      <button>Search</button>
    </form>
  )
}

function Who({ viewer }: { viewer: Viewer }): JSX.Element {
  return (
    <div class="who">
      <span class="as" safe>{`${viewer.name}, ${viewer.role}`}</span>
      <a href={at('/me')}>My page</a>
      <form method="post" action={at('/sign-out')}>
        <input type="hidden" name="_csrf" value={viewer.csrfToken} />
        <button type="submit">Sign out</button>
      </form>
    </div>
  )
}
