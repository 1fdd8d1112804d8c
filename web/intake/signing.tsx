import { Fields, Form, TextEntry } from '../shared/form.tsx'
import { SignatureEntry } from '../shared/signature.tsx'
import type { Viewer } from '../shared/viewer.ts'
import type { IntakeData } from './intakeData.ts'

/** Name and, where there is a script, a drawn signature; what is missing for it comes first. */
export function Signing({ viewer, sign }: { viewer: Viewer, sign: NonNullable<IntakeData['sign']> }): JSX.Element {
  return (
    <section class="block" id="signing">
      <h2>Signature of the customer</h2>
      {sign.missing.length > 0 ? <p>It can be signed when this is done: <span safe>{sign.missing.join('; ')}</span>.</p> : (
        <Form action={sign.action} csrfToken={viewer.csrfToken} idempotencyKey={sign.key} version={sign.version} submit="Sign how the vehicle came"
          note="What is signed stays as it is; what is found later is marked as from after the signature.">
          <Fields>
            <TextEntry name="signedName" label="Name" note="Of whoever hands the vehicle over. A typed name is enough." value="" required autocomplete="name" />
            <SignatureEntry />
          </Fields>
        </Form>
      )}
    </section>
  )
}
