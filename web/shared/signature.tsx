export interface SignedBy {
  readonly name: string
  readonly when: string
  /** Path data in a drawing of 600 × 200, or empty where only the name was typed. */
  readonly path: string
}

export function Signature({ signed: { name, when, path } }: { signed: SignedBy }): JSX.Element {
  return (
    <div class="signature">
      {path === '' ? '' : <svg viewBox="0 0 600 200" role="img" aria-label={`Drawn signature of ${name}`}><path d={path} /></svg>}
      <p><strong safe>{name}</strong> <span class="quiet" safe>{when}</span></p>
    </div>
  )
}

/** Where a signature is drawn; hidden where there is no script, and the typed name is enough. */
export function SignatureEntry(): JSX.Element {
  return (
    <div class="field" data-sign hidden>
      <span class="name">Drawn with a finger or pen</span>
      <div class="into signature">
        <input type="hidden" name="signature" value="" />
        <svg viewBox="0 0 600 200" role="img" aria-label="Place for the drawn signature"><path d="" /></svg>
        <button class="button" type="button" data-sign-again>Begin again</button>
      </div>
    </div>
  )
}
