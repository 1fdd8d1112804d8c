import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Mark } from '../shared/marks.tsx'
import { Photos } from '../shared/photos.tsx'
import type { PhotosProps } from '../shared/photos.tsx'
import { Post } from '../shared/post.tsx'
import type { PostProps } from '../shared/post.tsx'
import { Saved } from '../shared/saved.tsx'
import { escapeProse } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

interface Scanned {
  readonly build: { readonly label: string, readonly title: string, readonly vehicle: string, readonly href: string }
  readonly label: string
  readonly name: string
  readonly saved: string | null
  readonly links: readonly { readonly href: string, readonly name: string }[]
}

export interface PressChoice {
  readonly name: string
  /** Where it is now, or what the press does. */
  readonly more: string
  readonly post: PostProps
}

export interface ScannedBinData extends Scanned {
  readonly note: string
  /** While a stock-take is open. */
  readonly count: { readonly href: string, readonly name: string } | null
  readonly holds: readonly { readonly label: string, readonly name: string, readonly more: string, readonly href: string }[]
  /** Parts that lie nowhere yet: the likely ones. */
  readonly waiting: readonly PressChoice[]
  readonly others: readonly PressChoice[]
}

export interface ScannedPartData extends Scanned {
  readonly where: string
  readonly isOpen: boolean
  readonly facts: readonly { readonly label: string, readonly text: string }[]
  readonly fasteners: readonly string[]
  readonly bins: readonly PressChoice[]
  readonly next: readonly { readonly href: string, readonly name: string }[]
  readonly photos: PhotosProps
}

/** A bin whose label was scanned: what should be in it, and one press for what goes in. */
export function ScannedBinPage({ viewer, data }: { viewer: Viewer, data: ScannedBinData }): JSX.Element {
  return (
    <Frame title={`${data.label} ${data.name}`} place="builds" viewer={viewer} kind="card">
      <Head viewer={viewer} data={data} kind="Bin" />
      {data.count === null ? '' : <div class="scan-next"><a class="button first" href={at(data.count.href)} safe>{data.count.name}</a></div>}
      {data.note === '' ? '' : <p class="line prose" safe>{data.note}</p>}
      {data.waiting.length === 0 ? '' : (
        <section>
          <h2>Out, and nowhere yet: put in here</h2>
          <Presses viewer={viewer} choices={data.waiting} />
        </section>
      )}
      {data.others.length === 0 ? '' : (
        <details class="folded">
          <summary class="line"><strong>Put another part in</strong></summary>
          <Presses viewer={viewer} choices={data.others} />
        </details>
      )}
      <section>
        <h2>Should be in it</h2>
        {data.holds.length === 0 ? <p class="line">Nothing: it is free.</p> : (
          <ul class="scanned">
            {data.holds.map(({ label, name, more, href }) => <li><a href={at(href)}><span class="no" safe>{label}</span>{' '}<span safe>{name}</span></a><small safe>{more}</small></li>)}
          </ul>
        )}
      </section>
      <Links data={data} />
    </Frame>
  )
}

/** A factory part, or its bag of fasteners, whose label was scanned. */
export function ScannedPartPage({ viewer, data }: { viewer: Viewer, data: ScannedPartData }): JSX.Element {
  return (
    <Frame title={`${data.label} ${data.name}`} place="builds" viewer={viewer} kind="card">
      <Head viewer={viewer} data={data} kind="Factory part" />
      <section class="where-now">
        <h2>Where it is</h2>
        <p class="place-now">{data.isOpen ? <><Mark name="point" />{' '}</> : ''}<span safe>{data.where}</span></p>
      </section>
      <section>
        <h2>What next</h2>
        {data.bins.length === 0 ? '' : (
          <details class="folded">
            <summary class="line"><strong>Put it in a bin</strong></summary>
            <Presses viewer={viewer} choices={data.bins} />
          </details>
        )}
        <div class="scan-next">{data.next.map(({ href, name }) => <a class="button" href={at(href)} safe>{name}</a>)}</div>
      </section>
      {data.fasteners.length === 0 ? '' : (
        <section>
          <h2>Fasteners in its bag</h2>
          <ul class="scanned">{data.fasteners.map((words) => <Fastener words={words} />)}</ul>
        </section>
      )}
      {data.facts.length === 0 ? '' : <dl class="facts scan-facts">{data.facts.map(({ label, text }) => <div><dt safe>{label}</dt><dd class="prose" safe>{text}</dd></div>)}</dl>}
      <Photos {...data.photos} />
      <Links data={data} />
    </Frame>
  )
}

function Fastener({ words }: { words: string }): JSX.Element {
  const safeWords = escapeProse(words)
  return <li>{safeWords}</li>
}

function Head({ viewer, data, kind }: { viewer: Viewer, data: Scanned, kind: string }): JSX.Element {
  return (
    <>
      {data.saved === null ? '' : <Saved what={data.saved} csrfToken={viewer.csrfToken} />}
      <header class="idle">
        <span class="label" safe>{kind}</span>
        <h1><span class="no" safe>{data.label}</span>{' '}<span safe>{data.name}</span></h1>
        <p><a class="link" href={at(data.build.href)} safe>{`${data.build.label} ${data.build.title}`}</a>{' '}<span class="quiet" safe>{data.build.vehicle}</span></p>
      </header>
    </>
  )
}

function Presses({ viewer, choices }: { viewer: Viewer, choices: readonly PressChoice[] }): JSX.Element {
  return (
    <ul class="presses">
      {choices.map(({ name, more, post }) => (
        <li><Post post={post} csrfToken={viewer.csrfToken}><span safe>{name}</span><small safe>{more}</small></Post></li>
      ))}
    </ul>
  )
}

function Links({ data }: { data: Scanned }): JSX.Element {
  return <nav class="line" aria-label="Further">{data.links.map(({ href, name }) => <a href={at(href)} safe>{name}</a>)}</nav>
}
