import { at } from './asset.ts'
import { Mark } from './marks.tsx'

export interface SavedProps {
  /** What was saved, as "operation 50 of P-510". */
  readonly what: string
  readonly csrfToken: string
  /** A POST that takes it back, where that is possible. */
  readonly undo?: { readonly action: string, readonly idempotencyKey: string, readonly version?: number, readonly values?: readonly (readonly [name: string, value: string])[] }
  readonly next?: { readonly href: string, readonly name: string }
}

/** What just happened, in the page until the next one. */
export function Saved({ what, csrfToken, undo, next }: SavedProps): JSX.Element {
  return (
    <div class="said" role="status">
      <Mark name="done" />
      <p>Saved: <strong safe>{what}</strong></p>
      <div class="row">
        {next === undefined ? '' : <a href={at(next.href)} safe>{next.name}</a>}
        {undo === undefined ? '' : <Undo undo={undo} csrfToken={csrfToken} />}
      </div>
    </div>
  )
}

function Undo({ undo, csrfToken }: { undo: NonNullable<SavedProps['undo']>, csrfToken: string }): JSX.Element {
  return (
    <form method="post" action={at(undo.action)}>
      <input type="hidden" name="_csrf" value={csrfToken} />
      <input type="hidden" name="_key" value={undo.idempotencyKey} />
      {undo.version === undefined ? '' : <input type="hidden" name="_version" value={String(undo.version)} />}
      {(undo.values ?? []).map(([name, value]) => <input type="hidden" name={name} value={value} />)}
      <button class="button" type="submit">Undo</button>
    </form>
  )
}
