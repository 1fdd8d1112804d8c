import { at } from '../shared/asset.ts'
import { Post } from '../shared/post.tsx'
import type { PostProps } from '../shared/post.tsx'

export interface ReadyPart {
  readonly number: string
  readonly name: string
  readonly href: string
  /** Fasteners and connectors in words; may be empty. */
  readonly how: string
  /** The form that records where it went; left out for those who may not. */
  readonly recordHref?: string | undefined
  /** One press into the next free bin. */
  readonly intoBin?: IntoBin | undefined
  /** One press into the bin that was used last. */
  readonly sameBin?: IntoBin | undefined
}

interface IntoBin { readonly name: string, readonly post: PostProps }

/** What nothing stands in front of any more. */
export function NextOut({ ready, csrfToken }: { ready: readonly ReadyPart[], csrfToken: string }): JSX.Element {
  return (
    <section class="block">
      <h2>Next to come out</h2>
      {ready.length === 0 ? <p>Nothing: all of it is out.</p> : <ul class="ready">{ready.map((part) => <Part part={part} csrfToken={csrfToken} />)}</ul>}
    </section>
  )
}

function Part({ part: { number, name, href, how, recordHref, intoBin, sameBin }, csrfToken }: { part: ReadyPart, csrfToken: string }): JSX.Element {
  return (
    <li>
      <div><a href={at(href)}><span class="no" safe>{number}</span>{' '}<strong safe>{name}</strong></a><span class="sub" safe>{how}</span></div>
      <div class="row">
        {[intoBin, sameBin].map((into) => into === undefined ? '' : (
          <Post post={into.post} csrfToken={csrfToken} label={`Into ${into.name}: ${number}`}><span safe>{`Into ${into.name}`}</span></Post>
        ))}
        {recordHref === undefined ? '' : <a href={at(recordHref)} aria-label={`Record it: ${number} ${name}`}>Record it</a>}
      </div>
    </li>
  )
}
