import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import { escapeHtml } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

interface NamedLink {
  readonly name: string
  readonly href: string
}

export interface SourceBuild extends NamedLink {
  readonly vehicle: string
  readonly holds: string
  /** Left out for those who do not plan. */
  readonly wholeHref?: string | undefined
  readonly orders: readonly NamedLink[]
  readonly parts: readonly NamedLink[]
}

export interface SourcesData {
  readonly build: NamedLink
  readonly vehicle: string
  readonly find: string
  readonly action: string
  /** Those of the same make and model, then others. */
  readonly groups: readonly { readonly name: string, readonly builds: readonly SourceBuild[] }[]
  readonly isCut: boolean
  /** Left out where nothing was taken over yet. */
  readonly comparisonHref?: string | undefined
}

/** Earlier builds to take something over from, those of the same make and model first. */
export function SourcesPage({ viewer, data }: { viewer: Viewer, data: SourcesData }): JSX.Element {
  return (
    <Frame title="Copy from an earlier build" place="builds" viewer={viewer}>
      <Trail steps={[data.build, { name: 'Copy from an earlier build' }]} />
      <Strip>
        <TitleCell label="Templates" title="Copy from an earlier build" />
        <TextCell label="Into" text={data.build.name} more={data.vehicle} />
      </Strip>
      <section class="block">
        <search>
          <form class="find" method="get" action={at(data.action)}>
            <label for="find-source">Make, model, title, made part or its family</label>
            <div class="entry"><input id="find-source" name="find" type="search" value={data.find} autocomplete="off" /></div>
            <button class="button" type="submit">Find</button>
          </form>
        </search>
        <p class="quiet">Nothing is written before the preview that follows is sent.</p>
        {data.comparisonHref === undefined ? '' : <p><a class="link" href={at(data.comparisonHref)}>Compare this build with where it came from</a></p>}
      </section>
      {data.groups.every(({ builds }) => builds.length === 0) ? <section class="block"><p>No earlier build fits. Try one word less.</p></section> : ''}
      {data.groups.map(({ name, builds }) => builds.length === 0 ? '' : (
        <section class="block">
          <h2 safe>{name}</h2>
          {builds.map((build) => <Source build={build} />)}
        </section>
      ))}
      {data.isCut ? <section class="block"><p class="quiet">There are more. Look for a make, a model or a part.</p></section> : ''}
    </Frame>
  )
}

function Source({ build }: { build: SourceBuild }): JSX.Element {
  return (
    <div class="source">
      <h3 class="subject"><a class="link" href={at(build.href)} safe>{build.name}</a></h3>
      <p class="quiet" safe>{`${build.vehicle} · ${build.holds}`}</p>
      {build.wholeHref === undefined ? '' : <p><a class="link" href={at(build.wholeHref)} aria-label={`The whole scope of ${build.name}`}>The whole scope</a></p>}
      <Links name="A made part with its pieces" links={build.parts} />
      <Links name="A zone’s order of removal" links={build.orders} />
    </div>
  )
}

function Links({ name, links }: { name: string, links: readonly NamedLink[] }): JSX.Element {
  if (links.length === 0) return ''
  return (
    <details class="folded">
      <summary><span>{escapeHtml(name)}: {links.length}</span></summary>
      <ul class="plainlist">{links.map((link) => <li><a class="link" href={at(link.href)} safe>{link.name}</a></li>)}</ul>
    </details>
  )
}
