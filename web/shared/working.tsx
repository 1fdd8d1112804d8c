import type { Working } from '../../server/calc/amounts.ts'
import { at } from './asset.ts'
import { WorkingSheet } from './figure.tsx'
import { Frame } from './frame.tsx'
import type { Place } from './frame.tsx'
import { Strip, TitleCell, Trail } from './strip.tsx'
import type { TrailStep } from './strip.tsx'
import type { Viewer } from './viewer.ts'

export interface WorkingPageData {
  readonly working: Working
  readonly place: Place
  /** Down to the page on which the figure stands; its last step leads back. */
  readonly trail: readonly (TrailStep & { readonly href: string })[]
  /** Decimals of the hours on that page. */
  readonly places: 1 | 2
}

/** How one figure comes about, at an address of its own. */
export function WorkingPage({ viewer, data: { working, place, trail, places } }: { viewer: Viewer, data: WorkingPageData }): JSX.Element {
  const back = trail.at(-1)
  return (
    <Frame title={working.title} place={place} viewer={viewer}>
      <Trail steps={[...trail, { name: 'How it comes about' }]} />
      <Strip><TitleCell label="How this figure comes about" title={working.title} /></Strip>
      <WorkingSheet working={working} reader={viewer} places={places} />
      {back === undefined ? '' : <section class="deed"><a class="button" href={at(back.href)}>Back to <span safe>{back.name}</span></a></section>}
    </Frame>
  )
}
