import type { Children } from '@kitajs/html'
import { at } from './asset.ts'

/** One press: where it goes, its key, and what it says beside the token. */
export interface PostProps {
  readonly action: string
  readonly idempotencyKey: string
  readonly values?: readonly (readonly [name: string, value: string])[]
}

interface Props {
  readonly post: PostProps
  readonly csrfToken: string
  readonly class?: string
  /** Where the word on the button alone does not say what it starts. */
  readonly label?: string
  readonly children: Children
}

/** A form that is one button. */
export function Post({ post, csrfToken, class: own = 'button', label, children }: Props): JSX.Element {
  return (
    <form method="post" action={at(post.action)}>
      <input type="hidden" name="_csrf" value={csrfToken} />
      <input type="hidden" name="_key" value={post.idempotencyKey} />
      {(post.values ?? []).map(([name, value]) => <input type="hidden" name={name} value={value} />)}
      <button class={own} type="submit" aria-label={label ?? false}>{children}</button>
    </form>
  )
}
