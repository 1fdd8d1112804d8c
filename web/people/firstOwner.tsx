import { Fields, Form, TextEntry, problemOf } from '../shared/form.tsx'
import { Frame } from '../shared/frame.tsx'
import { Strip, TitleCell } from '../shared/strip.tsx'
import type { FieldProblem } from '../shared/viewer.ts'

export interface FirstOwnerData {
  readonly values: { readonly code: string, readonly shopName: string, readonly name: string, readonly signInName: string }
  readonly problems: readonly FieldProblem[]
}

/** An empty shop: the code in the server's log proves that its keeper is here. */
export function FirstOwnerPage({ data: { values, problems } }: { data: FirstOwnerData }): JSX.Element {
  return (
    <Frame title="First owner" place={null} viewer={null} kind="narrow">
      <Strip><TitleCell label="New shop" title="First owner" /></Strip>
      <Form withPassword action="/first-owner" csrfToken="" idempotencyKey="" problems={problems} submit="Open the shop" alone>
        <Fields>
          <TextEntry name="code" label="One-time code" value={values.code} problem={problemOf(problems, 'code')} required
            autocomplete="one-time-code" note="It stands in the server’s log since the start, and works once." />
          <TextEntry name="shopName" label="Name of the shop" value={values.shopName} problem={problemOf(problems, 'shopName')} required autocomplete="organization" />
          <TextEntry name="name" label="Your name" value={values.name} problem={problemOf(problems, 'name')} required autocomplete="name" />
          <TextEntry name="signInName" label="Sign-in name" value={values.signInName} problem={problemOf(problems, 'signInName')} required
            autocomplete="username" note="Small letters, digits and dots: r.fennick." />
          <TextEntry name="password" label="Password" value="" type="password" problem={problemOf(problems, 'password')} required
            autocomplete="new-password" note="8 to 64 characters. A sentence you remember is better than a short riddle." />
        </Fields>
      </Form>
    </Frame>
  )
}
