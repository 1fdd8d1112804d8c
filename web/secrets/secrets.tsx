import { at } from '../shared/asset.ts'
import { ChoiceEntry, Fields, TextEntry } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Post } from '../shared/post.tsx'
import type { PostProps } from '../shared/post.tsx'
import { Strip, TitleCell, Trail } from '../shared/strip.tsx'
import type { TrailStep } from '../shared/strip.tsx'
import type { Viewer } from '../shared/viewer.ts'

interface Head { readonly trail: readonly TrailStep[], readonly name: string }

export interface SecretsData extends Head {
  readonly isDelivered: boolean
  /** The key is missing or wrong: nothing can be opened. */
  readonly keyFails: boolean
  readonly kept: readonly { readonly kind: string, readonly look: PostProps, readonly erase?: PostProps | undefined }[]
  readonly add: { readonly action: string, readonly kinds: readonly string[] } | null
  readonly happened: readonly { readonly when: string, readonly who: string, readonly what: string }[]
}

export interface LookData extends Head {
  readonly kind: string
  readonly text: string
  readonly backHref: string
}

/** What is kept of codes and keys, never what it says: that is shown on a press, and the press is written down. */
export function SecretsPage({ viewer, data }: { viewer: Viewer, data: SecretsData }): JSX.Element {
  return (
    <Frame title={`Codes and keys of ${data.name}`} place="builds" viewer={viewer}>
      <Trail steps={data.trail} />
      <Strip><TitleCell label="Codes and keys of" title={data.name} /></Strip>
      {data.keyFails ? <section class="mend" role="alert"><h2>The key is missing or wrong</h2><p>What is kept cannot be opened. Whoever runs the server finds the reason in its log, under THEFT_KEY_FILE.</p></section> : ''}
      <section class="block">
        <h2>Kept</h2>
        {data.kept.length === 0 ? <p class="quiet">{data.isDelivered ? 'Nothing: it was erased when the vehicle was delivered.' : 'Nothing.'}</p> : (
          <ul class="plainlist">{data.kept.map((secret) => <Kept viewer={viewer} secret={secret} />)}</ul>
        )}
        <p class="quiet">Encrypted, with a key that lies outside the data. Each look is listed below. Delivery erases it; a copy made before holds the encrypted text until the copy is thrown away.</p>
      </section>
      {data.add === null ? '' : <Add viewer={viewer} add={data.add} />}
      <section class="block">
        <h2>Who did what</h2>
        {data.happened.length === 0 ? <p class="quiet">Nothing yet.</p> : (
          <ol class="history">{data.happened.map(({ when, who, what }) => <li><strong safe>{who}</strong> <span safe>{what}</span> <span class="quiet" safe>{when}</span></li>)}</ol>
        )}
      </section>
    </Frame>
  )
}

function Kept({ viewer, secret: { kind, look, erase } }: { viewer: Viewer, secret: SecretsData['kept'][number] }): JSX.Element {
  return (
    <li class="row">
      <strong safe>{kind}</strong>
      <Post post={look} csrfToken={viewer.csrfToken} label={`Show the ${kind}`}>Show</Post>
      {erase === undefined ? '' : <Post post={erase} csrfToken={viewer.csrfToken} label={`Erase the ${kind}`}>Erase</Post>}
    </li>
  )
}

/** Without what keeps typed text over a broken connection: this is not to lie in a browser's store. */
function Add({ viewer, add }: { viewer: Viewer, add: NonNullable<SecretsData['add']> }): JSX.Element {
  return (
    <section class="block">
      <h2>Keep another</h2>
      <form method="post" action={at(add.action)} autocomplete="off">
        <input type="hidden" name="_csrf" value={viewer.csrfToken} />
        <Fields>
          <ChoiceEntry name="kind" label="What" value={add.kinds[0] ?? ''} options={add.kinds.map((kind) => ({ value: kind, label: kind }))} note="It takes the place of what is kept of that kind." />
          <TextEntry name="text" label="Code or place" value="" required />
        </Fields>
        <div class="deed"><button class="button first" type="submit">Keep it encrypted</button></div>
      </form>
    </section>
  )
}

/** One secret in clear, this once. */
export function LookPage({ viewer, data }: { viewer: Viewer, data: LookData }): JSX.Element {
  return (
    <Frame title={`${data.kind} of ${data.name}`} place="builds" viewer={viewer} kind="narrow">
      <Trail steps={data.trail} />
      <Strip><TitleCell label={data.name} title={data.kind} /></Strip>
      <section class="block">
        <p class="lead prose" safe>{data.text}</p>
        <p class="quiet">That you looked is written down.</p>
        <p><a class="button" href={at(data.backHref)}>Done</a></p>
      </section>
    </Frame>
  )
}
