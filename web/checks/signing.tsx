import { Fields, Form, TextEntry } from '../shared/form.tsx'
import { SignatureEntry } from '../shared/signature.tsx'
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
            <SignatureEntry />
          </Fields>
        </Form>
      )}
    </section>
  )
}
