import { at } from '../shared/asset.ts'
import { Frame } from '../shared/frame.tsx'
import { PhotoList, Photos } from '../shared/photos.tsx'
import type { PhotoShown, PhotosProps } from '../shared/photos.tsx'
import { Strip, TextCell, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import { counted } from '../shared/text.ts'
import type { Viewer } from '../shared/viewer.ts'

export interface BuildPhotosData {
  readonly trail: readonly TrailStep[]
  readonly name: string
  /** Of the build and its records, on all pages. */
  readonly count: number
  /** Of the build itself. */
  readonly own: PhotosProps
  /** What stands on the next page. */
  readonly more: { readonly count: number, readonly href: string } | null
  readonly records: readonly { readonly name: string, readonly kindName: string, readonly href: string, readonly photos: readonly PhotoShown[] }[]
}

/** All pictures of a build: those of itself, with a form for more, and those of its records. */
export function BuildPhotosPage({ viewer, data }: { viewer: Viewer, data: BuildPhotosData }): JSX.Element {
  return (
    <Frame title={`Photos of ${data.name}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip>
        <TitleCell label="Photos of" title={data.name} />
        <TextCell label="Pictures" text={counted(data.count, 'picture', 'pictures')} />
      </Strip>
      <Photos {...data.own} />
      {data.records.map(({ name, kindName, href, photos }) => (
        <section class="block">
          <h2><a class="link" href={at(href)} safe>{name}</a> <span class="quiet" safe>{kindName}</span></h2>
          <PhotoList photos={photos} />
        </section>
      ))}
      {data.more === null ? '' : <section class="block"><a class="link" href={at(data.more.href)} safe>{counted(data.more.count, 'more picture', 'more pictures')}</a></section>}
    </Frame>
  )
}
