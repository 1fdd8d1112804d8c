import { Fields, Form, TextEntry } from '../shared/form.tsx'
import type { Viewer } from '../shared/viewer.ts'
import type { CheckData } from './checkData.ts'

/** Name and, where there is a script, a drawn signature; what is missing for it comes first. */
export function CheckSigning({ viewer, sign }: { viewer: Viewer, sign: NonNullable<CheckData['sign']> }): JSX.Element {
  return (
    <section class="block" id="signing">
      <h2>Signature of whoever checked</h2>
      {sign.missing.length > 0 ? <p>It can be signed, and the vehicle delivered, when this is settled: <span safe>{sign.missing.join('; ')}</span>.</p> : (
        <Form action={sign.action} csrfToken={viewer.csrfToken} idempotencyKey={sign.key} version={sign.version} submit="Sign the final check" note="An answer given after it takes the signature back.">
          <Fields>
            <TextEntry name="signedName" label="Name" note="A typed name is enough." value={viewer.name} required autocomplete="name" />
            <DrawField />
          </Fields>
        </Form>
      )}
    </section>
  )
}

/** Shown by the script, which draws into it. */
export function DrawField(): JSX.Element {
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

export function DrawnSignature({ signed: { name, when, path } }: { signed: NonNullable<CheckData['signed']> }): JSX.Element {
  return (
    <div class="signature">
      {path === '' ? '' : <svg viewBox="0 0 600 200" role="img" aria-label={`Drawn signature of ${name}`}><path d={path} /></svg>}
      <p><strong safe>{name}</strong> <span class="quiet" safe>{when}</span></p>
    </div>
  )
}
