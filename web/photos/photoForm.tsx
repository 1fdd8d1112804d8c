import { at } from '../shared/asset.ts'
import { ChoiceEntry, Fields, Form, problemOf, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Photo } from '../shared/photos.tsx'
import type { PhotoShown } from '../shared/photos.tsx'
import { Post } from '../shared/post.tsx'
import type { PostProps } from '../shared/post.tsx'
import { Strip, TitleCell, Trail } from '../shared/strip.tsx'
import type { FieldProblem, Viewer } from '../shared/viewer.ts'

export interface PhotoFormData {
  readonly of: string
  readonly photo: PhotoShown
  readonly backHref: string
  readonly action: string
  readonly key: string
  readonly caption: string
  readonly moment: string
  readonly moments: readonly string[]
  readonly problems: readonly FieldProblem[]
  readonly removal: PostProps
}

/** One photo large, with what can be changed about it. */
export function PhotoFormPage({ viewer, data }: { viewer: Viewer, data: PhotoFormData }): JSX.Element {
  const { of, photo, backHref, problems } = data
  const entry = (name: string, label: string, note?: string) => ({ name, label, note, problem: problemOf(problems, name) })
  return (
    <Frame title={`Photo of ${of}`} place="builds" viewer={viewer}>
      <Trail steps={[{ name: of, href: backHref }, { name: 'Photo' }]} />
      <Strip><TitleCell label="Photo of" title={of} /></Strip>
      <section class="block photo-list"><Photo photo={photo} /></section>
      <Form action={data.action} csrfToken={viewer.csrfToken} idempotencyKey={data.key} problems={problems} submit="Save" cancelHref={backHref}>
        <input type="hidden" name="back" value={backHref} />
        <Fields>
          <TextEntry {...entry('caption', 'Caption')} value={data.caption} />
          <ChoiceEntry {...entry('moment', 'Taken', 'Seen from the work on the vehicle.')} value={data.moment} options={data.moments.map((value) => ({ value, label: value }))} none="nobody said" />
        </Fields>
      </Form>
      <section class="block">
        <p class="row"><Post post={data.removal} csrfToken={viewer.csrfToken}>Remove this photo</Post> <a class="link" href={at(`/photos/${photo.id}`)}>See it large</a></p>
      </section>
    </Frame>
  )
}
